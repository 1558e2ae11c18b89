/** Records beyond any bench: the time of their analysis would be a long wait, and never what was meant. */
import type { RecordProblem } from './explain-issues.ts';
import { most } from './limits.ts';
import type { BenchRecord } from './schema.ts';

/** Where all lamps or all tubes together hold too much; the schema looks at each of them. */
export function tooLarge({ known, unknown, check = [] }: BenchRecord): RecordProblem[] {
  const knownLines = known.flatMap((lamp) => lamp.lines);
  const checks = [...check, ...known.flatMap((lamp) => lamp.check ?? [])];
  const unknownLines = unknown.flatMap((tube) => tube.lines);
  return [
    ...problems('known', most.knownInAll, {
      lines: knownLines.length,
      readings: readingsOf([...knownLines, ...checks]),
    }),
    ...problems('unknown', most.unknownInAll, {
      readings: readingsOf(unknownLines),
      places: unknown.reduce((sum, { notSeen = [] }) => sum + notSeen.length, 0),
    }),
  ];
}

function readingsOf(lines: readonly { readonly readings: readonly unknown[] }[]): number {
  return lines.reduce((sum, { readings }) => sum + readings.length, 0);
}

function problems<What extends string>(
  place: string,
  limits: Readonly<Record<What, number>>,
  size: Readonly<Record<What, number>>,
): RecordProblem[] {
  return (Object.keys(limits) as What[]).flatMap((what) => {
    if (size[what] <= limits[what]) return [];
    const named = what === 'places' ? 'places where nothing was seen' : what;
    const message = `has ${size[what]} ${named} in all; a record takes at most ${limits[what]}: the others belong in a record of their own`;
    return [{ place, message }];
  });
}
