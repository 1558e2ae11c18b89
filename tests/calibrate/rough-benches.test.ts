/** Coarse circles, drums and dials, and hands that scatter by more than a least count: nobody is accused for it. */
import { describe, expect, test } from 'vitest';
import { calibrate } from '../../src/calibrate/calibrate.ts';
import type { Calibration } from '../../src/calibrate/types.ts';
import { cataloguePrism, minimumDeviationArcmin } from '../score/prism.ts';
import { Random } from '../score/random.ts';
import { benchOf, mercuryNm, type PlainRecord } from './glass-bench.ts';

const neonNm = [
  703.24, 692.95, 671.7, 650.65, 640.22, 630.48, 614.31, 603.0, 594.48, 585.25, 540.06,
] as const;

/** Divisions of a drum that follows a prism: Hartmann's formula with constants of our own. */
const drumAt = (nm: number): number => 3400 - 404000 / (nm - 221);
/** A dial nearly linear in the wavelength: 0.9 divisions per nm in the violet, 0.8 in the red. */
const dialAt = (nm: number): number => 12 + 0.9 * (nm - 400) - 0.0002 * (nm - 400) ** 2;
/** Degrees on a circle whose central image stands at 315.7°. */
const circleAt = (nm: number): number => 315.7 - minimumDeviationArcmin(cataloguePrism('SF10', 60), nm) / 60;

interface RoughBench {
  readonly instrument: PlainRecord & { readonly leastCount: number | string };
  readonly step: number;
  readonly scatter: number;
  readonly at: (nm: number) => number;
}

function reader({ step, scatter, at }: RoughBench, random: Random) {
  const decimals = Math.max(0, Math.ceil(-Math.log10(step)));
  return (nm: number): number =>
    Number((Math.round((at(nm) + random.normal(0, scatter)) / step) * step).toFixed(decimals));
}

function record(bench: RoughBench, lampNm: Record<string, readonly number[]>, seed: number): PlainRecord {
  const read = reader(bench, new Random(seed));
  return {
    instrument: bench.instrument,
    ...(bench.instrument.method === 'central' ? { central: [315.7] } : {}),
    known: Object.entries(lampNm).map(([lamp, lines]) => ({
      lamp,
      lines: lines.map((nm) => ({ wavelengthNm: Number(nm.toFixed(1)), readings: [read(nm)] })),
    })),
  };
}

const calibrated = (plain: PlainRecord): Calibration => calibrate(benchOf(plain)).calibration;
const accused = ({ lines }: Calibration): number => lines.filter(({ status }) => status !== 'used').length;

const drum = { instrument: { method: 'scale', leastCount: 5 }, step: 5, scatter: 8, at: drumAt } as const;
const dial = { instrument: { method: 'scale', leastCount: 1 }, step: 1, scatter: 2, at: dialAt } as const;
const circle = {
  instrument: { method: 'central', leastCount: '0.1°' },
  step: 0.1,
  scatter: 0.12,
  at: circleAt,
} as const;
const seeds = Array.from({ length: 12 }, (_, seed) => seed + 1);

describe('no line is accused', () => {
  test.each([
    ['on a drum read to 5 divisions with a scatter of 8', drum, { neon: neonNm, mercury: mercuryNm }],
    ['on a circle read to 0.1° with a scatter of 0.12°', circle, { mercury: mercuryNm }],
    ['on a dial nearly linear in the wavelength', dial, { mercury: [404.66, 435.83, 546.07, 578.0, 623.44] }],
  ] as const)('%s', (_, bench, lampNm) => {
    const calibrations = seeds.map((seed) => calibrated(record(bench, lampNm, seed)));
    const lines = calibrations.reduce((sum, { lines }) => sum + lines.length, 0);
    expect(calibrations.reduce((sum, each) => sum + accused(each), 0) / lines).toBeLessThanOrEqual(0.01);
  });
});

describe('u follows the hand', () => {
  /** Share of wavelengths between the outermost known lines within `limit` u of the curve, on two dozen benches. */
  function coverage(scatterCounts: number, knownNm: readonly number[], limit: number): number {
    const bench: RoughBench = {
      ...drum,
      step: 2,
      scatter: 2 * scatterCounts,
      instrument: { method: 'scale', leastCount: 2 },
    };
    const asked = [450, 500, 550, 600, 650];
    const hits = Array.from({ length: 24 }, (_, seed) => {
      const { curve } = calibrated(record(bench, { mercury: knownNm }, 100 + seed));
      return asked.filter((nm) => {
        const { wavelengthNm, standardUncertaintyNm } = curve!.wavelengthAt(drumAt(nm), 0)!;
        return Math.abs(wavelengthNm - nm) <= limit * standardUncertaintyNm;
      }).length;
    });
    return hits.reduce((sum, count) => sum + count, 0) / (hits.length * asked.length);
  }

  test.each([
    ['a steady one', 0.5],
    ['a usual one', 1],
    ['one that scatters by two least counts', 2],
  ])('%s, with eight lines', (_, counts) => {
    expect(coverage(counts, mercuryNm, 1)).toBeGreaterThan(0.55);
    expect(coverage(counts, mercuryNm, 2)).toBeGreaterThan(0.85);
  });

  test('with three lines it is the usual hand that counts', () => {
    expect(coverage(1, [404.66, 546.07, 690.75], 1)).toBeGreaterThan(0.6);
    expect(coverage(1, [404.66, 546.07, 690.75], 2)).toBeGreaterThan(0.9);
  });
});

describe('and what is wrong is noticed', () => {
  const plain = record(
    { ...drum, step: 2, scatter: 2, instrument: { method: 'scale', leastCount: 2 } },
    { neon: neonNm, mercury: mercuryNm },
    1,
  );
  type Lines = { wavelengthNm: number; readings: number[] }[];
  function changed(statedNm: number, change: (line: Lines[number]) => Lines[number]): Calibration {
    const known = (plain.known as { lamp: string; lines: Lines }[]).map(({ lamp, lines }) => ({
      lamp,
      lines: lines.map((line) => (line.wavelengthNm === statedNm ? change(line) : line)),
    }));
    return calibrated({ ...plain, known });
  }
  const line = ({ lines }: Calibration, statedNm: number) =>
    lines.find(({ statedWavelengthNm }) => statedWavelengthNm === statedNm)!;

  test('nothing on the bench as it is', () => {
    expect(accused(calibrated(plain))).toBe(0);
  });

  test('a wavelength with one digit wrong, which no line of the lamp has', () => {
    const calibration = changed(614.3, ({ readings }) => ({ wavelengthNm: 611.3, readings }));
    expect(line(calibration, 611.3).status).toBe('reassigned');
    expect(line(calibration, 611.3).wavelengthNm).toBeCloseTo(614.31, 1);
    expect(accused(calibration)).toBe(1);
  });

  test('a misread numbered mark of fifty', () => {
    const calibration = changed(703.2, ({ wavelengthNm, readings }) => ({
      wavelengthNm,
      readings: [readings[0]! + 50],
    }));
    expect(line(calibration, 703.2).status).toBe('slip');
    expect(accused(calibration)).toBe(1);
  });
});

test('lines named by guess, each for the one before it, are named anew', () => {
  const read = reader(
    {
      instrument: { method: 'scale', leastCount: 0.05 },
      step: 0.05,
      scatter: 0.05,
      at: (nm) => 12000 / (nm - 90) - 14,
    },
    new Random(3),
  );
  const trueNm = [471.31, 492.19, 501.57, 504.77, 587.56, 667.82];
  const statedNm = [447.1, 471.3, 492.2, 501.6, 587.6, 667.8];
  const calibration = calibrated({
    instrument: { method: 'scale', leastCount: 0.05 },
    known: {
      lamp: 'helium',
      lines: trueNm.map((nm, i) => ({ wavelengthNm: statedNm[i], readings: [read(nm)] })),
    },
  });
  for (const i of [0, 1, 2, 3]) {
    expect(calibration.lines[i]!.status).toBe('reassigned');
    expect(calibration.lines[i]!.wavelengthNm).toBeCloseTo(trueNm[i]!, 1);
  }
  for (const i of [4, 5]) expect(calibration.lines[i]!.status).toBe('used');
});

test('one side misread by 10′ breaks the middle between left and right, and is named with its side', () => {
  const prism = cataloguePrism('N-BK7', 45);
  const sides = mercuryNm.map((nm, i) => {
    const deviationDeg = minimumDeviationArcmin(prism, nm) / 60;
    const random = new Random(20 + i);
    const jitter = (): number => random.normal(0, 0.4) / 60;
    const right = 213 + deviationDeg + jitter() - (i === 6 ? 10 / 60 : 0);
    return { left: Number((213 - deviationDeg + jitter()).toFixed(4)), right: Number(right.toFixed(4)) };
  });
  const calibration = calibrated({
    instrument: { method: 'both-sides', leastCount: '1"' },
    known: { lamp: 'mercury', lines: mercuryNm.map((nm, i) => ({ wavelengthNm: nm, readings: [sides[i]] })) },
  });
  expect(calibration.lines.map(({ status }) => status === 'used')).toEqual(mercuryNm.map((_, i) => i !== 6));
  expect(calibration.lines[6]!.finding).toMatchObject({ what: 'slip', slip: { part: { side: 'right' } } });
});
