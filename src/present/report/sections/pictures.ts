/** The pictures of a report: the calibration, and the readings of a tube against the lines of one that it may be. */
import type { Analysis, Candidate, ToldCalibration, TubeAnalysis } from '../../../analysis/types.ts';
import type { CalibrationCurve } from '../../../calibrate/types.ts';
import type { Bench } from '../../../record/bench.ts';
import { linesInCurve } from '../../../words/lines-in-curve.ts';
import { candidateName } from '../../identify-text.ts';
import { amountDecimals, unitMark } from '../../quantity-text.ts';
import type { Figure } from '../document.ts';
import { curveFigure, residualFigure } from '../figures/calibration-figures.ts';
import { MOST_LABELS, stripFigure } from '../figures/strip-figure.ts';

export function curvePicture(analysis: Analysis, curve: CalibrationCurve): Figure {
  return {
    kind: 'figure',
    half: true,
    caption:
      'The curve with its ±2u band (grey), and the known lines with their numbers: circle, used as stated; diamond, used as another line of the lamp; cross, slip; open square, set aside. Triangles: readings of the unknown tube.',
    description: `Calibration curve from ${curve.rangeNm[0]} to ${curve.rangeNm[1]} nm: ${linesInCurve(analysis.calibration.lines)} of the known lamp.`,
    draw: () => curveFigure(analysis, curve),
  };
}

export function residualPicture(analysis: Analysis, curve: CalibrationCurve): Figure {
  return {
    kind: 'figure',
    half: true,
    caption:
      'Observed minus calculated, with ±u of each reading. Grey: ±2u of the curve. What lies beyond the scale is drawn at its edge.',
    description: rmsSentence(analysis.calibration, analysis.bench),
    draw: () => residualFigure(analysis, curve),
  };
}

/** How well the known lines agree with the curve, in the ordinate's unit. */
export function rmsSentence({ rms, settingScatter, unit }: ToldCalibration, { leastCount }: Bench): string {
  const mark = unitMark(unit);
  const decimals = amountDecimals(leastCount);
  const fit = rms === null ? '' : `The lines used lie ${rms.toFixed(decimals)}${mark} (rms) from the curve.`;
  const scatter =
    settingScatter === null
      ? ''
      : ` Setting the cross-hairs scatters by ${settingScatter.toFixed(decimals)}${mark}, from repeats and residuals together.`;
  return `${fit}${scatter}`.trim();
}

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
