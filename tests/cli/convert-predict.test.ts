import { describe, expect, it } from 'vitest';
import { convertReading } from '../../src/analysis/convert.ts';
import { predictForGlass, predictOnCurve, wantedLines } from '../../src/analysis/predict.ts';
import { glasses } from '../../src/calibrate/curve/glasses.ts';
import { tubes } from '../../src/lines/table.ts';
import { readingAt } from '../../src/observe/reading-at.ts';
import { predictedText } from '../../src/present/predict-output.ts';
import { textWidth } from '../../src/present/text-width.ts';
import type { BenchLine, Setting } from '../../src/record/bench.ts';
import { GlassReader, neonNm, recordOf, unknownTube } from '../calibrate/glass-bench.ts';
import { bench, calibration, straightCurve, tube } from './analysis-fixture.ts';
import { whichgas } from './run-program.ts';

const oneSide = (...windows: number[]): Setting => ({ kind: 'one-side', windows });
const line = (setting: Setting): BenchLine => ({
  index: 0,
  settings: [setting],
  texts: [''],
  colour: null,
  brightness: null,
  note: null,
  use: true,
});

describe('a reading', () => {
  it('becomes a deviation and a wavelength with its uncertainty', () => {
    const reading = { text: '150', setting: oneSide(150) };
    const converted = convertReading(bench(), calibration(), reading, tubes);
    expect(converted).toMatchObject({
      reading: '150',
      deviationDeg: 50,
      wavelengthNm: 550,
      extrapolated: false,
      colour: 'green',
    });
    // One count of 1′ as a rectangle, one setting of 0.5′ and 0.1′ of curve, on a slope of 1′ per nm.
    expect(converted.standardUncertaintyNm).toBeGreaterThan(Math.hypot(1 / Math.sqrt(12), 0.5, 0.1));
    expect(converted.standardUncertaintyNm).toBeLessThan(1);
    for (const near of converted.near) {
      expect(Math.abs(near.wavelengthNm - 550)).toBeLessThanOrEqual(2 * converted.standardUncertaintyNm!);
    }
  });

  it('lists the near lines of the given tubes only, nearest first', () => {
    const neon = tubes.filter(({ substance }) => substance === 'neon');
    const reading = { text: '', setting: oneSide(100 + (3000 - 35) / 60) };
    const { near } = convertReading(bench(), calibration(), reading, neon);
    expect(near.length).toBeGreaterThan(0);
    expect(near.every(({ substance }) => substance === 'neon')).toBe(true);
    const distances = near.map(({ wavelengthNm }) => Math.abs(wavelengthNm - 585));
    expect(distances).toEqual([...distances].sort((a, b) => a - b));
  });

  it('has no wavelength without a curve or without a central image', () => {
    const reading = { text: '', setting: oneSide(150) };
    const nothing = { wavelengthNm: null, standardUncertaintyNm: null, colour: null, near: [] };
    expect(convertReading(bench(), calibration({ curve: null }), reading, tubes)).toMatchObject({
      deviationDeg: 50,
      extrapolated: false,
      ...nothing,
    });
    const { curve } = calibration();
    const blind = { ...curve!, wavelengthAt: () => null };
    expect(convertReading(bench(), calibration({ curve: blind }), reading, tubes)).toMatchObject({
      deviationDeg: 50,
      extrapolated: true,
      ...nothing,
    });
    expect(convertReading(bench({ central: [] }), calibration(), reading, tubes)).toMatchObject({
      deviationDeg: null,
      ...nothing,
    });
  });
});

describe('--tube LABEL', () => {
  const still = new GlassReader();
  const turned = new GlassReader({ centralDeg: 181 + 16 / 60 });
  const unknown = [
    unknownTube(still, neonNm, { label: 'tube A' }),
    unknownTube(turned, neonNm, { label: 'tube B', central: [turned.central()] }),
  ];
  const record = JSON.stringify({ whichgas: 1, ...recordOf(still, { unknown }) });
  const run = (...args: string[]) => whichgas([args[0]!, '-', ...args.slice(1)], { stdin: record });

  it('counts from the central image of that tube, there and back', () => {
    const there = run('predict', 'neon', '--tube', 'b', '--json');
    const places = there.out
      .trim()
      .split('\n')
      .map((row): { reading: string; linesNm: number[] } => JSON.parse(row));
    const reading = places.find(({ linesNm }) => linesNm.includes(585.2488))?.reading;
    expect(reading).toBe(turned.line(585.25));
    expect(there.err).toBe('');
    expect(run('convert', '--tube', 'Tube B', '--to', '585.25').out).toContain(reading);
    expect(run('convert', '--tube', 'Tube B', reading!).out).toMatch(/58[45]\.\d ± .*yellow/);
    expect(run('convert', '--to', '585.25')).toMatchObject({
      out: expect.stringContaining(still.line(585.25)),
      err: expect.stringContaining('tube B has its own: --tube "tube B" counts from that'),
    });
  });

  it('names a tube of the record', () => {
    const { code, err } = run('convert', '--tube', 'C', '--to', '585.25');
    expect(code).toBe(2);
    expect(err).toBe(
      'whichgas: --tube "C": no tube of that label in the record; it has "tube A", "tube B"\n',
    );
    expect(run('predict', '--advise', '--tube', 'A').code).toBe(2);
  });
});

describe('the place of a deviation on the circle', () => {
  it('lies on the side on which the lines were read, round through zero', () => {
    const lower = bench({ central: [oneSide(20)], tubes: [tube({ lines: [line(oneSide(330))] })] });
    expect(readingAt(lower, 3000)).toBe("330°00'");
    expect(readingAt(bench({ central: [oneSide(320)] }), 3000)).toBe("10°00'");
  });

  it('names both windows, or both sides', () => {
    expect(readingAt(bench({ windows: 2, central: [oneSide(100, 280.05)] }), 3000)).toBe("150°00' / 330°03'");
    const sides: Setting = { kind: 'both-sides', left: [210], right: [90] };
    const both = bench({ method: 'both-sides', central: [], tubes: [tube({ lines: [line(sides)] })] });
    expect(readingAt(both, 59 * 60)).toBe("left 209°00' right 91°00'");
  });

  it('is a number of scale units on a scale', () => {
    expect(readingAt(bench({ method: 'scale', leastCount: 0.05 }), 12.3456)).toBe('12.35');
    expect(readingAt(bench({ method: 'scale', leastCount: 1 }), 12.3456)).toBe('12');
  });

  it('is unknown while there is no direction to count from', () => {
    expect(readingAt(bench({ central: [] }), 3000)).toBeNull();
    expect(readingAt(bench({ method: 'both-sides', central: [] }), 3000)).toBeNull();
  });
});

describe('a crib sheet', () => {
  it('undoes convert, and marks what lies outside the known lines', () => {
    const lines = predictOnCurve(bench(), straightCurve(), wantedLines('helium'));
    const yellow = lines.find(({ wavelengthNm }) => Math.abs(wavelengthNm - 587.56) < 0.01);
    expect(yellow).toMatchObject({
      substance: 'helium',
      brightness: 'strong',
      colour: 'yellow',
      extrapolated: false,
    });
    expect(yellow?.reading).toBe("149°22'");
    expect(lines.find(({ wavelengthNm }) => wavelengthNm > 700)?.extrapolated).toBe(true);
  });

  it('has nulls where the curve does not reach', () => {
    const [line] = predictOnCurve(bench(), straightCurve(), [
      { substance: null, wavelengthNm: 900, colour: 'deep red', brightness: null },
    ]);
    expect(line).toMatchObject({
      reading: null,
      deviationDeg: null,
      standardUncertainty: null,
      extrapolated: true,
    });
  });

  it('for catalogue glass is the minimum deviation by the Sellmeier equation', () => {
    const glass = glasses.find(({ name }) => name === 'F2')!;
    const station = {
      glass,
      apexAngleDeg: 60,
      centralDeg: 350,
      leastCountArcmin: 1,
      decimal: false,
      side: -1 as const,
    };
    const [line] = predictForGlass(station, [
      { substance: null, wavelengthNm: 587.5618, colour: 'yellow', brightness: null },
    ]);
    // 2·asin(n sin 30°) - 60° with the catalogue's nd = 1.62004.
    const expected = (2 * Math.asin(1.62004 / 2) * 180) / Math.PI - 60;
    expect(line?.deviationDeg).toBeCloseTo(expected, 3);
    expect(line?.reading).toBe("301°48'");
  });
});

describe('a crib sheet of long readings', () => {
  const line = (substance: string, reading: string, wavelengthNm: number) => ({
    substance,
    wavelengthNm,
    linesNm: [wavelengthNm, wavelengthNm + 1],
    reading,
    deviationDeg: 40,
    standardUncertainty: 0.33,
    colour: 'blue-violet' as const,
    brightness: 'medium' as const,
    extrapolated: true,
  });
  it.each([
    ['one side', `229°17'`, 1],
    ['both sides', `left 215°55'30" right 88°42'00"`, 2],
    ['both windows of both sides', `left 229°17'30" / 49°17'30" right 132°51'30" / 312°51'30"`, 2],
  ])('of %s keeps to 80 columns, and every reading is in it', (_what, reading, tables) => {
    const printed = predictedText(
      [
        line('carbon dioxide', reading, 434.05),
        line('carbon dioxide', reading, 430.5),
        line('neon', reading, 540.06),
      ],
      'arcmin',
    );
    for (const each of printed.split('\n')) expect(textWidth(each), each).toBeLessThanOrEqual(80);
    expect(printed.match(/^reading/gm)).toHaveLength(tables);
    for (const angle of reading.match(/\d+°[\d'"]+/g)!) expect(printed.split(angle)).toHaveLength(4);
    expect(printed).toContain('carbon dioxide');
    expect(printed).toContain('neon');
  });
});

describe('a crib sheet of a lamp and of one that holds it', () => {
  const printed = (...asked: string[]) =>
    predictedText(
      predictOnCurve(
        bench(),
        straightCurve(),
        asked.flatMap((name) => wantedLines(name, true)),
      ),
      'arcmin',
    ).split('\n');

  it('says of each line which lamp it is of', () => {
    const green = printed('mercury', 'mercury-cadmium').filter((row) => row.includes('546.07'));
    expect(
      green.map((row) =>
        row
          .trim()
          .split(/\s{2,}/)
          .at(-1),
      ),
    ).toEqual(['mercury', 'mercury (mercury-cadmium)']);
    expect(printed('mercury-cadmium').join()).not.toContain('(mercury-cadmium)');
    expect(printed('mercury', 'cadmium').join()).not.toContain('(');
  });
});
