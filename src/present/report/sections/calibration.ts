/** The known lines and the formulae that a student can use, every line with its residual, and two pictures. */
import type { Analysis, ToldCalibration } from '../../../analysis/types.ts';
import type { Bench, KnownBenchLine, Setting } from '../../../record/bench.ts';
import { movedZeroSentence } from '../../../words/lamp-moved.ts';
import { pocketFormula, pocketSentence, polynomialFormula } from '../../../words/pocket-formula.ts';
import { statusText } from '../../calibrate-text.ts';
import {
  amountDecimals,
  listedText,
  ordinateText,
  ordinateTitle,
  residualText,
  signedText,
  uncertaintyText,
  unitMark,
} from '../../quantity-text.ts';
import { type Block, blocksOf, formula, number, pair, paragraph, type Section, table } from '../document.ts';
import { doubtsSection, NO_DOUBTS } from './doubts.ts';
import { curvePicture, leadingTube, residualPicture, rmsSentence } from './pictures.ts';
import { settingText } from './reading-text.ts';

export function calibrationSection(analysis: Analysis): Section {
  const { calibration, bench, tubes } = analysis;
  const { curve } = calibration;
  // Where there is no strip to show, the curve stands on the first page.
  const isShown = tubes[0] === undefined || leadingTube(tubes[0]) === null;
  return {
    title: 'Calibration',
    blocks: blocksOf(
      curve === null ? paragraph('The known lines do not give a calibration yet.') : formulae(calibration),
      paragraph(
        [
          zeroSentence(bench),
          ...(bench.moved === undefined ? [] : [movedZeroSentence(bench, bench.moved) ?? []].flat()),
          ...(curve === null ? [] : [rmsSentence(calibration, bench)]),
          ...(doubtsSection(analysis) === null ? [NO_DOUBTS] : []),
        ].join(' '),
      ),
      lineTable(calibration, bench),
      checkTable(calibration, bench),
      curve && pair(isShown ? [] : [curvePicture(analysis, curve)], [residualPicture(analysis, curve)]),
    ),
  };
}

/** Where the deviations count from. */
function zeroSentence(bench: Bench): string {
  if (bench.method === 'scale')
    return 'The scale has no zero of deviation; its readings are used as they are.';
  if (bench.method === 'both-sides')
    return 'Each deviation is half the angle between the readings on the two sides, so no reading of the central image is needed.';
  return `Central image: ${centralText(bench)}. A deviation is the reading of the line minus this one, shown positive.`;
}

/** Its readings, and which of them were made before a move of the bench and which after it. */
function centralText(bench: Bench): string {
  const { central, moved } = bench;
  const text = (settings: readonly Setting[]): string =>
    settings.map((setting) => settingText(setting, bench)).join('; ');
  if (central.length === 0) return 'not read';
  const before = moved?.centralsBefore ?? 0;
  return before === 0 || before === central.length
    ? text(central)
    : `${text(central.slice(0, before))} before the move, ${text(central.slice(before))} after it`;
}

function formulae({ hartmann, polynomial, unit }: ToldCalibration): Block[] {
  return blocksOf(
    (hartmann ?? polynomial)
      ? null
      : paragraph('Too few known lines for a formula of their own: the curve in use is in the appendix.'),
    hartmann && formula(pocketFormula(hartmann, unit)),
    hartmann && paragraph(`Hartmann's formula by least squares. ${pocketSentence(hartmann, unit)}`),
    polynomial &&
      paragraph(`The polynomial that a spreadsheet would fit: ${polynomialFormula(polynomial, unit)}.`),
  );
}

function lineTable(calibration: ToldCalibration, bench: Bench): Block[] {
  const unit = unitMark(calibration.unit).trim();
  const lamps = bench.known.map(({ name }) => name);
  const row = (line: KnownBenchLine, lamp: string): string[] => {
    const told = calibration.lines.find(({ index }) => index === line.index);
    const u = told?.standardUncertainty ?? null;
    const residual = told?.residual ?? null;
    return [
      lamp,
      String(line.index + 1),
      line.statedWavelengthNm === null ? '-' : String(line.statedWavelengthNm),
      listedText(told?.wavelengthNm ?? null),
      line.colour ?? '-',
      line.texts.join('; '),
      told === undefined ? '-' : ordinateText(told, bench),
      u === null ? '-' : u.toFixed(amountDecimals(bench.leastCount)),
      residualText(residual, bench),
      residual === null || !u ? '-' : signedText(residual / u, 1),
      (told && statusText[told.status]) || 'used',
      [!line.use && 'left out by the observer', line.brightness, line.note].filter(Boolean).join('; '),
    ];
  };
  return table(
    'calibration lines',
    `Lines of the known lamp${lamps.length === 1 && lamps[0] !== '' ? `, ${lamps[0]}` : 's'}: readings as typed, repeats separated by semicolons. Residual: observed minus calculated, as read.`,
    [
      lamps.length === 1 ? { title: 'lamp', inCaption: true } : 'lamp',
      number('#'),
      number('stated (nm)'),
      number('used (nm)'),
      'colour',
      'reading',
      number(ordinateTitle(bench)),
      number(`u (${unit})`),
      number(`residual (${unit})`),
      number('residual/u'),
      'status',
      'note',
    ],
    bench.known.flatMap(({ name, lines }) => lines.map((line) => row(line, name))),
  );
}

function checkTable({ checks, unit }: ToldCalibration, bench: Bench): Block[] {
  const mark = unitMark(unit).trim();
  return table(
    'check lines',
    'Known lines kept out of the fit, to see whether the bench has moved: reading minus curve.',
    [number('wavelength (nm)'), 'reading', number(`residual (${mark})`), number(`u (${mark})`)],
    bench.check.map(({ wavelengthNm, texts }, i) => [
      String(wavelengthNm),
      texts.join('; '),
      residualText(checks[i]?.residual ?? null, bench),
      uncertaintyText(checks[i]?.standardUncertainty ?? null),
    ]),
  );
}
