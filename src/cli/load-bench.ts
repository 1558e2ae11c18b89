/** A record file turned into a bench, its problems into sentences that name the place. */
import { asScale } from '../analysis/as-scale.ts';
import { decimalsMeant } from '../analysis/decimals-meant.ts';
import type { Bench, Warning } from '../record/bench.ts';
import { type RecordProblem, readRecord } from '../record/read-record.ts';
import type { BenchRecord } from '../record/schema.ts';
import { centralLost, takenAsScale } from '../words/as-scale.ts';
import { readTextFile } from './files.ts';
import { shownName, UserError } from './user-error.ts';

export interface LoadedBench {
  /** The argument as given. */
  readonly file: string;
  readonly record: BenchRecord;
  readonly bench: Bench;
  /** What is odd in the record without being wrong. */
  readonly warnings: readonly Warning[];
}

/** Problems listed for one file; more are only counted. */
const listedProblems = 12;

/** `calibrationFrom`: the bench whose central image serves where this one has none. `isAsScale`: `asScale`. */
export async function loadBench(
  file: string,
  calibrationFrom: Bench | null = null,
  isAsScale = false,
): Promise<LoadedBench> {
  const result = readRecord(await readTextFile(file));
  const name = shownName(file);
  if (!result.ok) {
    const placeOf = (place: string) => (place === '' ? name : `${name}: ${place}`);
    throw unusableRecord(name, result.problems, placeOf);
  }
  const { record, bench, warnings } = decimalsMeant(result);
  if (isAsScale && bench.method !== 'scale') {
    const told: Warning = { code: 'taken-as-scale', message: takenAsScale };
    return { file, record, bench: asScale(bench, calibrationFrom), warnings: [...warnings, told] };
  }
  if ((calibrationFrom?.central.length ?? 0) === 0) requireCentral(name, bench);
  return { file, record, bench, warnings };
}

/** The problems of one record as sentences, the first of them at least. `placeOf`: the place as a person finds it. */
export function unusableRecord(
  name: string,
  problems: readonly RecordProblem[],
  placeOf: (place: string) => string,
): UserError {
  const listed = problems
    .slice(0, listedProblems)
    .map(({ place, message }) => `${placeOf(place)}: ${message}`);
  const more = problems.length - listed.length;
  return new UserError(...listed, ...(more > 0 ? [`${name}: and ${more} more like these`] : []));
}

/** The record that something was made into, read as every record is. Throws UserError; `placeOf` as there. */
export function madeRecord(name: string, record: object, placeOf: (place: string) => string) {
  const read = readRecord(JSON.stringify(record));
  if (!read.ok) throw unusableRecord(name, read.problems, placeOf);
  return read;
}

/** Where the deviation is counted from the central image, lines without a central reading mean nothing. */
function requireCentral(name: string, bench: Bench): void {
  if (bench.method !== 'central' || bench.central.length > 0) return;
  const knownWithoutZero = bench.known.some((lamp) => lamp.lines.length > 0);
  const tubeWithoutZero = bench.tubes.some((tube) => tube.central === null && tube.lines.length > 0);
  if (knownWithoutZero || tubeWithoutZero) {
    throw new UserError(
      `${name}: central: missing; with the method "central" the reading of the central image is the zero of every deviation. ${centralLost}`,
    );
  }
}
