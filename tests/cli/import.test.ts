import { chmodSync, readdirSync, readFileSync, statSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readRecord } from '../../src/record/read-record.ts';
import { obeyedByTerminals } from '../fuzz/hostile-text.ts';
import { whichgas, withFiles } from './run-program.ts';

const leastCount = ['--least-count', "1'"];

describe('whichgas import', () => {
  it('reads semicolons, decimal commas, a byte order mark, CRLF and quoted degree signs', () => {
    const csv = [
      '\ufeffLamp;Tube;Wavelength;Colour;Reading;Reading 2;Note',
      `Central;;;;"181°04'";;`,
      `mercury;;546,07;green;"229°40'";"229°41'";`,
      'mercury;;435,83;blue;231 26;;',
      `;tube C;;red;"228°53'";;"sharp; strong"`,
      ';;;;;;',
    ].join('\r\n');
    const { code, out, err } = whichgas(['import', '-', ...leastCount, '--title', 'Bench 3'], { stdin: csv });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(JSON.parse(out)).toEqual({
      whichgas: 1,
      title: 'Bench 3',
      instrument: { method: 'central', leastCount: "1'" },
      central: ["181°04'"],
      known: {
        lamp: 'mercury',
        lines: [
          { wavelengthNm: 546.07, readings: ["229°40'", "229°41'"], color: 'green' },
          { wavelengthNm: 435.83, readings: ['231 26'], color: 'blue' },
        ],
      },
      unknown: { label: 'tube C', lines: [{ readings: ["228°53'"], color: 'red', note: 'sharp; strong' }] },
    });
  });

  it.each([
    [
      'both sides',
      ['--least-count', '30"', '--method', 'both-sides'],
      'lamp;wavelength;left;right\nhelium;587,56;"211°52\'30""";"92°45\'00"""',
      [{ left: '211°52\'30"', right: '92°45\'00"' }],
    ],
    [
      'two windows',
      [...leastCount, '--windows', '2'],
      'lamp,wavelength,reading\ncentral,,181 04 / 1 04\nhelium,587.56,229 17 / 49 17',
      [['229 17', '49 17']],
    ],
    [
      'a scale',
      ['--least-count', '0,1', '--method', 'scale'],
      'lamp;wavelength;reading\nhelium;587,56;12,5',
      [12.5],
    ],
  ])('reads %s', (_what, options, csv, readings) => {
    const { code, out, err } = whichgas(['import', '-', ...options], { stdin: csv });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const record = readRecord(out);
    expect(record.ok && record.record.known[0]?.lines[0]?.readings).toEqual(readings);
  });

  it.each([';', ',', '\t'])(
    'a first row that only tells what separates the cells is no table: sep=%s',
    (mark) => {
      const rows = [
        ['lamp', 'wavelength', 'reading'],
        ['helium', '587.56', '229 17'],
      ];
      const csv = [`sep=${mark}`, ...rows.map((cells) => cells.join(mark))].join('\r\n');
      const { code, out, err } = whichgas(['import', '-', ...leastCount], { stdin: csv });
      expect({ code, err }).toEqual({ code: 0, err: '' });
      const record = readRecord(out);
      expect(record.ok && record.record.known[0]?.lines).toEqual([
        { wavelengthNm: 587.56, readings: ['229 17'] },
      ]);
    },
  );

  it.each([
    [
      'an impossible reading',
      "lamp,reading\nHg,229°12'\nHg,229°79'",
      /row 3, column 2 \(reading\): .*79 minutes/,
    ],
    ['no owner', "lamp,tube,reading\n,,229°12'", /row 2: names neither a lamp nor a tube/],
    ['two owners', "lamp,tube,reading\nHg,A,229°12'", /row 2, column 2 \(tube\): names both/],
    ['an unknown column', "lamp,readng\nHg,229°12'", /row 1, column 2: the column "readng" is not known/],
    ['repeats under one name', "lamp,reading,reading\nHg,229°12',229°13'", /repeats stand under "reading 2"/],
    ['a merged cell', "lamp,reading\nHg,229°12'\n,229°13'", /row 3: .*its name stands in every row/],
    [
      'rows below one that tells the separator',
      'sep=;\nlamp;reading\nHg;229 12\nHg;229 79',
      /row 4, column 2/,
    ],
    ['a column twice', 'lamp,lamp\nHg,1', /two columns are named "lamp"/],
    ['no reading', 'lamp,wavelength,reading\nHg,546.07,', /row 2: there is no reading/],
    [
      'a wavelength that is none',
      'lamp,wavelength,reading\nHg,green,229 12',
      /row 2, column 2 \(wavelength\): "green" is not a wavelength/,
    ],
    [
      'a wavelength of the unknown',
      'tube,wavelength,reading\nA,546,229 12',
      /row 2, column 2 .*no known wavelength/,
    ],
    ['nothing', '', /first row must name the columns/],
    [
      'a decimal comma that makes one cell too many',
      'lamp,wavelength,reading\nHg,546,07,229 40',
      /row 2, column 4: 229 40 is one cell more than there are columns; .*decimal comma/,
    ],
    [
      'a decimal comma that the columns have room for',
      'lamp,wavelength,reading,note\nHg,546,07,229 40',
      /row 2, column 2 \(wavelength\): "546,07" can be one number .* 546\.07, if two 546\.0/,
    ],
    [
      'a decimal comma in a reading',
      'lamp,wavelength,reading,reading 2\nHg,546.07,229,67',
      /row 2, column 3 \(reading\): "229,67" can be one number/,
    ],
    [
      'a cell in a column without a name',
      'lamp,,reading\nHg,sharp,229 40',
      /row 2, column 2: "sharp" stands in a column that the first row does not name/,
    ],
    [
      'an unclosed quotation mark',
      'lamp,reading\nHg,"229 40\nHg,231 26\n',
      /row 2, column 2 \(reading\): a quotation mark is not closed/,
    ],
    [
      'an unclosed quotation mark that the next row closes',
      'lamp,reading,note\nHg,"229 40,a\nHg,"231 26",b\n',
      /row 2, column 2 \(reading\): a quotation mark is not closed/,
    ],
    [
      'an unclosed quotation mark that a later cell seems to close',
      'lamp,reading\nHg,"229 40\nHg,"\n',
      /row 2, column 2 \(reading\): a line break inside the cell/,
    ],
    ['the column constructor', "lamp,constructor\nHg,229°12'", /column 2: the column "constructor" is not/],
    ['the column __proto__', "lamp,__proto__\nHg,229°12'", /column 2: the column "__proto__" is not known/],
    [
      'two columns of one meaning',
      'lamp,nm,wavelength,reading\n',
      /column 3: "wavelength" means the same as "nm"/,
    ],
    [
      'a hexadecimal wavelength',
      'lamp,nm,reading\nHg,0x222,229 40',
      /row 2, column 2 \(nm\): "0x222" is not/,
    ],
    [
      'a wavelength with an exponent',
      'lamp,nm,reading\nHg,5e2,229 40',
      /row 2, column 2 \(nm\): "5e2" is not/,
    ],
    ['an infinite wavelength', 'lamp,nm,reading\nHg,Infinity,229 40', /row 2, column 2 \(nm\)/],
    ['a wavelength of another world', 'lamp,nm,reading\nHg,5460.7,229 40', /row 2, column 2 \(nm\): .*1200/],
    [
      'a colour that is a number',
      'lamp,nm,color,reading\nHg,546,07,229 40',
      /row 2, column 3 \(color\): .*word/,
    ],
    [
      'a wavelength of the central image',
      'lamp,nm,reading\ncentral,546.07,181 04',
      /row 2, column 2 \(nm\): the central image has no wavelength/,
    ],
    ['one side of two', 'lamp,left,right\nHg,211 52,', /row 2, column 2 \(left\): the other side is missing/],
  ])('refuses %s and names the row', (_what, csv, sentence) => {
    const { code, out, err } = whichgas(['import', '-', ...leastCount], { stdin: csv });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(sentence);
  });

  it('writes a file with --out, and one line with --json', () =>
    withFiles({ 'readings.csv': 'lamp,wavelength,reading\nHg,546.07,229 40\n' }, (cwd) => {
      const written = whichgas(['import', 'readings.csv', ...leastCount, '--out', 'bench.json'], { cwd });
      expect(written).toMatchObject({ code: 0, out: '' });
      const { code, out } = whichgas(['import', 'readings.csv', ...leastCount, '--json'], { cwd });
      expect(code).toBe(0);
      expect(out.trimEnd()).not.toContain('\n');
      expect(readRecord(out).ok).toBe(true);
    }));

  it('takes whole numbers side by side where nothing else can be meant', () => {
    const scale = ['--method', 'scale', '--least-count', '1'];
    const takes = (csv: string, ...options: string[]) =>
      whichgas(['import', '-', ...(options.length > 0 ? options : leastCount)], { stdin: csv });
    // A table that shows its decimal point, cells that one number less would leave without a reading, semicolons.
    expect(takes('lamp,nm,reading,reading 2\nHe,587.56,12,13', ...scale).code).toBe(0);
    expect(takes('lamp,nm,reading\nHe,588,229').code).toBe(0);
    expect(takes('lamp;nm;reading;reading 2\nHe;588;229;229').code).toBe(0);
    expect(takes('lamp,nm,reading,reading 2\nHe,588.0,229 40,229 41').code).toBe(0);
    expect(takes('lamp,nm,reading,reading 2\nHe,588,12,13', ...scale).code).toBe(2);
  });

  it('says what of a central reading has no place in the record', () => {
    const csv = 'lamp,color,reading\ncentral,white,181 04\nHg,green,229 40';
    const { code, out, err } = whichgas(['import', '-', ...leastCount], { stdin: csv });
    expect(code).toBe(0);
    expect(out).not.toContain('white');
    expect(err).toMatch(/row 2, column 2 \(color\): "white" is left out/);
  });

  it('puts nothing on standard output that a terminal obeys', () => {
    const note = 'a\x1b]52;c;bm8=\x07\u202eb\x9b31m';
    const { code, out } = whichgas(['import', '-', ...leastCount], {
      stdin: `lamp;nm;reading;note\nHg;546.07;229 40;"${note}"`,
    });
    expect(code).toBe(0);
    expect(out).not.toMatch(obeyedByTerminals);
    const read = readRecord(out);
    expect(read.ok && read.record.known[0]?.lines[0]?.note).toBe(note);
  });

  it('replaces no file unless it is forced to, and then keeps its mode', () =>
    withFiles({ 'readings.csv': 'lamp,wavelength,reading\nHg,546.07,229 40\n', 'old.json': 'old' }, (cwd) => {
      const words = ['import', 'readings.csv', ...leastCount, '--out'];
      chmodSync(join(cwd, 'old.json'), 0o640);
      symlinkSync('old.json', join(cwd, 'link.json'));
      for (const name of ['old.json', 'link.json']) {
        const refused = whichgas([...words, name], { cwd });
        expect(refused).toMatchObject({ code: 2, out: '' });
        expect(refused.err).toMatch(/there is a file of that name already; --force replaces it/);
      }
      for (const name of ['readings.csv', 'readings', '-'])
        expect(whichgas([...words, name, '--force'], { cwd }).err).toMatch(/must end in \.json/);
      expect(readFileSync(join(cwd, 'old.json'), 'utf8')).toBe('old');
      expect(whichgas([...words, 'link.json', '--force'], { cwd }).code).toBe(0);
      expect(readRecord(readFileSync(join(cwd, 'old.json'), 'utf8')).ok).toBe(true);
      expect(statSync(join(cwd, 'old.json')).mode & 0o777).toBe(0o640);
      expect(readdirSync(cwd).sort()).toEqual(['link.json', 'old.json', 'readings.csv']);
    }));

  it.each([
    [
      "--least-count '0x1'",
      ['--method', 'scale', '--least-count', '0x1'],
      /on a scale it is a number of units/,
    ],
    [
      "--least-count '1e3'",
      ['--method', 'scale', '--least-count', '1e3'],
      /on a scale it is a number of units/,
    ],
    ['--least-count 0', ['--method', 'scale', '--least-count', '0'], /on a scale it is a number of units/],
    ["--least-count 0'", ['--least-count', "0'"], /--least-count: /],
    ['--windows 3', [...leastCount, '--windows', '3'], /--windows must be 1 or 2/],
    ['--method prism', [...leastCount, '--method', 'prism'], /--method must be one of/],
  ])('refuses %s', (_what, options, sentence) => {
    const { code, out, err } = whichgas(['import', '-', ...options], { stdin: 'lamp,reading\nHg,12.5' });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(sentence);
  });
});

describe('whichgas import --station', () => {
  const station = JSON.stringify({
    whichgas: 1,
    title: 'Station 3',
    instrument: { method: 'both-sides', leastCount: "1'" },
    known: { lamp: 'Hg', lines: [] },
    unknown: { label: 'C', lines: [] },
    shelf: ['neon', 'helium'],
    ranking: 'after-answer',
    about: { station: '3', prism: 'P3' },
  });
  const csv = 'lamp,tube,wavelength,left,right,answer\nHg,,546.07,229 40,131 20,\n,C,,228 53,132 05,neon\n';
  const imported = (cwd: string, text: string, ...more: string[]) =>
    whichgas(['import', '-', '--station', 's.json', ...more], { cwd, stdin: text });

  it('takes from the prepared record all but lamps and tubes, and leaves it as it is', () =>
    withFiles({ 's.json': station }, (cwd) => {
      const { code, out, err } = imported(cwd, csv, '--observers', 'A; B', '--date', '2026-12-01');
      expect({ code, err }).toEqual({ code: 0, err: '' });
      expect(JSON.parse(out)).toEqual({
        ...JSON.parse(station),
        known: {
          lamp: 'Hg',
          lines: [{ wavelengthNm: 546.07, readings: [{ left: '229 40', right: '131 20' }] }],
        },
        unknown: { label: 'C', lines: [{ readings: [{ left: '228 53', right: '132 05' }] }], answer: 'neon' },
        about: { date: '2026-12-01', observers: ['A', 'B'], station: '3', prism: 'P3' },
      });
      expect(readFileSync(join(cwd, 's.json'), 'utf8')).toBe(station);
    }));

  it.each([
    [
      'the least count once more',
      csv,
      ['--least-count', "1'"],
      /--least-count: the record of the station says it/,
    ],
    [
      'an answer to a lamp',
      'lamp,left,right,answer\nHg,1,2,neon',
      [],
      /row 2, column 4 \(answer\): an answer belongs to/,
    ],
    [
      'two answers',
      'tube,left,right,answer\nC,1,2,neon\nC,1,2,argon',
      [],
      /row 3, .*another answer than "neon" above/,
    ],
    ['observers without end', csv, ['--observers', 'x'.repeat(500)], /^whichgas: --observers: /],
  ])('refuses %s', (_what, text, flags, sentence) =>
    withFiles({ 's.json': station }, (cwd) => {
      const { code, out, err } = imported(cwd, text, ...flags);
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(sentence);
    }),
  );

  it('refuses a station that has readings', () =>
    withFiles({ 's.json': readFileSync('data/examples/harbour-lane-bench-2.json') }, (cwd) => {
      const { code, err } = imported(cwd, csv);
      expect(code).toBe(2);
      expect(err).toMatch(/--station s\.json: has readings already/);
    }));
});
