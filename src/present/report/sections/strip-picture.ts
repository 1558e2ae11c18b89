/** The readings of a tube against the lines of one that it may be. */
import type { Candidate, TubeAnalysis } from '../../../analysis/types.ts';
import type { CalibrationCurve } from '../../../calibrate/types.ts';
import type { Bench } from '../../../record/bench.ts';
import { candidateName } from '../../identify-text.ts';
import type { Figure } from '../document.ts';
import { MOST_LABELS, stripFigure } from '../figures/strip-figure.ts';

/** The tube that the readings fit best; null where it is none of the listed, or kept back. */
export function leadingTube({ candidates }: TubeAnalysis): Candidate | null {
  const [leading] = candidates;
  return leading === undefined || leading.substance === 'unlisted' ? null : leading;
}

/** Nothing where no line was read. */
export function stripPicture(
  bench: Bench,
  tube: TubeAnalysis,
  candidate: Candidate,
  curve: CalibrationCurve,
): Figure[] {
  if (tube.lines.length === 0) return [];
  const name = candidateName(candidate);
  const crowded = tube.lines.length + candidate.missing.length > MOST_LABELS;
  return [
    {
      kind: 'figure',
      caption: `The readings of ${tube.label} on this bench's own scale, against ${name}. Above: number and place of each reading, and the difference to its line; an open pointer has none. In the strip: lines of ${name} (dashed: expected, not read; short: its other visible lines). Below: wavelengths in nm.${crowded ? ' There is no room to label them all: every second, third ... one is labelled.' : ''}`,
      description: `${candidate.matches.length} of ${tube.lines.length} readings fall on lines of ${name}; expected lines that were not read: ${candidate.missing.length}.`,
      draw: () => stripFigure(bench, tube, candidate, curve),
    },
  ];
}
