/** The bundled example: readings of an invented bench. */
import example from '../../data/examples/harbour-lane-bench-2.json' with { type: 'json' };
import { benchRecordSchema } from '../record/schema.ts';
import { type BenchForm, formOf } from './form.ts';

export const demoBench: BenchForm = formOf(benchRecordSchema.parse(example));
