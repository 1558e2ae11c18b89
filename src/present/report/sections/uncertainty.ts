/** The uncertainty budget, and its formulae worked through for one line. */
import type { Analysis, ToldCalibration, TubeAnalysis, TubeLineResult } from '../../../analysis/types.ts';
import type { BudgetTerm, CalibrationCurve } from '../../../calibrate/types.ts';
import { roundWithUncertainty } from '../../../numeric/round-uncertainty.ts';
import type { Bench } from '../../../record/bench.ts';
import { budgetFormula, budgetName } from '../../../words/budget-text.ts';
import { pocketConstants } from '../../../words/pocket-formula.ts';
import { budgetOfTubeNote } from '../../../words/rounded-readings.ts';
import { amountDecimals, deviationText, unitMark } from '../../quantity-text.ts';
import {
  type Block,
  blocksOf,
  formula,
  heading,
  number,
  paragraph,
  type Section,
  table,
} from '../document.ts';

export function uncertaintySection(analysis: Analysis): Section {
  const { bench, calibration } = analysis;
  const { budget, unit, curve } = calibration;
  const mark = unitMark(unit);
  const example = curve && exampleLine(analysis.tubes);
  const blocks = blocksOf(
    paragraph(
      'Standard uncertainties after the Guide to the expression of uncertainty in measurement (JCGM 100:2008). What is common moves all lines together, and cancels between lamp and tube where they share it.',
    ),
    table(
      'uncertainty budget',
      'Uncertainty of one line on the circle or scale: what is its own, and what is common to all lines.',
      ['from', number(`u (${mark.trim()})`), 'how', 'kind'],
      budget.map((term) => [
        budgetName(term, bench),
        amount(term.standardUncertainty, bench),
        budgetFormula(term, bench, calibration),
        term.sharedByAllLines ? 'common' : 'own',
      ]),
    ),
    ...bench.tubes.map((tube) => {
      const note = budget.length === 0 ? null : budgetOfTubeNote(bench, tube);
      return note !== null && paragraph(note);
    }),
    curve && example && workedExample(analysis, example.tube, example.line, curve),
  );
  return { title: 'Uncertainty budget', blocks };
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
  const slopeText = Number(slope.toPrecision(3)).toString();
  const squared = (term: BudgetTerm): string => `${amount(term.standardUncertainty, bench)}²`;
  const told = (term: BudgetTerm): string =>
    `u(${budgetName(term, bench)}) = ${amount(term.standardUncertainty, bench)}${mark}`;
  const read = bench.tubes[tube.tubeIndex]?.lines.find(({ index }) => index === line.index);
  const stated = roundWithUncertainty(nm, line.standardUncertaintyNm);
  const ordinate =
    line.deviationDeg === null
      ? `scale reading s = ${Number(line.ordinate.toFixed(4))}`
      : `deviation δ = ${deviationText(line.deviationDeg, bench)} = ${line.ordinate.toFixed(2)}'`;
  const symbol = line.deviationDeg === null ? 's' : 'δ';
  return [
    heading(`Worked example: line ${line.index + 1} of ${tube.label}`),
    formula(
      `Read: ${read?.texts.join('; ') ?? '-'}; ${ordinate}`,
      ...pocketLines(calibration, line.ordinate),
      `On the curve in use: λ = ${stated.value} nm, and |d${symbol}/dλ| = ${slopeText}${mark} per nm`,
      `u(${symbol}) = √(${own.map(squared).join(' + ')}) = ${amount(uReading, bench)}${mark} from the parts that are its own`,
      ...(shared.length === 0 ? [] : [shared.map(told).join(',  ')]),
      `u(λ) = √(${[`${amount(uReading, bench)}²`, ...shared.map(squared)].join(' + ')}) / |d${symbol}/dλ| = ${amount(rootSumOfSquares(line.budget), bench)}${mark} / ${slopeText} = ${stated.u} nm`,
      `Result: λ = ${stated.text} nm`,
    ),
  ];
}

/** The formula for a pocket calculator with this line's numbers put in, and its slope, which turns u(δ) into nm. */
function pocketLines({ hartmann, unit }: ToldCalibration, ordinate: number): string[] {
  if (hartmann === null) return [];
  const { lambda0Nm, strengthNm, zero } = pocketConstants(hartmann, unit);
  const onCircle = unit === 'arcmin';
  const [symbol, per] = onCircle ? ['δ', '°'] : ['s', ''];
  const value = onCircle ? ordinate / 60 : ordinate;
  const from = value - zero;
  const text = (amount: number): string => Number(amount.toPrecision(7)).toString();
  const slope = Math.abs(strengthNm / from ** 2) / (onCircle ? 60 : 1);
  return [
    `λ = λ0 + C/(${symbol} - ${symbol}0) = ${text(lambda0Nm)} + ${text(strengthNm)} / (${text(value)}${per} - ${text(zero)}${per}) = ${text(lambda0Nm)} + ${text(strengthNm)} / ${text(from)} = ${(lambda0Nm + strengthNm / from).toFixed(1)} nm`
      .replaceAll('- -', '+ ')
      .replaceAll('+ -', '- '),
    `|dλ/d${symbol}| = |C|/(${symbol} - ${symbol}0)² = ${text(Math.abs(strengthNm))} / ${text(from)}² = ${(Math.abs(strengthNm) / from ** 2).toPrecision(4)} nm per ${onCircle ? `degree = ${slope.toFixed(2)} nm per arc-minute` : 'scale unit'}`,
  ];
}

const amount = (u: number, { leastCount }: Bench): string => u.toFixed(amountDecimals(leastCount));

function rootSumOfSquares(terms: readonly BudgetTerm[]): number {
  return Math.hypot(...terms.map(({ standardUncertainty }) => standardUncertainty));
}
