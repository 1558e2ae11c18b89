/** The uncertainty budget, and its formulae worked through for one line. */
import type { Analysis, TubeAnalysis, TubeLineResult } from '../../../analysis/types.ts';
import type { BudgetTerm, CalibrationCurve } from '../../../calibrate/types.ts';
import { roundWithUncertainty } from '../../../numeric/round-uncertainty.ts';
import { budgetFormula, budgetName } from '../../../words/budget-text.ts';
import { deviationText, unitMark } from '../../quantity-text.ts';
import { type Block, formula, heading, number, paragraph, type Section, table } from '../document.ts';

export function uncertaintySection(analysis: Analysis): Section {
  const { bench, calibration } = analysis;
  const { budget, unit, curve } = calibration;
  const mark = unitMark(unit);
  const blocks: Block[] = [
    paragraph(
      'Standard uncertainties after the Guide to the expression of uncertainty in measurement (JCGM 100:2008). What is the same mistake in every line is marked as common: it moves all lines together and cancels between lamp and tube where they share it.',
    ),
    ...table(
      'uncertainty budget',
      'Uncertainty of one line on the circle or scale.',
      ['from', number(`u (${mark.trim()})`), 'how', 'kind'],
      budget.map((term) => [
        budgetName(term, bench),
        term.standardUncertainty.toFixed(2),
        budgetFormula(term, bench, calibration),
        term.sharedByAllLines ? 'common to all lines' : 'each line its own',
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
  const own = line.budget.filter(({ sharedByAllLines }) => !sharedByAllLines);
  const shared = line.budget.filter(({ sharedByAllLines }) => sharedByAllLines);
  const uReading = rootSumOfSquares(own);
  const slope = Math.abs(curve.slopeAt(nm));
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
      `u(${symbol}) = √(${own.map(squared).join(' + ')}) = ${uReading.toFixed(2)}${mark}   (own parts: ${own.map((term) => budgetName(term, bench)).join(', ')})`,
      ...shared.map(
        (term) => `u(${budgetName(term, bench)}) = ${term.standardUncertainty.toFixed(2)}${mark}`,
      ),
      `u(λ) = √(${[`${uReading.toFixed(2)}²`, ...shared.map(squared)].join(' + ')}) / |d${symbol}/dλ| = ${rootSumOfSquares(line.budget).toFixed(2)}${mark} / ${slope.toFixed(3)} = ${stated.u} nm`,
    ),
    paragraph(`Result: λ = ${stated.text} nm.`),
  ];
}

const squared = ({ standardUncertainty }: BudgetTerm): string => `${standardUncertainty.toFixed(2)}²`;

function rootSumOfSquares(terms: readonly BudgetTerm[]): number {
  return Math.hypot(...terms.map(({ standardUncertainty }) => standardUncertainty));
}
