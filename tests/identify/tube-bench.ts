/** Short words for tests of identification: a tube read on a clean helium bench. */
import { analyseBench } from '../../src/analysis/analyse.ts';
import type { Candidate, TubeAnalysis } from '../../src/analysis/types.ts';
import { benchOf, GlassReader, type PlainRecord, recordOf, unknownTube } from '../calibrate/glass-bench.ts';

export const reader = new GlassReader();

/** The analysis of the only tube of a record. */
export const analysedTube = (record: PlainRecord): TubeAnalysis => analyseBench(benchOf(record)).tubes[0]!;

/** A tube whose lines were read once each; `more`: what else the record says of the tube. */
export const tubeWith = (wavelengthsNm: readonly number[], more: PlainRecord = {}): TubeAnalysis =>
  analysedTube(recordOf(reader, { unknown: unknownTube(reader, wavelengthsNm, more) }));

/** Does the row stand for this tube, alone or with others it cannot be told from? */
export const standsFor = (row: Candidate, substance: string): boolean =>
  row.with.length === 0 && [row.substance, ...row.indistinguishable].includes(substance);

export const probabilityOf = ({ candidates }: TubeAnalysis, substance: string): number =>
  candidates
    .filter((row) => standsFor(row, substance))
    .reduce((sum, { probability }) => sum + probability, 0);
