/** Records beyond any bench: the time of their analysis would be a long wait, and never what was meant. */
import type { RecordProblem } from './explain-issues.ts';
import type { BenchRecord } from './schema.ts';

/** Most of all lamps together, and of all tubes together, in one record; each keeps the analysis within seconds. */
const most = {
  known: { lines: 200, readings: 600 },
  unknown: { lines: 500, readings: 1000, tubes: 20 },
} as const;

export function tooLarge({ known, unknown }: BenchRecord): RecordProblem[] {
  return [
    ...problems('known', most.known, sizeOf(known)),
    ...problems('unknown', most.unknown, { ...sizeOf(unknown), tubes: unknown.length }),
  ];
}

function sizeOf(parts: BenchRecord['known'] | BenchRecord['unknown']) {
  const lines = parts.flatMap((part): readonly { readonly readings: readonly unknown[] }[] => part.lines);
  return { lines: lines.length, readings: lines.reduce((sum, { readings }) => sum + readings.length, 0) };
}

function problems(
  place: string,
  limits: Readonly<Record<string, number>>,
  size: Readonly<Record<string, number>>,
): RecordProblem[] {
  return Object.entries(limits).flatMap(([what, limit]) => {
    const count = size[what] ?? 0;
    if (count <= limit) return [];
    const message = `has ${count} ${what} in all; a record takes at most ${limit}: the others belong in a record of their own`;
    return [{ place, message }];
  });
}
