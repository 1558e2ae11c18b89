/** The calibration as pictures. */

import type { Analysis, ToldCalibration } from '../../../analysis/types.ts';
import type { CalibrationCurve } from '../../../calibrate/types.ts';
import type { Bench } from '../../../record/bench.ts';
import { linesInCurve } from '../../../words/lines-in-curve.ts';
import { amountDecimals, unitMark } from '../../quantity-text.ts';
import type { Figure } from '../document.ts';
import { curveFigure, residualFigure } from '../figures/calibration-figures.ts';

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
