/** Stations prepared, printed, written on, typed off and checked: the whole round of a lab. */
import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'parse5';
import { describe, expect, it } from 'vitest';
import { InventedObserver } from '../examples/invented-bench.ts';
import { attacks } from '../fuzz/hostile-text.ts';
import { endsWell, insideFolder } from '../fuzz/in-process.ts';
import { type Element, elements, textOf } from '../report/html-tree.ts';
import { exampleFile, jsonLines, whichgas, withFiles } from './run-program.ts';

const oneStation = ['station', '--lamp', 'mercury', '--least-count', "1'"];
const shelf = 'helium, neon, argon, krypton, hydrogen';

/** A laboratory of our own with twelve stations. */
const gases = ['neon', 'helium', 'argon', 'krypton'];
const lab = [
  'station,lamp,tube,shelf,expected,prism,glass,apex',
  ...Array.from({ length: 12 }, (_, at) =>
    [
      at + 1,
      'mercury',
      `tube ${'ABCDEFGHIJKL'[at]}`,
      `"${shelf}"`,
      gases[at % 4],
      `HL-P${at + 1}`,
      'F2',
      '60°',
    ].join(','),
  ),
].join('\n');

const page = (folder: string, name: string): Element[] =>
  elements(parse(readFileSync(join(folder, name), 'utf8')));
const tagged = (found: readonly Element[], tag: string): Element[] =>
  found.filter(({ tagName }) => tagName === tag);
const classOf = (element: Element): string => element.attrs.find(({ name }) => name === 'class')?.value ?? '';

/** The rows of a sheet as objects by the titles of its white columns, in their order on paper. */
function rowsOf(sheet: readonly Element[]): Record<string, string>[] {
  return tagged(sheet, 'table')
    .filter((table) => classOf(table) !== 'lines')
    .flatMap((table) => {
      const titles = tagged(elements(table), 'th').map((cell) => ({
        title: textOf(cell),
        typed: classOf(cell) !== 'work',
      }));
      return tagged(elements(table), 'tr')
        .slice(1)
        .map((row) => {
          const cells = tagged(elements(row), 'td').map(textOf);
          return Object.fromEntries(
            titles.flatMap(({ title, typed }, at) => (typed ? [[title, cells[at]!]] : [])),
          );
        });
    });
}

function csvOf(rows: readonly Record<string, string>[]): string {
  const titles = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const cell = (text = '') => (/[,"\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
  return [titles.join(','), ...rows.map((row) => titles.map((title) => cell(row[title])).join(','))].join(
    '\n',
  );
}

const prism = {
  glass: 'F2',
  apexAngleDeg: 60,
  centralDeg: 181.07,
  leastCountArcmin: 1,
  settingScatterArcmin: 0.4,
};
const neonNm = [540.06, 585.25, 594.48, 603, 614.31, 626.65, 640.22, 650.65, 667.83];

describe('one station', () => {
  it('is a record without readings that keeps the ranking back', () =>
    withFiles({}, (cwd) => {
      const words = [
        ...oneStation,
        '--station',
        '3',
        '--tube',
        'C, D',
        '--shelf',
        'He, Ne',
        '--date',
        '2026-12-01',
      ];
      const { code, out, err } = whichgas([...words, '--prism', 'HL-P3', '--out', 'three.json'], { cwd });
      expect({ code, out, err }).toEqual({
        code: 0,
        out: '',
        err: "whichgas: the station's record is in three.json\n",
      });
      expect(JSON.parse(readFileSync(join(cwd, 'three.json'), 'utf8'))).toEqual({
        whichgas: 1,
        title: 'Station 3',
        instrument: { method: 'central', leastCount: "1'" },
        known: { lamp: 'mercury', lines: [] },
        unknown: [
          { label: 'C', lines: [] },
          { label: 'D', lines: [] },
        ],
        shelf: ['helium', 'neon'],
        ranking: 'after-answer',
        about: { date: '2026-12-01', station: '3', prism: 'HL-P3' },
      });
      const identified = jsonLines(whichgas(['identify', '--json', 'three.json'], { cwd }));
      expect(identified).toHaveLength(2);
      for (const tube of identified)
        expect(tube).toMatchObject({ verdict: { kind: 'held-back' }, candidates: [] });
    }));

  it.each([
    ['both sides', ['--method', 'both-sides', '--windows', '2'], ['left', 'right'], /first \/ second/],
    [
      'a scale',
      ['--method', 'scale', '--least-count', '0.1'],
      ['reading', 'reading 2'],
      /smallest step is 0\.1/,
    ],
    ['a circle of decimals', ['--least-count', '0.01°'], ['reading', 'reading 2'], /degrees with decimals/],
    [
      'a vernier of half minutes',
      ['--least-count', "0.5'"],
      ['reading', 'reading 2'],
      /write degrees, minutes and seconds, 231 26 30 or 231°26'30"/,
    ],
    ['a vernier of minutes', [], ['reading', 'reading 2'], /write degrees and minutes, 231 26 or 231°26',/],
  ])('prints a sheet for %s', (_what, flags, columns, sentence) =>
    withFiles({}, (cwd) => {
      const words = ['station', '--lamp', 'helium', '--least-count', "1'", ...flags, '--out', 'a.json'];
      expect(whichgas([...words, '--sheet', 'a.html'], { cwd }).code).toBe(0);
      const rows = rowsOf(page(cwd, 'a.html'));
      expect(Object.keys(rows[0]!).filter((title) => /^(reading|left|right)/.test(title))).toEqual(columns);
      expect(rows.some(({ lamp }) => lamp === 'central')).toBe(/circle|vernier/.test(_what));
      expect(textOf(tagged(page(cwd, 'a.html'), 'body')[0]!)).toMatch(sentence);
    }),
  );
});

describe('a lab of twelve stations', () => {
  it('is prepared by one command, and its table is the key of the check', () =>
    withFiles({ 'stations.csv': lab }, (cwd) => {
      const words = ['station', 'stations.csv', '--least-count', "1'", '--out', 'lab', '--json'];
      const ended = whichgas([...words, '--sheet', 'sheets.html', '--answers', 'answers.html'], { cwd });
      expect({ code: ended.code, err: ended.err }).toEqual({ code: 0, err: '' });
      expect(jsonLines(ended)).toHaveLength(12);
      expect(jsonLines(ended)[3]).toEqual({
        out: join('lab', 'station-4.json'),
        title: 'Station 4',
        station: '4',
        lamp: 'mercury',
        tubes: ['tube D'],
        shelf: shelf.split(', '),
        sheet: 'sheets.html',
        answers: 'answers.html',
      });
      expect(readdirSync(join(cwd, 'lab'))).toHaveLength(12);
      expect(tagged(page(cwd, 'sheets.html'), 'article')).toHaveLength(12);

      // Nothing that goes to the benches names what is in a tube: it stands in the shelf with all the others only.
      for (const name of readdirSync(join(cwd, 'lab')))
        expect(readFileSync(join(cwd, 'lab', name), 'utf8')).not.toMatch(/expected|"answer"/);
      const answers = textOf(tagged(page(cwd, 'answers.html'), 'body')[0]!);
      for (const gas of gases) expect(answers).toContain(gas);

      const checked = whichgas(['verify', 'lab', '--key', 'stations.csv', '--json'], { cwd });
      expect(checked.code).toBe(1);
      expect(jsonLines(checked).map((each) => (each as { expected: string }).expected)).toEqual(
        Array.from({ length: 12 }, (_, at) => gases[at % 4]),
      );
    }));

  it('is found by its station where a pair has renamed its record, and missed where nobody handed one in', () =>
    withFiles({ 'stations.csv': lab }, (cwd) => {
      expect(whichgas(['station', 'stations.csv', '--least-count', "1'", '--out', 'lab'], { cwd }).code).toBe(
        0,
      );
      mkdirSync(join(cwd, 'handed-in'));
      const handIn = (station: number, name: string) =>
        writeFileSync(
          join(cwd, 'handed-in', name),
          readFileSync(join(cwd, 'lab', `station-${station}.json`)),
        );
      handIn(3, 'ours.json');
      handIn(4, 'station-4.json');
      const checked = whichgas(['verify', 'handed-in', '--key', 'stations.csv', '--json'], { cwd });
      const found = jsonLines(checked) as {
        file: string;
        expected: string;
        outcome: string;
        reason: string;
      }[];
      expect(checked).toMatchObject({ code: 1, err: '' });
      expect(found.slice(0, 2).map(({ file, expected }) => [file, expected])).toEqual([
        [join('handed-in', 'ours.json'), 'argon'],
        [join('handed-in', 'station-4.json'), 'krypton'],
      ]);
      expect(found.slice(2).map(({ file }) => file)).toEqual(
        [1, 2, 5, 6, 7, 8, 9, 10, 11, 12].map((station) => `station-${station}.json`),
      );
      for (const { outcome, reason } of found.slice(2)) {
        expect(outcome).toBe('missing');
        expect(reason).toMatch(/is not among those that were checked/);
      }
    }));

  it('replaces no file unasked, with --force none that has readings, and then writes nothing at all', () =>
    withFiles({ 'stations.csv': lab }, (cwd) => {
      const words = ['station', 'stations.csv', '--least-count', "1'", '--out', 'lab', '--sheet', 's.html'];
      mkdirSync(join(cwd, 'lab'));
      writeFileSync(
        join(cwd, 'lab', 'station-12.json'),
        readFileSync(exampleFile('harbour-lane-bench-2.json')),
      );
      expect(whichgas(words, { cwd })).toMatchObject({
        code: 2,
        err: expect.stringMatching(
          /station-12\.json: there is a file of that name already; --force replaces it\n$/,
        ),
      });
      expect(whichgas([...words, '--force'], { cwd })).toMatchObject({
        code: 2,
        err: expect.stringMatching(/station-12\.json: this file holds a bench record with readings/),
      });
      expect(readdirSync(cwd).sort()).toEqual(['lab', 'stations.csv']);
      expect(readdirSync(join(cwd, 'lab'))).toEqual(['station-12.json']);

      writeFileSync(join(cwd, 'lab', 'station-12.json'), '{"whichgas": 1, "damaged');
      expect(whichgas([...words, '--force'], { cwd }).code).toBe(2);
      writeFileSync(join(cwd, 'lab', 'station-12.json'), 'notes');
      expect(whichgas([...words, '--force'], { cwd }).code).toBe(0);
      // A prepared station holds nobody's work yet.
      expect(whichgas(words, { cwd }).code).toBe(2);
      expect(whichgas([...words, '--force'], { cwd }).code).toBe(0);
    }));
});

describe('files of a call', () => {
  const prepared = [...oneStation, '--tube', 'C', '--expect', 'neon', '--out', 'a.json'];

  it.each([
    ['one page twice', ['--sheet', 'x.html', '--answers', 'x.html'], /x\.html and x\.html are one file/],
    ['one page twice, on a way round', ['--sheet', 'sub/../x.html', '--answers', 'x.html'], /are one file/],
    ['one page twice but for capitals', ['--sheet', 'X.html', '--answers', 'x.html'], /are one file/],
    ['a link to the other page', ['--sheet', 'there.html', '--answers', 'link.html'], /are one file/],
    ['a sheet in a missing folder', ['--sheet', 'no/p.html'], /no\/p\.html: .*no such folder/],
    ['answers in a missing folder', ['--answers', 'no/p.html'], /no\/p\.html: .*no such folder/],
    ['answers below a file', ['--answers', 'there.html/p.html'], /no such folder/],
  ])('%s: refused before anything is written', (_what, pages, sentence) =>
    withFiles({ 'there.html': 'there' }, (cwd) => {
      mkdirSync(join(cwd, 'sub'));
      symlinkSync(join(cwd, 'there.html'), join(cwd, 'link.html'));
      const before = readdirSync(cwd);
      const { code, out, err } = whichgas([...prepared, '--force', ...pages], { cwd });
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(sentence);
      expect(readdirSync(cwd)).toEqual(before);
    }),
  );

  it('may stand in the folder that the call makes', () =>
    withFiles({ 'stations.csv': lab }, (cwd) => {
      const words = ['station', 'stations.csv', '--least-count', "1'", '--out', 'lab'];
      const pages = ['--sheet', 'lab/sheets.html', '--answers', './lab/answers.html'];
      expect(whichgas([...words, ...pages], { cwd }).code).toBe(0);
      expect(readdirSync(join(cwd, 'lab'))).toHaveLength(14);
    }));

  type Prepared = { about?: object; unknown: object };
  it.each<[string, (record: Prepared) => object]>([
    ['an answer', (record) => ({ ...record, unknown: { ...record.unknown, answer: 'neon' } })],
    ['the answer of its one tube', (record) => ({ ...record, answer: 'neon' })],
    ['observers', (record) => ({ ...record, about: { ...record.about, observers: ['R. Adeyemi'] } })],
    ['notes', (record) => ({ ...record, about: { ...record.about, remarks: 'slit repaired' } })],
    ['a place without a line', (record) => ({ ...record, unknown: { notSeen: [{ wavelengthNm: 588 }] } })],
  ])('a record with %s is not replaced, --force or not', (_what, worked) =>
    withFiles({}, (cwd) => {
      expect(whichgas(prepared, { cwd }).code).toBe(0);
      expect(whichgas([...prepared, '--force'], { cwd }).code).toBe(0);
      const text = JSON.stringify(worked(JSON.parse(readFileSync(join(cwd, 'a.json'), 'utf8'))));
      writeFileSync(join(cwd, 'a.json'), text);
      expect(whichgas([...prepared, '--force'], { cwd })).toMatchObject({
        code: 2,
        err: expect.stringMatching(/with readings, an answer, observers or notes, which is not replaced/),
      });
      expect(readFileSync(join(cwd, 'a.json'), 'utf8')).toBe(text);
    }),
  );
});

describe('the printed sheet', () => {
  it('suffices: what is written on it is typed off, imported, and identified', () =>
    withFiles({ 'stations.csv': lab }, (cwd) => {
      const words = [
        'station',
        'stations.csv',
        '--least-count',
        "1'",
        '--out',
        '.',
        '--sheet',
        'sheets.html',
      ];
      expect(whichgas(words, { cwd }).code).toBe(0);
      const [first] = tagged(page(cwd, 'sheets.html'), 'article');
      const body = textOf(first!);
      expect(body).toMatch(
        /kilovolts[\s\S]*hot[\s\S]*Mercury[\s\S]*ultraviolet[\s\S]*Local rules and the instructor/,
      );
      expect(body).toContain(`It can be: ${shelf}.`);

      const rows = rowsOf(elements(first!));
      const known = rows.filter(({ lamp, wavelength }) => lamp === 'mercury' && wavelength !== '');
      const listedNm = known.map(({ wavelength }) => Number(wavelength));
      // The lines by which a mercury lamp is known (NIST SRD 108), in the order in which they are met: from red to violet.
      expect(listedNm).toEqual([...listedNm].sort((a, b) => b - a));
      for (const nm of [579.07, 576.96, 546.07, 435.83, 404.66]) expect(listedNm).toContain(nm);

      const observer = new InventedObserver(prism, 24);
      const read: Record<string, string>[] = [];
      let next = 0;
      for (const row of rows) {
        if (row.lamp === 'central') read.push({ ...row, reading: observer.central() });
        else if (
          row.lamp === 'mercury' &&
          [579.07, 576.96, 546.07, 435.83, 404.66, 623.44].includes(Number(row.wavelength))
        )
          read.push({ ...row, reading: observer.line(Number(row.wavelength)) });
        else if (row.tube === 'tube A' && next < neonNm.length)
          read.push({ ...row, reading: observer.line(neonNm[next++]!), answer: next === 1 ? 'neon' : '' });
      }
      expect(next).toBe(neonNm.length);
      writeFileSync(join(cwd, 'typed.csv'), csvOf(read));
      const typing = [
        'import',
        'typed.csv',
        '--station',
        'station-1.json',
        '--observers',
        'R. Adeyemi, L. Fenn',
      ];
      const imported = whichgas([...typing, '--out', 'station-1.json'], { cwd });
      expect(imported).toMatchObject({ code: 0, out: '' });
      expect(JSON.parse(readFileSync(join(cwd, 'station-1.json'), 'utf8'))).toMatchObject({
        title: 'Station 1',
        shelf: shelf.split(', '),
        ranking: 'after-answer',
        unknown: { label: 'tube A', answer: 'neon' },
        about: { station: '1', prism: 'HL-P1', observers: ['R. Adeyemi', 'L. Fenn'] },
      });
      const [found] = jsonLines(whichgas(['identify', '--json', 'station-1.json'], { cwd }));
      expect(found).toMatchObject({ tube: 'tube A', verdict: { kind: 'identified', substance: 'neon' } });
      const checked = whichgas(['verify', '--json', 'station-1.json', '--key', 'stations.csv'], { cwd });
      expect(jsonLines(checked)[0]).toMatchObject({ outcome: 'supported', answerAgrees: true });
      // Filled, it is somebody's work, and not filled again.
      expect(whichgas([...typing, '--out', 'station-1.json'], { cwd })).toMatchObject({ code: 2, out: '' });
    }));

  it.each(attacks.filter((text) => text.trim() !== ''))('becomes no markup by %j', (text) =>
    insideFolder({}, async () => {
      const flags = ['--title', '--station', '--date', '--prism', '--tube'].map(
        (flag) => `${flag}=${text.slice(0, 150)}`,
      );
      const pages = ['--sheet', 'a.html', '--answers', 'b.html'];
      const ended = await endsWell([
        ...oneStation,
        ...flags,
        '--expect',
        'neon',
        '--out',
        'a.json',
        ...pages,
      ]);
      if (ended.code !== 0) {
        // Several tubes in one cell, for one name.
        expect(ended.err).toMatch(/^whichgas: --expect: one name for \d+ tubes/);
        return;
      }
      const own =
        'html head meta title style body article h1 h2 p span b i div ul li table colgroup col thead tbody tr th td code section svg path header main footer figure figcaption';
      for (const name of ['a.html', 'b.html']) {
        for (const { tagName, attrs } of page('.', name)) {
          expect(own.split(' ')).toContain(tagName);
          expect(attrs.filter((each) => /^on|href|src/i.test(each.name))).toEqual([]);
        }
      }
    }),
  );
});

describe("the instructor's page", () => {
  const answers = (cwd: string, ...flags: string[]): string[][] => {
    const words = [...oneStation, '--out', 'a.json', '--answers', 'a.html', '--force', ...flags];
    expect(whichgas(words, { cwd })).toMatchObject({ code: 0 });
    return tagged(page(cwd, 'a.html'), 'tr').map((row) =>
      elements(row)
        .filter(({ tagName }) => tagName === 'td')
        .map(textOf),
    );
  };

  it('has one row for lines that the station shows as one', () =>
    withFiles({}, (cwd) => {
      const rows = answers(cwd, '--expect', 'sodium', '--glass', 'F2', '--apex', '60°');
      expect(rows.filter((row) => row.join().includes('589'))).toEqual([
        ["48°11'", '589.00 + 589.59', 'yellow', 'strong'],
      ]);
    }));

  it('gives readings where a calibration of the station tells them', () =>
    withFiles({ 'week-1.json': readFileSync(exampleFile('harbour-lane-bench-2.json')) }, (cwd) => {
      const rows = answers(cwd, '--expect', 'helium', '--calibration', 'week-1.json');
      const [yellow] = rows.filter((row) => row.includes('587.56'));
      const [predicted] = jsonLines(whichgas(['predict', '--json', 'week-1.json', 'helium'], { cwd })).filter(
        (line) => Math.abs((line as { wavelengthNm: number }).wavelengthNm - 587.56) < 0.01,
      );
      expect(yellow![0]).toBe((predicted as { reading: string }).reading);
    }));

  it('writes them as the station is read, and only deviations where the calibration was read otherwise', () =>
    withFiles({ 'week-1.json': readFileSync(exampleFile('harbour-lane-bench-2.json')) }, (cwd) => {
      const yellow = (...flags: string[]) =>
        answers(cwd, '--expect', 'helium', '--calibration', 'week-1.json', ...flags).find((row) =>
          row.includes('587.56'),
        )!;
      expect(yellow('--least-count', '0.01°').slice(0, 2)).toEqual([
        expect.stringMatching(/^\d+\.\d\d°$/),
        expect.stringMatching(/^\d+\.\d\d°$/),
      ]);
      expect(yellow('--least-count', "5'")[0]).toMatch(/^\d+°\d[05]'$/);
      for (const flags of [
        ['--method', 'both-sides'],
        ['--windows', '2'],
      ]) {
        // An empty column is left out: the deviation stands first.
        expect(yellow(...flags)[0]).toBe("48°13'");
        expect(textOf(tagged(page(cwd, 'a.html'), 'body')[0]!)).toMatch(
          /there are deviations and no readings/,
        );
      }
    }));

  it('finds a calibration of a table beside the table', () =>
    withFiles({}, (cwd) => {
      mkdirSync(join(cwd, 'prepared'));
      writeFileSync(
        join(cwd, 'prepared', 'week-1.json'),
        readFileSync(exampleFile('harbour-lane-bench-2.json')),
      );
      writeFileSync(join(cwd, 'prepared', 'one.csv'), 'station,lamp,calibration\n1,Hg,week-1.json\n');
      const words = ['station', 'prepared/one.csv', '--least-count', "1'", '--out', 'lab'];
      expect(whichgas(words, { cwd })).toMatchObject({
        code: 0,
        err: 'whichgas: the record of one station is in lab\n',
      });
    }));

  it('takes a key as verify does', () =>
    withFiles({ 'key.csv': 'record,tube,expected\na,C,neon\na,D,helium\n' }, (cwd) => {
      const rows = answers(cwd, '--tube', 'C, D', '--key', 'key.csv');
      expect(rows.slice(1, 3).map((row) => row.slice(-2))).toEqual([
        ['C', 'neon'],
        ['D', 'helium'],
      ]);
    }));
});

describe('what is refused, with one sentence and nothing written', () => {
  const table = (...rows: string[]) => rows.join('\n');
  it.each([
    ['no lamp', ['station', '--least-count', "1'", '--out', 'a.json'], /--lamp is missing: the known lamp/],
    [
      'a lamp that is none',
      [...oneStation, '--lamp', 'mercruy', '--out', 'a.json'],
      /--lamp: "mercruy" is not a lamp of the line table; did you mean mercury\?/,
    ],
    ['no least count', ['station', '--lamp', 'Hg', '--out', 'a.json'], /--least-count is missing/],
    [
      'a least count without a unit',
      ['station', '--lamp', 'Hg', '--least-count', '1', '--out', 'a.json'],
      /--least-count: .*degrees, minutes or seconds/,
    ],
    [
      'NaN for a least count',
      ['station', '--lamp', 'Hg', '--least-count', 'NaN', '--out', 'a.json'],
      /--least-count: /,
    ],
    [
      'a huge number for a scale',
      ['station', '--lamp', 'Hg', '--method', 'scale', '--least-count', '1e400', '--out', 'a.json'],
      /--least-count "1e400": on a scale/,
    ],
    [
      '9 × 400 for a scale',
      ['station', '--lamp', 'Hg', '--method', 'scale', '--least-count', '9'.repeat(400), '--out', 'a.json'],
      /--least-count/,
    ],
    [
      'a method that is none',
      [...oneStation, '--method', 'prism', '--out', 'a.json'],
      /--method must be one of/,
    ],
    ['three windows', [...oneStation, '--windows', '3', '--out', 'a.json'], /--windows must be 1 or 2/],
    [
      'a shelf of strangers',
      [...oneStation, '--shelf', 'neon, unobtainium', '--out', 'a.json'],
      /--shelf: "unobtainium" is not a tube/,
    ],
    ['no file', oneStation, /needs --out FILE\.json/],
    ['another ending', [...oneStation, '--out', 'a.txt'], /must end in \.json/],
    [
      'a sheet that is no page',
      [...oneStation, '--out', 'a.json', '--sheet', 'a.pdf'],
      /--sheet a\.pdf: .*\.html/,
    ],
    ['a title of a kilobyte', [...oneStation, '--title', 'x'.repeat(1024), '--out', 'a.json'], /--title: /],
    ['a file name of a kilobyte', [...oneStation, '--out', `${'x'.repeat(1024)}.json`], /name is too long/],
    ['a folder for a record', [...oneStation, '--out', 'folder.json'], /folder\.json: a folder/],
    ['a folder that is missing', [...oneStation, '--out', 'no/a.json'], /there is no such folder/],
    [
      'answers without what is in the tube',
      [...oneStation, '--out', 'a.json', '--answers', 'a.html'],
      /nothing says what is in tube 1 of a\.json/,
    ],
    [
      'two names for one tube',
      [...oneStation, '--expect', 'neon, argon', '--out', 'a.json', '--answers', 'a.html'],
      /--expect: 2 names for one tube/,
    ],
    [
      'a glass without an angle',
      [...oneStation, '--glass', 'F2', '--out', 'a.json'],
      /--glass: .*apex angle/,
    ],
    [
      'a glass that is none',
      [...oneStation, '--glass', 'F22', '--apex', '60', '--out', 'a.json'],
      /--glass: .*catalogue/,
    ],
    [
      'a prism that lets nothing through',
      [...oneStation, '--glass', 'F2', '--apex', '100', '--out', 'a.json'],
      /--apex: light does not pass/,
    ],
    [
      'a calibration of another instrument',
      [...oneStation, '--calibration', 'scale.json', '--out', 'a.json'],
      /scale\.json is of another instrument/,
    ],
    [
      'a gas that is none, without answers',
      [...oneStation, '--expect', 'notagas', '--out', 'a.json'],
      /--expect: "notagas" is not a tube/,
    ],
    [
      'a gas that is not on the shelf',
      [...oneStation, '--shelf', 'He, Ne', '--expect', 'argon', '--out', 'a.json'],
      /--expect: "argon" is not on the shelf of the station, which has helium, neon/,
    ],
    [
      'a key of a gas that is not on the shelf',
      [...oneStation, '--shelf', 'He, Ne', '--key', 'key.csv', '--answers', 'a.html', '--out', 'a.json'],
      /--key: tube 1 of a\.json: "argon" is not on the shelf/,
    ],
    [
      'a key without answers',
      [...oneStation, '--key', 'key.csv', '--out', 'a.json'],
      /--key says what is in the tubes for the answers; add --answers/,
    ],
    [
      'a central image without a glass',
      [...oneStation, '--central', '10', '--out', 'a.json'],
      /--central: the central image belongs to a glass/,
    ],
    [
      'one label twice',
      [...oneStation, '--tube', 'C, D, C', '--out', 'a.json'],
      /--tube: "C" stands there twice/,
    ],
    [
      'one label twice, as verify reads it',
      [...oneStation, '--tube', 'C; tube c', '--out', 'a.json'],
      /"tube c" stands there twice/,
    ],
    ['two tables', ['station', 'a.csv', 'b.csv', '--out', 'lab'], /one table of stations/],
    ['a table and a file', ['station', 'a.csv', '--out', 'lab.json'], /go into a folder/],
    [
      'a table and a station',
      ['station', 'a.csv', '--station', '3', '--out', 'lab'],
      /--station belongs to one station/,
    ],
    ['a folder for a table', ['station', 'folder.json', '--out', 'lab'], /a folder, where a file is needed/],
  ])('%s', (_what, words, sentence) =>
    withFiles(
      {
        'a.csv': lab,
        'key.csv': 'record,expected\na,argon\n',
        'scale.json': readFileSync(exampleFile('harbour-lane-bench-9.json')),
      },
      (cwd) => {
        mkdirSync(join(cwd, 'folder.json'));
        const before = readdirSync(cwd);
        const { code, out, err } = whichgas(words, { cwd });
        expect({ code, out }).toEqual({ code: 2, out: '' });
        expect(err).toMatch(sentence);
        expect(err).toMatch(/^(whichgas: .+\n)+$/);
        expect(readdirSync(cwd)).toEqual(before);
      },
    ),
  );

  it.each([
    ['no row', 'station,lamp', /there is no station below the first row/],
    [
      'a column that is none',
      table('station,lmap', '1,Hg'),
      /row 1, column 2: the column "lmap" is not known/,
    ],
    ['no column of stations', table('record,lamp', 'a,Hg'), /one of them station/],
    ['a row without a station', table('station,lamp', ',Hg'), /row 2: the station is not named/],
    ['a lamp misspelt', table('station,lamp', '1,Hg', '2,mercruy'), /row 3, column 2 \(lamp\): "mercruy"/],
    ['a lamp that is missing', table('station,lamp', '1,'), /row 2, column 2 \(lamp\) is missing/],
    [
      'one record twice',
      table('station,lamp', 'A/1,Hg', 'a 1,Hg'),
      /row 3: row 2 makes the record station-a-1\.json already/,
    ],
    [
      'a record with a folder',
      table('station,lamp,record', '1,Hg,../a'),
      /row 2, column 3 \(record\): "\.\.\/a" is no name for a record/,
    ],
    ['a device', table('station,lamp,record', '1,Hg,NUL'), /"NUL" is no name for a record/],
    ['a name of nothing but marks', table('station,lamp', '***,Hg'), /makes no name of a file/],
    [
      'a gas misspelt',
      table('station,lamp,expected', '1,Hg,neno'),
      /row 2, column 3 \(expected\): "neno" is not a tube.*neon/,
    ],
    [
      'a gas that is not on the shelf',
      table('station,lamp,expected,shelf', '1,Hg,neon,"neon, argon"', '2,Hg,helium,neon'),
      /row 3, column 3 \(expected\): "helium" is not on the shelf/,
    ],
    [
      'one label twice',
      table('station,lamp,tube', '1,Hg,"C, c"'),
      /row 2, column 3 \(tube\): "c" stands there twice/,
    ],
    [
      'a central image without a glass',
      table('station,lamp,central', '1,Hg,10'),
      /row 2, column 3 \(central\): the central image belongs to a glass/,
    ],
    [
      'a calibration that is missing',
      table('station,lamp,calibration', '1,Hg,gone.json'),
      /row 2, column 3 \(calibration\): gone\.json: cannot be read/,
    ],
    ['a cell too many', table('station,lamp', '1,Hg,x'), /one cell more than there are columns/],
  ])('a table with %s', (_what, csv, sentence) =>
    withFiles({ 'a.csv': csv }, (cwd) => {
      const words = ['station', 'a.csv', '--least-count', "1'", '--out', 'lab', '--answers', 'a.html'];
      const { code, out, err } = whichgas(words, { cwd });
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(sentence);
      expect(readdirSync(cwd)).toEqual(['a.csv']);
    }),
  );
});
