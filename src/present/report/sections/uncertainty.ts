/** The uncertainty budget, and its formulae worked through for one line. */
import type { Analysis, TubeAnalysis, TubeLineResult } from '../../../analysis/types.ts';
import type { BudgetItem, CalibrationCurve } from '../../../calibrate/types.ts';
import { roundWithUncertainty } from '../../../numeric/round-uncertainty.ts';
import { deviationText, unitMark } from '../../quantity-text.ts';
import { type Block, formula, heading, number, paragraph, type Section, table } from '../document.ts';

export function uncertaintySection(analysis: Analysis): Section {
  const { budget, unit, curve } = analysis.calibration;
  const mark = unitMark(unit);
  const blocks: Block[] = [
    paragraph(
      'Standard uncertainties after the Guide to the expression of uncertainty in measurement (JCGM 100:2008). What is the same mistake in every line is marked as common: it moves all lines together and cancels between lamp and tube where they share it.',
    ),
    ...table(
      'uncertainty budget',
      'Uncertainty of one line on the circle or scale.',
      ['from', number(`u (${mark.trim()})`), 'how', 'kind'],
      budget.map((item) => [
        item.name,
        item.standardUncertainty.toFixed(2),
        item.formula,
        item.sharedByAllLines ? 'common to all lines' : 'each line its own',
      ]),
    ),
  ];
  const example = exampleLine(analysis.tubes);
  return {
    title: 'Uncertainty budget',
    blocks:
      curve === null || example === null
        ? blocks
        : [...blocks, ...workedExample(analysis, example.tube, example.line, curve)],
  };
}

type MeasuredLine = TubeLineResult & {
  readonly wavelengthNm: number;
  readonly standardUncertaintyNm: number;
  readonly ordinate: number;
};

/** A line in the middle of the spectrum, inside the calibrated range if there is one. */
function exampleLine(tubes: readonly TubeAnalysis[]): { tube: TubeAnalysis; line: MeasuredLine } | null {
  const measured = tubes.flatMap((tube) =>
    tube.lines
      .filter(
        (line): line is MeasuredLine =>
          line.wavelengthNm !== null && line.standardUncertaintyNm !== null && line.ordinate !== null,
      )
      .filter((line) => line.status === 'used')
      .map((line) => ({ tube, line })),
  );
  const inside = measured.filter(({ line }) => !line.extrapolated);
  const choices = (inside.length > 0 ? inside : measured).sort(
    (a, b) => a.line.wavelengthNm - b.line.wavelengthNm,
  );
  return choices[Math.floor((choices.length - 1) / 2)] ?? null;
}

function workedExample(
  { bench, calibration }: Analysis,
  tube: TubeAnalysis,
  line: MeasuredLine,
  curve: CalibrationCurve,
): Block[] {
  const mark = unitMark(calibration.unit);
  const nm = line.wavelengthNm;
  const own = calibration.budget.filter((item) => !item.sharedByAllLines);
  const uReading = rootSumOfSquares(own);
  const uCurve = Math.sqrt(curve.covariance(nm, nm));
  const slope = Math.abs(curve.slopeAt(nm));
  const uNm = Math.hypot(uReading, uCurve) / slope;
  const read = bench.tubes[tube.tubeIndex]?.lines.find(({ index }) => index === line.index);
  const stated = roundWithUncertainty(nm, line.standardUncertaintyNm);
  const ordinate =
    line.deviationDeg === null
      ? `scale reading s = ${Number(line.ordinate.toFixed(4))}`
      : `deviation δ = ${deviationText(line.deviationDeg, bench)} = ${line.ordinate.toFixed(2)}'`;
  const symbol = line.deviationDeg === null ? 's' : 'δ';
  return [
    heading(`Worked example: line ${line.index + 1} of ${tube.label}`),
    paragraph(
      `Read: ${read?.texts.join('; ') ?? '-'}; ${ordinate}. On the curve this is λ = ${stated.value} nm, where the curve changes by |d${symbol}/dλ| = ${slope.toFixed(3)}${mark} per nm.`,
    ),
    formula(
      `u(${symbol}) = √(${own.map((item) => `${item.standardUncertainty.toFixed(2)}²`).join(' + ')}) = ${uReading.toFixed(2)}${mark}   (own parts: ${own.map((item) => item.name).join(', ')})`,
      `u(curve) = √(covariance of the curve at λ) = ${uCurve.toFixed(2)}${mark}`,
      `u(λ) = √(u(${symbol})² + u(curve)²) / |d${symbol}/dλ| = √(${uReading.toFixed(2)}² + ${uCurve.toFixed(2)}²) / ${slope.toFixed(3)} = ${roundWithUncertainty(nm, uNm).u} nm`,
    ),
    paragraph(resultSentence(stated.text, uNm, line.standardUncertaintyNm)),
  ];
}

/** Says so where the stated uncertainty holds more than the three lines above. */
function resultSentence(stated: string, uNm: number, statedUNm: number): string {
  const result = `Result: λ = ${stated} nm.`;
  const ratio = statedUNm / uNm;
  if (ratio > 1.1) {
    return `${result} The stated uncertainty is larger than this sum (by a factor of ${ratio.toFixed(2)}): this line's own repeats, the central image where it was read again, and the other ways to understand the known lines are in it too.`;
  }
  if (ratio < 0.9) {
    return `${result} The stated uncertainty is smaller than this sum (by a factor of ${(1 / ratio).toFixed(2)}): this line was read more often than the budget assumes.`;
  }
  return result;
}

function rootSumOfSquares(items: readonly BudgetItem[]): number {
  return Math.hypot(...items.map((item) => item.standardUncertainty));
}
