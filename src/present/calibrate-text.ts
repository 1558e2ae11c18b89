/** The calibration in plain text. */
import type { Analysis, ToldCalibration, ToldCalibrationLine, TubeAnalysis } from '../analysis/types.ts';
import type { KnownLineStatus } from '../calibrate/types.ts';
import { roundWithUncertainty } from '../numeric/round-uncertainty.ts';
import type { Bench, Warning } from '../record/bench.ts';
import { budgetName } from '../words/budget-text.ts';
import { linesInCurve } from '../words/lines-in-curve.ts';
import { pocketFormula, pocketSentence, polynomialFormula } from '../words/pocket-formula.ts';
import { type Emphasis, plain } from './emphasis.ts';
import { indicesBlock } from './indices-text.ts';
import {
  amountDecimals,
  listedText,
  ordinateText,
  ordinateTitle,
  readingsText,
  residualText,
  uncertaintyText,
  unitMark,
} from './quantity-text.ts';
import { safeShortText, safeText } from './safe-text.ts';
import { bullet, indented, indentedParagraph, right, textTable, wrapText } from './text-table.ts';

/** The status words that people see. */
export const statusText: Readonly<Record<KnownLineStatus, string>> = {
  used: '',
  slip: 'slip',
  reassigned: 'other line',
  'set-aside': 'set aside',
};

interface CalibrateTextOptions {
  readonly emphasis?: Emphasis;
  /** Base of the prism, for its resolving power. */
  readonly baseMm?: number | null;
}

/** What `calibrate` prints for one record, within `pageWidth` columns where words can be broken. */
export function calibrateText(
  file: string,
  analysis: Analysis,
  recordWarnings: readonly Warning[],
  { emphasis = plain, baseMm = null }: CalibrateTextOptions = {},
): string {
  const { bench, calibration } = analysis;
  return [
    heading(file, bench.title, emphasis),
    calibrationSentence(bench, calibration),
    calibration.lines.length === 0 ? '' : lineTable(bench, calibration),
    checkBlock(bench, calibration),
    pocketBlock(calibration),
    calibration.indices && indicesBlock(bench, calibration.indices, calibration.settingScatter, baseMm),
    coefficientBlock(calibration),
    budgetBlock(bench, calibration),
    noteBlock('Doubts', [...calibration.doubts, ...lineMessages(calibration)]),
    noteBlock('Please note', [...recordWarnings, ...analysis.warnings, ...calibration.warnings]),
  ]
    .filter(Boolean)
    .join('\n\n');
}

/** `bench.json - Bench 2, afternoon`. */
export function heading(file: string, title: string, emphasis: Emphasis): string {
  const name = safeText(file === '-' ? 'standard input' : file);
  return emphasis.strong(title === '' ? name : wrapText(`${name} - ${safeShortText(title, 60)}`, '  '));
}

/** One sentence: which lamp, how many lines, which curve, how well they agree. */
export function calibrationSentence(bench: Bench, calibration: ToldCalibration): string {
  const lamps = bench.known
    .filter(({ name, lines }) => name !== '' || lines.length > 0)
    .map(({ name }) => (name === '' ? 'a lamp without a name' : safeShortText(name, 40)));
  const named = lamps.length === 0 ? 'no known lamp' : lamps.join(' + ');
  // The lines are then those of another lamp, and a doubt says of which.
  const isOther = calibration.doubts.some(({ kind }) => kind === 'wrong-lamp');
  const lampText = isOther ? `${named} (so named in the record, see the doubts)` : named;
  if (calibration.curve === null) return `Calibration on ${lampText}: not possible yet.`;
  const [shortest, longest] = calibration.curve.rangeNm;
  const agreement =
    calibration.rms === null
      ? ''
      : `, residuals ${calibration.rms.toFixed(amountDecimals(bench.leastCount))}${unitMark(calibration.unit)} rms`;
  return wrapText(
    `Calibration on ${lampText}: ${linesInCurve(calibration.lines)}, ` +
      `${shortest.toFixed(1)}-${longest.toFixed(1)} nm, ${calibration.model}${agreement}.`,
  );
}

function lineTable(bench: Bench, calibration: ToldCalibration): string {
  const known = bench.known.flatMap((lamp) => lamp.lines);
  const mark = unitMark(calibration.unit);
  const row = (line: ToldCalibrationLine): string[] => [
    String(line.index + 1),
    readingsText(known.find(({ index }) => index === line.index)?.texts ?? [], 24),
    ordinateText(line, bench),
    listedText(line.statedWavelengthNm),
    listedText(line.wavelengthNm),
    residualText(line.residual, bench),
    uncertaintyText(line.standardUncertainty),
    statusText[line.status],
  ];
  const nm = [right('stated nm'), right('used nm')];
  const columns = [
    right('#'),
    'reading',
    right(ordinateTitle(bench)),
    ...nm,
    right(`residual${mark}`),
    right(`u${mark}`),
    '',
  ];
  return textTable(columns, calibration.lines.map(row));
}

/** Known lines kept out of the fit. */
function checkBlock(bench: Bench, { checks, unit }: ToldCalibration): string {
  if (checks.length === 0) return '';
  const mark = unitMark(unit);
  const rows = checks.map(({ wavelengthNm, residual, standardUncertainty }, i) => [
    readingsText(bench.check[i]?.texts ?? [], 24),
    listedText(wavelengthNm),
    residualText(residual, bench),
    uncertaintyText(standardUncertainty),
  ]);
  const columns = ['reading', right('stated nm'), right(`residual${mark}`), right(`u${mark}`)];
  return `Check lines, not in the fit\n${indented(textTable(columns, rows))}`;
}

/** The formula for a pocket calculator, and the polynomial that a spreadsheet would fit. */
function pocketBlock({ hartmann, polynomial, unit }: ToldCalibration): string {
  if (hartmann === null && polynomial === null) return '';
  return [
    'To work with by hand',
    hartmann && `  ${pocketFormula(hartmann, unit)}`,
    hartmann && indentedParagraph(pocketSentence(hartmann, unit)),
    polynomial && indentedParagraph(polynomialFormula(polynomial, unit)),
  ]
    .filter(Boolean)
    .join('\n');
}

function coefficientBlock(calibration: ToldCalibration): string {
  if (calibration.coefficients.length === 0) return '';
  const rows = calibration.coefficients.map(({ name, value, standardUncertainty, unit }) => [
    name,
    standardUncertainty > 0 ? roundWithUncertainty(value, standardUncertainty).text : String(value),
    unit,
  ]);
  return [
    wrapText(`Curve: ${calibration.formula}`, '  '),
    indented(textTable(['constant', right('value ± u'), 'unit'], rows)),
    wrapText(calibration.choice),
  ].join('\n');
}

function budgetBlock(bench: Bench, calibration: ToldCalibration): string {
  if (calibration.budget.length === 0) return '';
  const mark = unitMark(calibration.unit);
  const rows = calibration.budget.map((term) => [
    budgetName(term, bench),
    uncertaintyText(term.standardUncertainty),
    term.sharedByAllLines ? 'yes' : '',
  ]);
  return `Uncertainty of a reading\n${indented(textTable(['from', right(`u${mark}`), 'shared'], rows))}`;
}

/** What is said of single lines of a lamp or a tube. */
export function lineMessages({
  lines,
}: Pick<ToldCalibration | TubeAnalysis, 'lines'>): { message: string }[] {
  return lines.flatMap(({ message }) => (message === null ? [] : [{ message }]));
}

/** A titled list of sentences, each once; nothing when there are none. */
export function noteBlock(title: string, notes: readonly { readonly message: string }[]): string {
  const sentences = [...new Set(notes.map(({ message }) => safeText(message)))];
  return sentences.length === 0 ? '' : [title, ...sentences.map((sentence) => bullet(sentence))].join('\n');
}
