/** The curve in use with its constants, and the curves that were tried. */
import type { ToldCalibration } from '../../../analysis/types.ts';
import { roundWithUncertainty } from '../../../numeric/round-uncertainty.ts';
import { unitMark } from '../../quantity-text.ts';
import { asFacts, type Block, formula, number, pair, paragraph, type Section, table } from '../document.ts';

/** Null without a curve. */
export function appendixSection(calibration: ToldCalibration): Section | null {
  if (calibration.curve === null) return null;
  return {
    title: 'Appendix: the curve in use',
    isSmall: true,
    blocks: pair(
      [
        paragraph(`The wavelengths are taken from the ${calibration.model}. ${calibration.choice}`),
        formula(calibration.formula),
        ...rivalTable(calibration),
      ],
      coefficientTable(calibration),
    ),
  };
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

function rivalTable({ rivals, unit }: ToldCalibration): Block[] {
  return table(
    'curves compared',
    `Curves that were tried: rms in ${unitMark(unit).trim()} of each line predicted by the others.`,
    ['curve', number('leave-one-out rms'), 'refused because'],
    rivals.map(({ name, leaveOneOutRms, refused }) => [
      name,
      leaveOneOutRms === null ? '-' : leaveOneOutRms.toFixed(2),
      refused ?? (leaveOneOutRms === null ? 'no line can be spared' : ''),
    ]),
  ).map(asFacts);
}
