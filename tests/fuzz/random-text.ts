/** Texts at random, as near to what the program takes as to what it must refuse. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { exampleFile, examplesFolder } from '../cli/run-program.ts';
import { hostileText, textOf } from './hostile-text.ts';

export const angleText = fc.oneof(
  hostileText,
  fc.stringMatching(/^[0-9 .,:;+/°º˚'’′"”″dmsegright-]{0,30}$/),
  fc.constantFrom(
    'NaN',
    'Infinity',
    '-0',
    '1e400',
    '0x1f',
    '٣٢°',
    '２３１°',
    '1'.repeat(99),
    '1'.repeat(100),
    '1'.repeat(101),
    `${'0'.repeat(98)}1°`,
    `1°${'0'.repeat(97)}1'`,
    '9'.repeat(309),
    '1'.repeat(100_000),
    '°'.repeat(50_000),
  ),
);

export const examples = readdirSync(examplesFolder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => readFileSync(exampleFile(name), 'utf8'));

/** A sound record with a few of its characters deleted, doubled, or replaced by what breaks JSON or readings. */
export const mutatedRecord = fc
  .tuple(
    fc.constantFrom(...examples),
    fc.array(
      fc.record({
        at: fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
        gone: fc.integer({ min: 0, max: 12 }),
        put: fc.oneof(
          fc.constantFrom(
            '',
            '"',
            '{',
            '}',
            '[',
            ']',
            ',',
            ':',
            'null',
            'NaN',
            '-Infinity',
            '1e999',
            '-0',
            '9'.repeat(400),
            '"__proto__":{"x":1},',
            '"title":"again",',
            '"use":"no",',
            '\\u202e',
            '\\ud800',
            '\ufeff',
            '\r\n',
            '\x00',
            '"readings":[],',
            '/*',
            '400',
            '1e308',
            '9'.repeat(309),
            '"windows":2,',
            '"leastCount":1e-9,',
            '-1',
            '[[[[',
            '"constructor":1,',
          ),
          fc.string({ unit: 'binary', maxLength: 6 }),
          textOf(3000).map((text) => JSON.stringify(text).slice(1, -1)),
        ),
      }),
      { minLength: 1, maxLength: 3 },
    ),
  )
  .map(([text, changes]) =>
    changes.reduce((changed, { at, gone, put }) => {
      const from = Math.floor(at * changed.length);
      return changed.slice(0, from) + put + changed.slice(from + gone);
    }, text),
  );

/** One value anywhere in a sound record replaced by any JSON. */
export const graftedRecord = fc
  .tuple(
    fc.constantFrom(...examples),
    fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
    fc.oneof(
      fc.jsonValue(),
      textOf(11_000),
      fc.constantFrom<unknown>(1e308, -1e308, 1e-308, -0, 1_000_001, 720.1),
      fc.integer({ min: 90, max: 600 }).map((count) => Array<unknown>(count).fill({ readings: [1] })),
    ),
  )
  .map(([text, at, graft]) => {
    const places: [Record<string, unknown>, string][] = [];
    const walk = (value: unknown): void => {
      if (typeof value !== 'object' || value === null) return;
      for (const key of Object.keys(value)) {
        places.push([value as Record<string, unknown>, key]);
        walk((value as Record<string, unknown>)[key]);
      }
    };
    const record: unknown = JSON.parse(text);
    walk(record);
    const [owner, key] = places[Math.floor(at * places.length)]!;
    owner[key] = graft;
    return JSON.stringify(record);
  });

const csvCell = fc.oneof(
  textOf(500),
  fc.constantFrom(
    "229°39'",
    '546.07',
    '546,07 nm',
    'left 1° right 2°',
    '1°/181°',
    '',
    'central',
    'He',
    'red',
    '1e400',
    'NaN',
  ),
);
export const csvText = fc
  .record({
    header: fc.array(
      fc.oneof(
        {
          weight: 8,
          arbitrary: fc.constantFrom(
            'lamp',
            'tube',
            'wavelength',
            'reading',
            'reading 2',
            'left',
            'right',
            'color',
            'note',
            'brightness',
          ),
        },
        { weight: 1, arbitrary: csvCell },
      ),
      { minLength: 1, maxLength: 6 },
    ),
    rows: fc.array(fc.array(csvCell, { maxLength: 7 }), { maxLength: 6 }),
    separator: fc.constantFrom(',', ';', '\t'),
    end: fc.constantFrom('\n', '\r\n', '\r'),
    start: fc.constantFrom('', '\ufeff'),
  })
  .map(
    ({ header, rows, separator, end, start }) =>
      start + [header, ...rows].map((row) => row.join(separator)).join(end),
  );

const commandNames = [
  'demo',
  'calibrate',
  'identify',
  'convert',
  'predict',
  'verify',
  'report',
  'import',
  'lines',
  'schema',
  'station',
  'compare',
];
const options = [
  '--json',
  '--help',
  '--version',
  '--csv',
  '--expect',
  '--key',
  '--calibration',
  '--against',
  '--to',
  '--out',
  '-o',
  '--glass',
  '--apex',
  '--central',
  '--least-count',
  '--decreasing',
  '--bright',
  '--advise',
  '--method',
  '--windows',
  '--title',
  '--station',
  '--lamp',
  '--tube',
  '--shelf',
  '--sheet',
  '--answers',
  '--prism',
  '--date',
  '--observers',
  '--decimals',
  'minutes',
  '--force',
  '--ascii',
  '--',
  '--nothing',
  '--json=1',
  '--expect=neon',
  '--out=report.html',
  '-x',
  '---',
];
const values = [
  'a.json',
  'b.json',
  'broken.json',
  'missing.json',
  'readings.csv',
  'stations.csv',
  's.json',
  's.html',
  'lab',
  'Hg',
  'folder',
  '.',
  'neon',
  'Ne',
  'helum',
  '587.56',
  "228°52'",
  'left 1° right 2°',
  "1'",
  'F2',
  '60°',
  'central',
  'scale',
  '2',
  'report.md',
  'report.csv',
  'r.txt',
  '',
  ' ',
  '__proto__',
  'constructor',
];

/** No path that leads out of the folder, and no standard input, which the test does not have. */
const word = fc
  .oneof(
    { weight: 3, arbitrary: fc.constantFrom(...options) },
    { weight: 4, arbitrary: fc.constantFrom(...values) },
    { weight: 1, arbitrary: hostileText.map((text) => text.replaceAll('/', '')) },
  )
  .filter((text) => text !== '-');
export const commandLine = fc
  .tuple(
    fc.oneof({ weight: 6, arbitrary: fc.constantFrom(...commandNames) }, { weight: 1, arbitrary: word }),
    fc.array(word, { maxLength: 6 }),
  )
  .map(([first, rest]) => [first, ...rest]);
