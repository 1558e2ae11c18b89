/** Faults that students make with known lines, planted one at a time. */
import { describe, expect, test } from 'vitest';
import type { ToldCalibration } from '../../src/analysis/types.ts';
import { prismBasis } from '../../src/calibrate/curve/basis.ts';
import { calibrateAndTell as calibrate } from '../calibrate-and-tell.ts';

import {
  benchOf,
  GlassReader,
  heliumNm,
  knownLamp,
  linesAt,
  type PlainRecord,
  recordOf,
} from './glass-bench.ts';

const reader = new GlassReader();
type Line = Parameters<typeof knownLamp>[1]['lines'][number];

const calibrated = (lines: readonly Line[], lamp = 'helium', parts: PlainRecord = {}): ToldCalibration =>
  calibrate(benchOf(recordOf(reader, { known: knownLamp(reader, { lamp, lines }), ...parts }))).calibration;
const withChange = (index: number, change: Partial<Line>): Line[] =>
  linesAt(heliumNm).map((line, i) => (i === index ? { ...line, ...change } : line));
const named = (readNm: readonly number[], statedNm: readonly (number | null)[]): Line[] =>
  readNm.map((nm, i) => ({ nm, statedNm: statedNm[i]! }));

const statuses = ({ lines }: ToldCalibration) => lines.map(({ status }) => status);
const faults = ({ lines }: ToldCalibration) =>
  lines.filter(({ status }) => status !== 'used').map(({ index }) => index);
/** The wavelengths the program uses, to the hundredth. */
const usedNm = ({ lines }: ToldCalibration) =>
  lines.map(({ wavelengthNm }) => wavelengthNm && Number(wavelengthNm.toFixed(2)));
/** Largest distance of the curve from the true deviations between the outermost lines, arc-minutes. */
const worstMiss = ({ curve }: ToldCalibration): number =>
  Math.max(
    ...[450, 500, 550, 600, 650].map((nm) => Math.abs(curve!.ordinateAt(nm) - reader.deviationArcmin(nm))),
  );

describe('a clean lamp', () => {
  test.each(['N-BK7', 'F2', 'SF10'])('of %s: every line used, nothing doubted', (glass) => {
    const of = new GlassReader({ glass });
    const { calibration } = calibrate(benchOf(recordOf(of)));
    expect(new Set(statuses(calibration))).toEqual(new Set(['used']));
    expect(calibration.doubts).toEqual([]);
    expect(calibration.warnings).toEqual([]);
    expect(calibration.rms).toBeLessThan(0.5);
  });
});

test('the constants printed are those of the curve used, though several explanations are averaged in it', () => {
  const { curve, coefficients } = calibrated(withChange(2, { slipArcmin: 3 }));
  for (const nm of [450, 550, 650]) {
    const terms = [...prismBasis.at(nm)].map((value, k) => value * coefficients[k]!.value);
    expect(terms.reduce((sum, term) => sum + term, 0)).toBeCloseTo(curve!.ordinateAt(nm), 6);
  }
});

describe('one misread line', () => {
  test.each([
    ['half a division', 30, 'slip'],
    ['one degree back', -60, 'slip'],
    ['ten degrees', 600, 'slip'],
    ['an amount that is no usual slip', 47, 'set-aside'],
  ] as const)('%s: announced with its reading, and the curve is as without it', (_, slipArcmin, status) => {
    const calibration = calibrated(withChange(3, { slipArcmin }));
    expect(faults(calibration)).toEqual([3]);
    expect(calibration.lines[3]!.status).toBe(status);
    expect(calibration.lines[3]!.message).toContain(reader.line(501.57, slipArcmin));
    expect(calibration.doubts).toHaveLength(1);
    expect(calibration.doubts[0]).toMatchObject({ step: 'known', index: 3, kind: status });
    expect(worstMiss(calibration)).toBeLessThan(0.6);
  });

  test('a slip names the reading as it should be', () => {
    expect(calibrated(withChange(3, { slipArcmin: 30 })).lines[3]!.message).toContain(reader.line(501.57));
  });

  test('minutes written as seconds are recognised', () => {
    const known = knownLamp(reader, { lamp: 'helium', lines: linesAt(heliumNm) });
    (known.lines as PlainRecord[])[3]!.readings = [reader.line(501.57).replace(/°(\d\d)'$/, `°00'$1"`)];
    const calibration = calibrated([], 'helium', { known });
    expect(calibration.lines[3]).toMatchObject({
      status: 'slip',
      message: expect.stringContaining('seconds'),
    });
    expect(calibration.lines[3]!.message).toContain(reader.line(501.57));
  });

  test('an ordinary scatter of a minute is no fault', () => {
    const jittered = linesAt(heliumNm).map((line, i) => ({ ...line, slipArcmin: [1, -1, 0][i % 3]! }));
    expect(faults(calibrated(jittered))).toEqual([]);
  });
});

describe('wrongly named lines', () => {
  test('two neighbours swapped are put right, and each says so', () => {
    const calibration = calibrated(
      heliumNm.map((nm) => ({ nm, statedNm: nm === 492.19 ? 471.31 : nm === 471.31 ? 492.19 : nm })),
    );
    expect(faults(calibration)).toEqual([4, 5]);
    expect(usedNm(calibration)).toEqual([...heliumNm]);
    for (const index of [4, 5]) {
      expect(calibration.lines[index]!.status).toBe('reassigned');
      expect(calibration.lines[index]!.message).toMatch(/neighbour/);
    }
    expect(calibration.doubts.map(({ kind }) => kind)).toEqual(['neighbour', 'neighbour']);
  });

  test('all lines shifted by one are put right', () => {
    const readNm = [667.82, 587.56, 501.57, 492.19, 471.31, 447.15];
    const calibration = calibrated(named(readNm, [706.52, 667.82, 587.56, 501.57, 492.19, 471.31]));
    expect(usedNm(calibration)).toEqual(readNm);
    expect(new Set(statuses(calibration))).toEqual(new Set(['reassigned']));
  });

  test('a run of wrong names may hold one that the bench could not tell by itself', () => {
    const crown = new GlassReader({ glass: 'N-BK7' });
    const readNm = [690.75, 579.07, 546.07, 435.83, 407.78, 404.66];
    const statedNm = [690.75, 579.07, 546.07, 491.61, 435.83, 407.78];
    const known = knownLamp(crown, { lamp: 'mercury', lines: named(readNm, statedNm) });
    const { calibration } = calibrate(benchOf(recordOf(crown, { known })));
    expect(usedNm(calibration)).toEqual(readNm);
  });

  test('an exchange of names is that, not two lines named for others nearby', () => {
    const of = new GlassReader({ glass: 'N-BK7' });
    const readNm = [690.75, 623.44, 579.07, 546.07, 491.61, 435.83, 407.78, 404.66];
    const statedNm = [690.75, 623.44, 579.07, 546.07, 491.61, 407.78, 435.83, 404.66];
    const known = knownLamp(of, { lamp: 'mercury', lines: named(readNm, statedNm) });
    const { calibration } = calibrate(benchOf(recordOf(of, { known })));
    expect(usedNm(calibration)).toEqual(readNm);
  });

  test('the lines of the wrong lamp are recognised as what they are', () => {
    const readNm = [667.82, 587.56, 501.57, 492.19, 471.31, 447.15];
    const calibration = calibrated(
      named(readNm, [690.75, 579.07, 546.07, 491.61, 435.83, 404.66]),
      'mercury',
    );
    expect(usedNm(calibration)).toEqual(readNm);
    expect(calibration.doubts).toHaveLength(1);
    expect(calibration.doubts[0]).toMatchObject({ step: 'known', index: null, kind: 'wrong-lamp' });
    expect(calibration.doubts[0]!.message).toContain('helium');
  });

  test('on a crown prism 577 for 579 is no fault', () => {
    const crown = new GlassReader({ glass: 'N-BK7' });
    const lines = [690.75, 579.07, 546.07, 491.61, 435.83, 404.66].map((nm) => ({
      nm,
      statedNm: nm === 579.07 ? 576.96 : nm,
    }));
    const { calibration } = calibrate(
      benchOf(recordOf(crown, { known: knownLamp(crown, { lamp: 'mercury', lines }) })),
    );
    expect(faults(calibration)).toEqual([]);
  });
});

describe('lines without a wavelength', () => {
  test('get those of their lamp, in order', () => {
    const calibration = calibrated(
      named(
        heliumNm,
        heliumNm.map(() => null),
      ),
    );
    expect(usedNm(calibration)).toEqual([...heliumNm]);
    expect(calibration.lines.map(({ statedWavelengthNm }) => statedWavelengthNm)).toEqual(
      heliumNm.map(() => null),
    );
    expect(new Set(statuses(calibration))).toEqual(new Set(['used']));
  });

  test('of the wrong lamp are recognised as those of the right one', () => {
    const readNm = [667.82, 587.56, 501.57, 492.19, 471.31, 447.15];
    const calibration = calibrated(
      named(
        readNm,
        readNm.map(() => null),
      ),
      'mercury',
    );
    expect(usedNm(calibration)).toEqual(readNm);
    expect(calibration.doubts).toEqual([expect.objectContaining({ kind: 'wrong-lamp' })]);
  });

  test('and with a slip say so in a sentence', () => {
    const lines = heliumNm.map((nm, i) => ({ nm, statedNm: null, slipArcmin: i === 2 ? 60 : 0 }));
    const calibration = calibrated(lines);
    expect(faults(calibration)).toEqual([2]);
    expect(calibration.lines[2]).toMatchObject({
      status: 'slip',
      message: expect.stringContaining('one degree'),
    });
    expect(calibration.doubts).toEqual([expect.objectContaining({ step: 'known', index: 2, kind: 'slip' })]);
    expect(usedNm(calibration)).toEqual([...heliumNm]);
  });
});

describe('what a person decides', () => {
  test('a confirmed wavelength is never exchanged for another', () => {
    const calibration = calibrated(
      heliumNm.map((nm) => ({
        nm,
        statedNm: nm === 492.19 ? 471.31 : nm,
        more: nm === 492.19 ? { confirmed: true } : {},
      })),
    );
    expect(calibration.lines[4]!.wavelengthNm).toBe(471.31);
    expect(calibration.lines[4]!.status).not.toBe('reassigned');
  });

  test('a line that is not to be used is listed, and changes nothing', () => {
    const aside = calibrated(withChange(3, { slipArcmin: 17, more: { use: false } }));
    const without = calibrated(linesAt(heliumNm).filter((_, i) => i !== 3));
    expect(aside.lines[3]).toMatchObject({ status: 'set-aside', deviationDeg: null, residual: null });
    expect(aside.doubts).toEqual([]);
    expect(aside.coefficients).toEqual(without.coefficients);
  });
});

test('doubts carry probabilities, and the hypotheses share 1 between them', () => {
  const calibration = calibrated(withChange(3, { slipArcmin: 30 }));
  for (const { probability } of calibration.doubts) {
    expect(probability).toBeGreaterThan(0.5);
    expect(probability).toBeLessThanOrEqual(1);
  }
  const total = calibration.hypotheses.reduce((sum, { probability }) => sum + probability, 0);
  expect(total).toBeCloseTo(1, 12);
});

describe('a hand that shakes', () => {
  // Errors of a few arc-minutes on a circle read to one, drawn once.
  const errors = [3, -4, 1, 5, -2, -5, 4, -1];

  test.each([
    ['all lines named', null],
    ['the third line not named', 2],
  ] as const)(
    'makes no faults, %s: the lines are used as they stand, and the scatter is said',
    (_, unnamed) => {
      const record = recordOf(new GlassReader(), {
        known: knownLamp(new GlassReader(), {
          lamp: 'helium',
          lines: heliumNm.map((nm, i) => ({
            nm,
            statedNm: i === unnamed ? null : nm,
            slipArcmin: errors[i]!,
          })),
        }),
      });
      const { lines, warnings, doubts } = calibrate(benchOf(record)).calibration;
      expect(lines.map(({ status }) => status)).toEqual(heliumNm.map(() => 'used'));
      expect(doubts).toEqual([]);
      expect(warnings.map(({ code }) => code)).toContain('large-scatter');
    },
  );
});
