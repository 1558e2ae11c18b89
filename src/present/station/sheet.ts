/**
 * The sheet of a station to print: for a pair at the bench without a computer. Its white columns are those that
 * `import` reads, so that what is written on it can be typed off row by row.
 */
import type { WantedLine } from '../../analysis/predict.ts';
import { formatAngle } from '../../angle/format-angle.ts';
import type { Bench, Method } from '../../record/bench.ts';
import type { BenchRecord } from '../../record/schema.ts';
import { escapeHtml } from '../report/escape.ts';
import { htmlPage } from '../report/html-page.ts';
import { cautions } from '../report/sections/cautions.ts';
import { sheetStyle } from './sheet-style.ts';
import { squaredPaper } from './squared-paper.ts';

export interface StationSheet {
  /** File name of the prepared record. */
  readonly file: string;
  readonly record: BenchRecord;
  readonly bench: Bench;
  /** As it was written. */
  readonly leastCount: string;
  readonly lamp: string;
  /** In the order in which they are met. */
  readonly known: readonly WantedLine[];
  /** The tubes that it can be, each with some of its bright lines; empty where it can be any. */
  readonly shelf: readonly { readonly tube: string; readonly lines: readonly WantedLine[] }[];
}

/** Rows to fill in. */
const rowsOfTube = 14;
const rowsOfOneOfSeveral = 10;
const spareKnownRows = 2;

/** All sheets as one self-contained page; each station begins on a new piece of paper. */
export function sheetsHtml(sheets: readonly StationSheet[]): string {
  const title =
    sheets.length === 1 ? (sheets[0]!.record.title ?? '') : `Data sheets of ${sheets.length} stations`;
  return htmlPage(title, sheetStyle, sheets.map(sheetHtml));
}

function sheetHtml(sheet: StationSheet): string {
  const { known, bench } = sheet;
  const tubes = bench.tubes.map(({ label }) => label);
  const columns = columnsOf(sheet);
  const rowsEach = tubes.length === 1 ? rowsOfTube : rowsOfOneOfSeveral;
  const blank = (count: number, cells: Cells) => Array.from({ length: count }, () => cells);
  const centralRow: Cells = { lamp: 'central' };
  const central = (count: number) => (bench.method === 'central' ? blank(count, centralRow) : []);
  return [
    '<article>',
    head(sheet),
    cautionBox(),
    '<h2>Readings</h2>',
    howTo(sheet),
    table(columns, [
      ...central(2),
      ...known.map((line) => ({
        lamp: sheet.lamp,
        wavelength: line.wavelengthNm.toFixed(2),
        colour: line.colour,
        brightness: line.brightness ?? '',
      })),
      ...blank(spareKnownRows, { lamp: sheet.lamp }),
    ]),
    ...tubes.flatMap((tube, at) => [
      `<h2 class="tube">${tubes.length === 1 ? 'The unknown tube' : `Unknown tube ${at + 1}`}: ${escapeHtml(tube)}</h2>`,
      ...(at === 0 ? [TUBE_HINTS] : []),
      table(columns, [...blank(rowsEach, { tube }), ...(at === tubes.length - 1 ? central(1) : [])]),
      answerBox(sheet, tube),
    ]),
    typedOff(sheet),
    byHand(sheet),
    '</article>',
  ].join('\n');
}

type Cells = Readonly<Record<string, string>>;

interface SheetColumn {
  readonly title: string;
  /** Share of the width. */
  readonly percent: number;
  /** Worked out by the pair, and no column of `import`. */
  readonly work?: boolean;
}

/** The columns that `import` reads, and two to work in. */
function columnsOf({ bench: { method } }: StationSheet): readonly SheetColumn[] {
  const readings = method === 'both-sides' ? ['left', 'right'] : ['reading', 'reading 2'];
  return [
    { title: 'lamp', percent: 11 },
    { title: 'tube', percent: 9 },
    { title: 'wavelength', percent: 10.5 },
    { title: 'colour', percent: 9.5 },
    { title: 'brightness', percent: 10 },
    ...readings.map((title) => ({ title, percent: 13.5 })),
    { title: 'note', percent: 7 },
    { title: method === 'scale' ? 'mean' : 'deviation', work: true, percent: 9 },
    { title: 'nm', work: true, percent: 7 },
  ];
}

function table(columns: readonly SheetColumn[], rows: readonly Cells[]): string {
  const classOf = ({ work }: SheetColumn): string => (work ? ' class="work"' : '');
  const headRow = columns.map((column) => `<th scope="col"${classOf(column)}>${column.title}</th>`).join('');
  const row = (cells: Cells): string =>
    `<tr>${columns.map((column) => `<td${classOf(column)}>${escapeHtml(cells[column.title] ?? '')}</td>`).join('')}</tr>`;
  return [
    '<table>',
    `<colgroup>${columns.map(({ percent }) => `<col style="width:${percent}%">`).join('')}</colgroup>`,
    `<thead><tr>${headRow}</tr></thead>`,
    `<tbody>\n${rows.map(row).join('\n')}\n</tbody>`,
    '</table>',
  ].join('\n');
}

function head({ record: { title = '', about = {} }, bench: { tubes }, lamp, shelf }: StationSheet): string {
  const { station = '', date = '', prism = '' } = about;
  const field = (name: string, text: string): string =>
    `<span><b>${name}</b> ${text === '' ? '<i class="blank"></i>' : escapeHtml(text)}</span>`;
  return [
    `<h1>${escapeHtml(title)}</h1>`,
    '<p class="fields">',
    field('Station', station),
    field('Day', date),
    field('Prism', prism),
    field('Known lamp', lamp),
    field(tubes.length === 1 ? 'Unknown tube' : 'Unknown tubes', tubes.map(({ label }) => label).join(', ')),
    '</p>',
    '<p class="fields"><span class="wide"><b>Observers</b> <i class="blank"></i></span></p>',
    ...(shelf.length === 0
      ? []
      : [`<p><b>It can be:</b> ${escapeHtml(shelf.map(({ tube }) => tube).join(', '))}.</p>`]),
  ].join('\n');
}

function cautionBox(): string {
  return [
    '<div class="cautions">',
    '<h2>Before anything is switched on</h2>',
    `<ul>${cautions.map((caution) => `<li>${escapeHtml(caution)}</li>`).join('')}</ul>`,
    '</div>',
  ].join('\n');
}

/** A reading to show how one is written. */
const anyReadingDeg = 231 + 26.5 / 60;

/** How a reading is written on this circle or scale. */
function howToWrite({ leastCount, bench }: StationSheet): string {
  const { method, windows, leastCount: leastCountArcmin, decimalCircle } = bench;
  const count = escapeHtml(leastCount);
  if (method === 'scale') return `Write the number on the scale; its smallest step is ${count}.`;
  const both = windows === 2 ? ' Read both windows and write them as <b>first / second</b>.' : '';
  if (decimalCircle)
    return `The smallest step of the circle is ${count}: write degrees with decimals.${both}`;
  const wholeMinutes = Number.isInteger(leastCountArcmin);
  const example = formatAngle(
    wholeMinutes ? Math.floor(anyReadingDeg * 60) / 60 : anyReadingDeg,
    leastCountArcmin,
  );
  const terms = wholeMinutes ? 'degrees and minutes' : 'degrees, minutes and seconds';
  return `The smallest step of the vernier is ${count}: write ${terms}, <b>${example
    .split(/[^\d.]/)
    .join(' ')
    .trim()}</b> or <b>${escapeHtml(example)}</b>, never minutes as decimals.${both}`;
}

function howTo(sheet: StationSheet): string {
  const steps: Readonly<Record<Method, string>> = {
    central: 'Read the central image (slit seen without the prism’s deviation), then the known lamp’s lines.',
    'both-sides': 'Read every line on both sides of the straight direction.',
    scale: 'Read every line on the scale.',
  };
  const turn =
    sheet.bench.method === 'scale'
      ? ''
      : ' For every line turn the prism until the line stops and turns back, and read it there.';
  return `<p>${steps[sheet.bench.method]}${turn} The lines are met from red to violet, as they stand below; leave empty what you do not find. ${howToWrite(sheet)}</p>`;
}

const TUBE_HINTS =
  '<p>One row for each line that you see: its colour, strong, medium or weak, and its reading. A line looked for in vain is worth a note on the back.</p>';

function answerBox({ bench: { tubes } }: StationSheet, tube: string): string {
  const which = tubes.length === 1 ? 'The tube holds' : `${escapeHtml(tube)} holds`;
  return `<p class="fields answer"><span class="half"><b>${which}</b> <i class="blank"></i></span><span class="half"><b>How sure, and which lines decide</b> <i class="blank"></i></span></p>`;
}

function typedOff({ file: name }: StationSheet): string {
  const record = name.includes(' ') ? `"${name}"` : name;
  return `<p class="typed"><b>Typing it off:</b> a spreadsheet with the white columns as they are named here, one row for each row above that has a reading, the observers’ conclusion in a further column <b>answer</b>. Saved as CSV: <code>whichgas import typed.csv --station ${escapeHtml(record)} --observers "…" --out ${escapeHtml(record)}</code></p>`;
}

/** Squared paper for the curve, and the lines of the tubes that it can be. */
function byHand({ bench: { method }, shelf }: StationSheet): string {
  const drawn: Readonly<Record<Method, string>> = {
    central: 'Deviation: line reading minus the mean central reading. Draw it',
    'both-sides': 'Deviation: half the difference of left and right. Draw it',
    scale: 'Draw the reading',
  };
  const steps = `${drawn[method]} against the wavelength for the known lamp, and a smooth curve through the points; read the wavelengths of the tube’s lines off it.`;
  const listed = shelf.map(({ tube, lines }) => {
    const each = lines.map(({ wavelengthNm, brightness }) =>
      brightness === 'strong' ? `<b>${wavelengthNm.toFixed(1)}</b>` : wavelengthNm.toFixed(1),
    );
    return `<tr><th scope="row">${escapeHtml(tube)}</th><td>${each.join(' · ')}</td></tr>`;
  });
  return [
    '<section class="hand">',
    '<h2>Without a computer</h2>',
    `<p>${steps}${listed.length === 0 ? ' Compare them with the line table of the laboratory.' : ''}</p>`,
    squaredPaper(170, 130),
    ...(listed.length === 0
      ? []
      : [
          '<p>Lines of the tubes that it can be, nm (bold: strong). A tube that fits shows its bold lines, and leaves no strong reading over.</p>',
          `<table class="lines"><tbody>${listed.join('')}</tbody></table>`,
        ]),
    '</section>',
  ].join('\n');
}
