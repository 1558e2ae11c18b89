/** Sides, windows and repeats check each other; the central image and the check lines are checked too. */
import { describe, expect, test } from 'vitest';
import { benchConstants } from '../../src/observe/bench-constants.ts';
import { budgetName } from '../../src/words/budget-text.ts';
import { calibrateAndTell as calibrate } from '../calibrate-and-tell.ts';
import { benchOf, GlassReader, heliumNm, type PlainRecord, recordOf } from './glass-bench.ts';

const reader = new GlassReader();
const calibrated = (record: PlainRecord) => calibrate(benchOf(record)).calibration;
const lamp = (readingsOf: (nm: number, i: number) => unknown[]): PlainRecord => ({
  lamp: 'helium',
  lines: heliumNm.map((nm, i) => ({ wavelengthNm: nm, readings: readingsOf(nm, i) })),
});

describe('both sides', () => {
  const record = (slipArcmin: number): PlainRecord => ({
    instrument: { method: 'both-sides', leastCount: "1'" },
    known: lamp((nm, i) => [reader.bothSides(nm, i === 2 ? slipArcmin : 0)]),
  });

  test('share the direction midway between them', () => {
    expect(benchConstants(benchOf(record(0))).midpointDeg).toBeCloseTo(181 + 4 / 60, 1);
    expect(benchConstants(benchOf(record(30))).midpointDeg).toBeCloseTo(181 + 4 / 60, 1);
  });

  test('show on which of them a reading is wrong, though the deviation is off by half the slip only', () => {
    const line = calibrated(record(30)).lines[2]!;
    expect(line.status).toBe('slip');
    expect(line.residual).toBeGreaterThan(13);
    expect(line.residual).toBeLessThan(17);
    expect(line.message).toMatch(/on the left/);
    expect(line.message).toContain(reader.bothSides(587.56).left);
  });

  test('that agree accuse nobody', () => {
    expect(calibrated(record(0)).doubts).toEqual([]);
  });
});

describe('the central image beside both sides', () => {
  const doubtsOf = (movedArcmin: number) =>
    calibrated({
      instrument: { method: 'both-sides', leastCount: "1'" },
      central: [reader.central(movedArcmin)],
      known: lamp((nm) => [reader.bothSides(nm)]),
    }).doubts;

  test('is doubted where it does not lie midway between them', () => {
    expect(doubtsOf(30)).toMatchObject([{ step: 'central', index: null, kind: 'central-misread' }]);
    expect(doubtsOf(30)[0]!.message).toContain(reader.central(30));
  });

  test('is not where it does', () => {
    for (const movedArcmin of [-1, 0, 1]) expect(doubtsOf(movedArcmin)).toEqual([]);
  });
});

describe('two windows', () => {
  const shift = (text: string, degrees: number): string => {
    const [whole, rest] = text.split('°');
    return `${(Number(whole) + degrees) % 360}°${rest}`;
  };
  const pair = (text: string, slipped = false): unknown => [
    text,
    slipped ? shift(text, 181) : shift(text, 180),
  ];
  const record = (slipped: number): PlainRecord => ({
    instrument: { method: 'central', leastCount: "1'", windows: 2 },
    central: [pair(reader.central())],
    known: lamp((nm, i) => [pair(reader.line(nm), i === slipped)]),
  });

  test('stand half a turn apart, and one reading that does not is a slip', () => {
    expect(benchConstants(benchOf(record(3))).windowDifferenceArcmin).toBeCloseTo(0, 9);
    const { lines, doubts } = calibrated(record(3));
    expect(lines.filter(({ status }) => status !== 'used').map(({ index }) => index)).toEqual([3]);
    expect(lines[3]!.status).toBe('slip');
    expect(doubts).toHaveLength(1);
  });

  test('that agree accuse nobody', () => {
    expect(calibrated(record(-1)).doubts).toEqual([]);
  });
});

test('of three repeats the one that was misread is named', () => {
  const repeats = (nm: number, i: number) => [
    reader.line(nm),
    reader.line(nm, i === 5 ? 30 : 0),
    reader.line(nm),
  ];
  const { lines } = calibrated(recordOf(reader, { known: lamp(repeats) }));
  expect(lines.filter(({ status }) => status !== 'used').map(({ index }) => index)).toEqual([5]);
  expect(lines[5]!.message).toContain(`${reader.line(471.31, 30)} reads like ${reader.line(471.31)}`);
});

describe('on a scale', () => {
  const place = (nm: number) => Math.round(10 * (500 + 2 * (reader.deviationArcmin(nm) - 2800))) / 10;
  const scale = (changes: Record<number, number> = {}, gain = 1): PlainRecord => ({
    instrument: { method: 'scale', leastCount: 0.1 },
    known: lamp((nm, i) => [Math.round(10 * (gain * place(nm) + (changes[i] ?? 0))) / 10]),
  });

  test.each([1, -1])('running either way (%i) the curve passes through the lines', (gain) => {
    const { lines, rms, unit } = calibrated(scale({}, gain));
    expect(unit).toBe('scale');
    expect(lines.every(({ status, deviationDeg }) => status === 'used' && deviationDeg === null)).toBe(true);
    expect(rms).toBeLessThan(2);
  });

  test('a hundred units missed are a slip', () => {
    const { lines } = calibrated(scale({ 4: 100 }));
    expect(lines.filter(({ status }) => status !== 'used').map(({ index }) => index)).toEqual([4]);
    expect(lines[4]!.message).toMatch(/100 scale units/);
  });

  test('a check line that has moved asks for the known lines: there is no central image', () => {
    const check = [{ wavelengthNm: 587.56, readings: [Math.round(10 * (place(587.56) + 12)) / 10] }];
    const [doubt, ...others] = calibrated({ ...scale(), check }).doubts;
    expect(others).toEqual([]);
    expect(doubt).toMatchObject({ step: 'known', kind: 'moved' });
    expect(doubt!.message).toMatch(/moved by 1[0-4] scale units .*known lines again/);
    expect(doubt!.message).not.toMatch(/central/);
  });

  test('nothing is set to minimum deviation', () => {
    const names = calibrated(scale()).budget.map((term) => budgetName(term, benchOf(scale())));
    expect(names).toContain('setting the cross-hairs');
    expect(names.join()).not.toMatch(/minimum/);
  });
});

describe('the central image and the check lines', () => {
  test('repeats of the central image that disagree are announced', () => {
    const { doubts } = calibrated(recordOf(reader, { central: [reader.central(), reader.central(30)] }));
    expect(doubts.filter(({ step }) => step === 'central')).toEqual([
      expect.objectContaining({ kind: 'slip', message: expect.stringContaining(reader.central(30)) }),
    ]);
  });

  test('repeats within two minutes are not', () => {
    const { doubts } = calibrated(
      recordOf(reader, { central: [reader.central(), reader.central(2), reader.central(1)] }),
    );
    expect(doubts).toEqual([]);
  });

  test('each check line has its distance from the curve that it is no part of', () => {
    const check = [
      { wavelengthNm: 587.56, readings: [reader.line(587.56, 3)] },
      { wavelengthNm: 501.57, readings: [reader.line(501.57)] },
    ];
    const { checks } = calibrate(benchOf(recordOf(reader, { check }))).calibration;
    const plain = calibrate(benchOf(recordOf(reader))).calibration;
    checks.forEach(({ wavelengthNm, residual, standardUncertainty }, i) => {
      const truth = reader.deviationArcmin(wavelengthNm) + (i === 0 ? 3 : 0);
      expect(Math.abs(residual! - (truth - plain.curve!.ordinateAt(wavelengthNm)))).toBeLessThan(0.7);
      expect(standardUncertainty).toBeGreaterThan(0.3);
      expect(standardUncertainty).toBeLessThan(1.5);
    });
    expect(checks[0]!.residual! - checks[1]!.residual!).toBeGreaterThan(2);
  });

  test('a known line read again at the end elsewhere means that the bench has moved', () => {
    const moved = recordOf(reader, {
      check: [{ wavelengthNm: 587.56, readings: [reader.line(587.56, 12)] }],
    });
    expect(calibrated(moved).doubts).toEqual([
      expect.objectContaining({ step: 'central', kind: 'moved-central' }),
    ]);
    const still = recordOf(reader, { check: [{ wavelengthNm: 587.56, readings: [reader.line(587.56, 1)] }] });
    expect(calibrated(still).doubts).toEqual([]);
  });
});
