/** Records beyond any bench: the time of their analysis would be a long wait, and never what was meant. */
import type { RecordProblem } from './explain-issues.ts';
import type { BenchRecord } from './schema.ts';

/** Most of each in one record; lines and readings are counted over all its lamps, or all its tubes. */
const most = { lines: 500, readings: 1000, tubes: 20 } as const;

export function tooLarge({ known, unknown }: BenchRecord): RecordProblem[] {
  const counts = Object.entries({ known, unknown }).flatMap(([place, parts]) => {
    const lines = parts.flatMap((part) => part.lines);
    const readings = lines.flatMap((line) => line.readings);
    return [
      { place, what: 'lines', count: lines.length },
      { place, what: 'readings', count: readings.length },
    ] as const;
  });
  return [...counts, { place: 'unknown', what: 'tubes', count: unknown.length } as const]
    .filter(({ what, count }) => count > most[what])
    .map(({ place, what, count }) => ({
      place,
      message: `has ${count} ${what} in all; a record takes at most ${most[what]}: the others belong in a record of their own`,
    }));
}
