import { describe, expect, it } from 'vitest';
import { readRecord } from '../../src/record/read-record.ts';
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

  it.each([
    ['an impossible reading', "lamp,reading\nHg,229°12'\nHg,229°79'", /row 3: .*79 minutes/],
    ['no owner', "lamp,tube,reading\n,,229°12'", /row 2: names neither a lamp nor a tube/],
    ['two owners', "lamp,tube,reading\nHg,A,229°12'", /row 2: names both/],
    ['an unknown column', "lamp,readng\nHg,229°12'", /the column "readng" is not known/],
    ['a column twice', 'lamp,lamp\nHg,1', /two columns are named "lamp"/],
    ['no reading', 'lamp,wavelength,reading\nHg,546.07,', /row 2: there is no reading/],
    [
      'a wavelength that is none',
      'lamp,wavelength,reading\nHg,green,229 12',
      /row 2: "green" is not a wavelength/,
    ],
    ['a wavelength of the unknown', 'tube,wavelength,reading\nA,546,229 12', /row 2: .*no known wavelength/],
    ['nothing', '', /first row must name the columns/],
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
});
