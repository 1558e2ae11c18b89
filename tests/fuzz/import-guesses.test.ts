/** Data sheets as people save them: import takes every cell for what it was, or refuses with row and column. */
import { writeFileSync } from 'node:fs';
import fc from 'fast-check';
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { type BenchRecord, benchRecordSchema } from '../../src/record/schema.ts';
import { quick } from './budget.ts';
import { endsWell, insideFolder } from './in-process.ts';

type Method = 'central' | 'scale';

/** A number as it is meant; it is typed with the decimal mark of the sheet. */
interface Typed {
  readonly whole: number;
  readonly decimals: string;
}

interface SheetLine {
  readonly lamp: string | null;
  readonly wavelength: Typed | null;
  readonly color: string | null;
  readonly readings: readonly (Typed | string)[];
  readonly note: string | null;
}

const decimals = fc.constantFrom('', '', '0', '07', '5', '83', '333');
const wavelength = fc.record({ whole: fc.integer({ min: 400, max: 700 }), decimals });
const angle = fc
  .tuple(fc.integer({ min: 0, max: 359 }), fc.integer({ min: 0, max: 59 }))
  .chain(([degrees, minutes]) =>
    fc.constantFrom<Typed | string>(
      `${degrees}°${minutes}'`,
      `${degrees} ${minutes}`,
      { whole: degrees, decimals: '' },
      { whole: degrees, decimals: String(minutes).padStart(2, '0') },
    ),
  );
const scaleReading = fc.record({
  whole: fc.integer({ min: 1, max: 40 }),
  decimals: fc.constantFrom('', '5', '0'),
});

const lineOf = (method: Method) =>
  fc.record({
    lamp: fc.constantFrom('mercury', 'helium', null),
    wavelength: fc.option(wavelength),
    color: fc.option(fc.constantFrom('green', 'deep red')),
    readings: fc.array<Typed | string>(method === 'scale' ? scaleReading : angle, {
      minLength: 1,
      maxLength: 3,
    }),
    note: fc.option(fc.constantFrom('sharp', 'a; b', 'x,y', 'say "hm"', 'two\nlines', '7')),
  });

const sheet = fc.constantFrom<Method>('central', 'scale').chain((method) =>
  fc.record({
    method: fc.constant(method),
    lines: fc.array(lineOf(method), { minLength: 1, maxLength: 4 }),
    separator: fc.constantFrom(',', ',', ';', '\t'),
    mark: fc.constantFrom('.', ','),
    quotes: fc.constantFrom('as needed', 'always', 'never'),
    trailing: fc.integer({ min: 0, max: 2 }),
    end: fc.constantFrom('\n', '\r\n', '\r'),
    columns: fc.shuffledSubarray(['color', 'note', 'nm', 'reading', 'reading 2', 'reading 3'], {
      minLength: 6,
    }),
  }),
);
type Sheet = typeof sheet extends fc.Arbitrary<infer Value> ? Value : never;

const typed = (value: Typed | string, mark: string): string =>
  typeof value === 'string' ? value : `${value.whole}${value.decimals === '' ? '' : mark + value.decimals}`;

const numberOf = ({ whole, decimals }: Typed): number => Number(`${whole}.${decimals}0`);

/** What a person types: a line of an unknown tube has no wavelength. */
const nmOf = ({ lamp, wavelength }: SheetLine): Typed | null => (lamp === null ? null : wavelength);

/** Who never quotes writes no notes that would need it: no program can tell where such a note ends. */
const noteOf = ({ note }: SheetLine, { quotes }: Sheet): string | null =>
  quotes === 'never' && /[,;\n"]/.test(note ?? '') ? null : note;

function textOf(one: Sheet): string {
  const { lines, separator, mark, quotes, trailing, end, columns } = one;
  const cells = (line: SheetLine): string[] =>
    columns.map((column) => {
      const nm = nmOf(line);
      if (column === 'nm') return nm === null ? '' : typed(nm, mark);
      if (column === 'color') return line.color ?? '';
      if (column === 'note') return noteOf(line, one) ?? '';
      const reading = line.readings[column === 'reading' ? 0 : Number(column.slice(-1)) - 1];
      return reading === undefined ? '' : typed(reading, mark);
    });
  const rows = [
    ['lamp', 'tube', ...columns],
    ...lines.map((line) => [line.lamp ?? '', line.lamp === null ? 'C' : '', ...cells(line)]),
  ];
  const padded = rows.map((row) => [...row, ...Array<string>(trailing).fill('')]);
  return quotes === 'never'
    ? padded.map((row) => row.join(separator)).join(end)
    : Papa.unparse(padded, { delimiter: separator, newline: end, quotes: quotes === 'always' });
}

/** The lines of lamps and tubes as the record should have them. */
function meant(one: Sheet) {
  const { lines, columns, mark, method } = one;
  // Readings come in the order of their columns.
  const order = columns.filter((column) => column.startsWith('reading'));
  return [...new Set(lines.map(({ lamp }) => lamp))].map((owner) =>
    lines
      .filter(({ lamp }) => lamp === owner)
      .map((line) => ({
        nm: nmOf(line) === null ? null : numberOf(nmOf(line)!),
        color: line.color,
        note: noteOf(line, one),
        readings: order
          .flatMap((column) => line.readings[column === 'reading' ? 0 : Number(column.slice(-1)) - 1] ?? [])
          .map((reading) =>
            method === 'scale' && typeof reading !== 'string' ? numberOf(reading) : typed(reading, mark),
          ),
      })),
  );
}

function taken({ known, unknown }: BenchRecord) {
  return [...known, ...unknown].map(({ lines }) =>
    lines.map((line) => ({
      nm: ('wavelengthNm' in line ? line.wavelengthNm : undefined) ?? null,
      color: line.color ?? null,
      note: line.note ?? null,
      // The sign of decimal degrees may be put behind them.
      readings: line.readings.map((reading) =>
        typeof reading === 'string' ? reading.replace(/^(\d+[.,]\d+)°$/, '$1') : reading,
      ),
    })),
  );
}

const inOrder = (owners: readonly unknown[]) => owners.map((owner) => JSON.stringify(owner)).sort();

/** Where nothing can be taken for something else, nothing may be refused. */
function isClear({ separator, quotes, lines }: Sheet): boolean {
  const isBare = (reading: Typed | string) => typeof reading !== 'string' && reading.decimals === '';
  const hasBareDigits = lines.some(({ readings, note }) => note === '7' || readings.some(isBare));
  return quotes !== 'never' && (separator !== ',' || !hasBareDigits);
}

test('a sheet is taken as it was meant, or refused with its place', { timeout: 3_600_000 }, async () => {
  const counts = { taken: 0, refused: 0 };
  await insideFolder({}, async () => {
    for (const one of fc.sample(sheet, quick.inputs * 5)) {
      const text = textOf(one);
      writeFileSync('readings.csv', text);
      const leastCount = one.method === 'scale' ? '0.1' : "1'";
      // What decimals mean on a circle has tests of its own; here they are decimal degrees.
      const flags = ['--method', one.method, '--least-count', leastCount, '--decimals', 'degrees'];
      const words = ['import', 'readings.csv', ...flags];
      const ended = await endsWell(words);
      if (ended.code === 0) {
        counts.taken += 1;
        const record = benchRecordSchema.parse(JSON.parse(ended.out));
        expect(inOrder(taken(record)), text).toEqual(inOrder(meant(one)));
      } else {
        counts.refused += 1;
        expect(isClear(one), `${ended.err}\n${text}`).toBe(false);
        expect(ended.out).toBe('');
        expect(ended.err).toMatch(/^whichgas: readings\.csv: row \d+(, column \d+|: there is no reading)/);
      }
    }
  });
  // Neither half of the property may be empty.
  expect(counts.taken).toBeGreaterThan(quick.inputs);
  expect(counts.refused).toBeGreaterThan(quick.inputs / 2);
});
