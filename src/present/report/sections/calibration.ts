/** The curve: which one and why, its constants, every known line with its residual, and two pictures. */
import type { Analysis, ToldCalibration, ToldCalibrationLine } from '../../../analysis/types.ts';

import { roundWithUncertainty } from '../../../numeric/round-uncertainty.ts';
import type { Bench } from '../../../record/bench.ts';
import { statusText } from '../../calibrate-text.ts';
import { deviationText, listedText, signedText, unitMark } from '../../quantity-text.ts';
import { type Block, formula, number, paragraph, type Section, table } from '../document.ts';
import { curveFigure, residualFigure } from '../figures/calibration-figures.ts';

export function calibrationSection(analysis: Analysis): Section {
  const { calibration, bench } = analysis;
  const { curve } = calibration;
  if (curve === null) {
    return {
      title: 'Calibration',
      blocks: [paragraph('The known lines do not give a calibration yet.'), ...lineTable(calibration, bench)],
    };
  }
  return {
    title: 'Calibration',
    blocks: [
      paragraph(`${calibration.choice} The curve (${calibration.model}) is`),
      formula(calibration.formula),
      ...coefficientTable(calibration),
      ...lineTable(calibration, bench),
      paragraph(rmsSentence(calibration)),
      {
        kind: 'figure',
        caption:
          'The calibration curve with its ±2u band (grey). Known lines carry their numbers: filled circle, used as stated; diamond, used as another line of the lamp; cross, slip; open square, set aside. Open triangles are the readings of the unknown tube.',
        description: `Calibration curve from ${curve.rangeNm[0]} to ${curve.rangeNm[1]} nm through ${calibration.lines.length} known lines.`,
        draw: () => curveFigure(analysis, curve),
      },
      {
        kind: 'figure',
        caption:
          'What the curve leaves over: observed minus calculated, with ±u of each reading. Grey: ±2u of the curve. Slips and lines set aside that lie beyond the scale are drawn at its edge.',
        description: rmsSentence(calibration),
        draw: () => residualFigure(analysis, curve),
      },
      ...rivalTable(calibration),
    ],
  };
}

function rmsSentence({ rms, settingScatter, unit }: ToldCalibration): string {
  const mark = unitMark(unit);
  const fit = rms === null ? '' : `The lines used lie ${rms.toFixed(2)}${mark} (rms) from the curve.`;
  const scatter =
    settingScatter === null
      ? ''
      : ` Setting the cross-hairs scatters by ${settingScatter.toFixed(2)}${mark}, from repeats and residuals together.`;
  return `${fit}${scatter}`.trim();
}

function coefficientTable({ coefficients }: ToldCalibration): Block[] {
  return table(
    'curve constants',
    'Constants of the curve.',
    ['constant', number('value'), number('u'), 'unit'],
    coefficients.map(({ name, value, standardUncertainty, unit }) => {
      const given = standardUncertainty > 0 ? roundWithUncertainty(value, standardUncertainty) : null;
      return [name, given?.value ?? String(value), given?.u ?? 'exact', unit];
    }),
  );
}

function lineTable(calibration: ToldCalibration, bench: Bench): Block[] {
  const unit = unitMark(calibration.unit).trim();
  const onCircle = bench.method !== 'scale';
  const row = (line: ToldCalibrationLine): string[] => [
    String(line.index + 1),
    line.statedWavelengthNm === null ? '-' : String(line.statedWavelengthNm),
    listedText(line.wavelengthNm),
    onCircle
      ? deviationText(line.deviationDeg, bench)
      : line.ordinate === null
        ? '-'
        : String(Number(line.ordinate.toFixed(4))),
    line.standardUncertainty === null ? '-' : line.standardUncertainty.toFixed(2),
    signedText(line.residual, 2),
    line.residual === null || !line.standardUncertainty
      ? '-'
      : signedText(line.residual / line.standardUncertainty, 1),
    statusText[line.status] || 'used',
  ];
  return table(
    'calibration lines',
    'Known lines on the curve. Residual: observed minus calculated, as read.',
    [
      number('#'),
      number('stated (nm)'),
      number('used (nm)'),
      number(onCircle ? 'deviation' : 'scale'),
      number(`u (${unit})`),
      number(`residual (${unit})`),
      number('residual / u'),
      'status',
    ],
    calibration.lines.map(row),
  );
}

function rivalTable({ rivals, unit }: ToldCalibration): Block[] {
  return table(
    'curves compared',
    'The curves that were tried. Leave-one-out: each line predicted by the others.',
    ['curve', number(`leave-one-out rms (${unitMark(unit).trim()})`), 'refused because'],
    rivals.map(({ name, leaveOneOutRms, refused }) => [
      name,
      leaveOneOutRms === null ? '-' : leaveOneOutRms.toFixed(2),
      refused ?? '',
    ]),
  );
}
