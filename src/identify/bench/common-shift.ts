/** The shift that all readings of a tube share, as one assumption understands the bench. */
import type { Assumption, Evidence } from '../evidence/candidate-evidence.ts';
import type { ModelLine } from '../spectrum/expected-lines.ts';

/**
 * What a central image mended, or a bench that was moved, takes off every reading, in the ordinate's unit. For a moved
 * bench the mean of readings minus lines; `matched`: the line of each reading, or null.
 */
export function commonShift(
  evidence: Evidence,
  { passage: { view } }: Assumption,
  matched: readonly (ModelLine | null)[],
): number {
  if (view.story !== 'moved') return view.shift;
  const offs = evidence.readings.flatMap((reading, i) => {
    const line = matched[i];
    return line ? [reading.ordinate - line.ordinate] : [];
  });
  return offs.reduce((sum, off) => sum + off, 0) / Math.max(1, offs.length);
}
