/** Texts of every kind at every place where the program takes one: an answer or a sentence, never a fault. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseSmallAngle } from '../../src/angle/least-count.ts';
import { parseAngle } from '../../src/angle/parse-angle.ts';
import { readingValue } from '../../src/cli/reading-argument.ts';
import { findLamp, findTube } from '../../src/lines/names.ts';
import { searchLines } from '../../src/lines/search.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { exampleFile, examplesFolder } from '../cli/run-program.ts';
import { type Budget, samples, seeded } from './budget.ts';
import { holes, hostileText, stackTrace } from './hostile-text.ts';
import { endsWell, insideFolder } from './in-process.ts';

const angleText = fc.oneof(
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
    '1'.repeat(100_000),
    '°'.repeat(50_000),
  ),
);

const examples = readdirSync(examplesFolder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => readFileSync(exampleFile(name), 'utf8'));

/** A sound record with a few of its characters deleted, doubled, or replaced by what breaks JSON or readings. */
const mutatedRecord = fc
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
            '-1',
            '[[[[',
            '"constructor":1,',
          ),
          fc.string({ unit: 'binary', maxLength: 6 }),
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
const graftedRecord = fc
  .tuple(
    fc.constantFrom(...examples),
    fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
    fc.jsonValue(),
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

/** A sentence for a person. */
function expectSentence(message: string): void {
  expect(message).toMatch(/\S/);
  expect(message.length).toBeLessThan(1000);
  expect(message).not.toMatch(stackTrace);
  expect(message).not.toMatch(/\bundefined\b|\[object /);
}

function checkRecordText(text: string): void {
  const read = readRecord(text);
  if (read.ok) return;
  expect(read.problems.length).toBeGreaterThan(0);
  for (const { message } of read.problems) expectSentence(message);
}

const lines = (count: number): string => Array(count).fill(`{"readings":["229°39'"]}`).join(',');
const record = (rest: string): string =>
  `{"whichgas":1,"instrument":{"method":"central","leastCount":"1'"}${rest}}`;

/** Files that are too much, or no text at all. */
export const oversized: Readonly<Record<string, string | Uint8Array>> = {
  'empty.json': '',
  'blank.json': ' \r\n\t\n',
  'bom.json': '\ufeff',
  'nul.json': new Uint8Array(1000),
  'binary.json': Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919) % 256),
  'latin1.json': Buffer.from(record(`,"title":"R\xf6hre"`), 'latin1'),
  'utf16.json': Buffer.from(record(''), 'utf16le'),
  'lines.json': record(`,"unknown":{"lines":[${lines(200_000)}]}`),
  'lines-500.json': record(`,"central":["181°04'"],"unknown":{"lines":[${lines(501)}]}`),
  'deep-lists.json': '['.repeat(200_000),
  'deep-objects.json': '{"a":'.repeat(200_000),
  'deep-closed.json': `${'['.repeat(200_000)}${']'.repeat(200_000)}`,
  'deep-in-place.json': record(`,"central":${'['.repeat(31)}"1°"${']'.repeat(31)}`),
  'text.json': record(`,"title":"${'x'.repeat(5_000_000)}"`),
  'key.json': record(`,"${'k'.repeat(1_000_000)}":1`),
  'keys.json': record(Array.from({ length: 100_000 }, (_, i) => `,"k${i}":1`).join('')),
  'same-keys.json': record(',"title":"a"'.repeat(50_000)),
  'quotes.json': '"'.repeat(1_000_000),
  'backslashes.json': `"${'\\'.repeat(1_000_001)}`,
  'digits.json': record(`,"central":[${'9'.repeat(1_000_000)}]`),
  'angle.json': record(`,"central":["${'9'.repeat(500_000)}°"]`),
  'marks.json': record(`,"central":["${`1°2'`.repeat(200_000)}"]`),
  'spaces.json': record(`,"central":["1${' '.repeat(500_000)}°"]`),
  'proto.json': record(',"__proto__":{"title":"x"}'),
  'proto-tube.json': record(',"unknown":{"__proto__":{"label":"x"},"lines":[]}'),
  'name.json': record(`,"shelf":["${'neon'.repeat(100_000)}"]`),
  'lamp.json': record(`,"known":{"lamp":"${'mercury-'.repeat(50_000)}","lines":[]}`),
};

const oversizedTables: Readonly<Record<string, string | Uint8Array>> = {
  'empty.csv': '',
  'binary.csv': oversized['binary.json']!,
  'rows.csv': `tube,reading\n${`C,229°39'\n`.repeat(200_000)}`,
  'columns.csv': `${'reading,'.repeat(50_000)}\n`,
  'numbered.csv': `tube,${Array.from({ length: 3000 }, (_, i) => `reading ${i}`).join(',')}\nC${`,229°39'`.repeat(3000)}\n`,
  'open-quote.csv': `tube,reading\n"${'x'.repeat(1_000_000)}`,
  'quotes.csv': `tube,reading\nC,${'"'.repeat(300_001)}\n`,
  'tubes.csv': `tube,reading\n${Array.from({ length: 20_000 }, (_, i) => `t${i},229°39'`).join('\n')}\n`,
};

const csvCell = fc.oneof(
  hostileText.filter((text) => text.length < 500),
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
const csvText = fc
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
  '--method',
  '--windows',
  '--title',
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
const commandLine = fc
  .tuple(
    fc.oneof({ weight: 6, arbitrary: fc.constantFrom(...commandNames) }, { weight: 1, arbitrary: word }),
    fc.array(word, { maxLength: 6 }),
  )
  .map(([first, rest]) => [first, ...rest]);

export function describeEntrances({ inputs }: Budget): void {
  describe('texts', { timeout: 3_600_000 }, () => {
    test('of angles, readings, names and queries', () => {
      fc.assert(
        fc.property(angleText, (text) => {
          const angle = parseAngle(text);
          if (angle.ok) expect(Number.isFinite(angle.degrees)).toBe(true);
          else expectSentence(angle.problem);
          const small = parseSmallAngle(text);
          if (small.ok) expect(Number.isFinite(small.arcmin)).toBe(true);
          else expectSentence(small.problem);
          for (const method of ['central', 'both-sides', 'scale'] as const) readingValue(text, method);
          findTube(text);
          findLamp(text);
          searchLines(text);
        }),
        seeded(inputs),
      );
    });

    test('of records: any JSON, sound ones spoilt, sound ones with a graft', () => {
      for (const text of [fc.json(), mutatedRecord, graftedRecord, hostileText])
        fc.assert(fc.property(text, checkRecordText), seeded(inputs));
    });
  });

  describe('the commands', { timeout: 3_600_000 }, () => {
    test.each(Object.keys(oversized))('given %s', async (name) => {
      await insideFolder({ [name]: oversized[name]! }, async () => {
        for (const words of [
          ['identify', name],
          ['verify', name, '--expect', 'neon'],
          ['report', name, '--out', 'r.html'],
        ])
          await endsWell(words);
      });
    });

    test.each(Object.keys(oversizedTables))('given %s', async (name) => {
      await insideFolder({ [name]: oversizedTables[name]!, 'a.json': examples[0]! }, async () => {
        await endsWell(['import', name, '--least-count', "1'", '--out', 'out.json']);
        await endsWell(['verify', 'a.json', '--key', name]);
      });
    });

    test('given spreadsheets of every kind', async () => {
      await insideFolder({}, async () => {
        for (const text of samples(csvText, inputs / 2)) {
          writeFileSync('readings.csv', text);
          for (const method of ['central', 'both-sides', 'scale']) {
            const leastCount = method === 'scale' ? '0.1' : "1'";
            const ended = await endsWell([
              'import',
              'readings.csv',
              '--method',
              method,
              '--least-count',
              leastCount,
            ]);
            if (ended.code === 0) expect(readRecord(ended.out).ok).toBe(true);
          }
        }
      });
    });

    test('given words of every kind', async () => {
      const files = {
        'a.json': examples[0]!,
        'b.json': `\ufeff${examples[1]!.replaceAll('\n', '\r\n')}`,
        'broken.json': examples[0]!.slice(0, 300),
        'readings.csv': `tube,reading\nC,229°39'\n`,
      };
      await insideFolder(files, async () => {
        for (const words of samples(commandLine, inputs / 2)) {
          const ended = await endsWell(words);
          expect(ended.out).not.toMatch(holes);
        }
      });
    });
  });
}
