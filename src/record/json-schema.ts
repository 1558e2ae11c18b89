import * as z from 'zod/mini';
import { benchRecordSchema } from './schema.ts';

/** JSON Schema (draft 2020-12) of the bench record as it may stand in a file. */
export function recordJsonSchema(): Record<string, unknown> {
  return {
    title: 'whichgas bench record',
    ...z.toJSONSchema(benchRecordSchema, { io: 'input' }),
  };
}
