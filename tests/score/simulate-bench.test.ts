import { describe, expect, test } from 'vitest';
import { tubes } from '../../src/lines/table.ts';
import { excessPerSquareDegree, type Instrument, readLine } from './instrument.ts';
import { visibleLampLines } from './known-lamp.ts';
import {
  cataloguePrism,
  deviationAtIncidenceArcmin,
  minimumDeviationArcmin,
  minimumIncidenceDeg,
} from './prism.ts';
import { Random } from './random.ts';
import { simulateBench } from './simulate-bench.ts';

const plan = { family: 'flint', leastCountArcmin: 1, lamp: 'helium' } as const;
const neon = tubes.find((tube) => tube.substance === 'neon')!;

const f2Bench: Instrument = {
  method: 'central',
  prismSetting: 'each-line',
  windows: 1,
  prism: cataloguePrism('F2', 60),
  leastCountArcmin: 1,
  divisionArcmin: 30,
  settingScatterArcmin: 0.6,
  tickChance: 0.06,
  missetDeg: 1,
  centralDeg: 200,
  side: 1,
  eccentricityArcmin: 0,
  eccentricityPhaseDeg: 0,
  fixedIncidenceDeg: 54,
  scaleGain: 1,
  scaleOffset: 0,
  slipChance: 0,
};

describe('simulated prism', () => {
  test('the minimum deviation is the least of the deviations that Snell’s law gives around it', () => {
    const prism = cataloguePrism('F2', 60);
    const least = minimumDeviationArcmin(prism, 587.56);
    const best = minimumIncidenceDeg(prism, 587.56);
    expect(deviationAtIncidenceArcmin(prism, 587.56, best)).toBeCloseTo(least, 8);
    for (const step of [-2, -0.1, 0.1, 2]) {
      expect(deviationAtIncidenceArcmin(prism, 587.56, best + step)).toBeGreaterThan(least);
    }
  });

  test('a misset of one degree costs more on dense flint than on crown', () => {
    const excess = (glass: string) =>
      excessPerSquareDegree({ ...f2Bench, prism: cataloguePrism(glass, 60) }, 589);
    expect(excess('N-BK7')).toBeGreaterThan(0.8);
    expect(excess('N-BK7')).toBeLessThan(1);
    expect(excess('SF10')).toBeGreaterThan(1.4);
  });
});

describe('simulated readings', () => {
  const errorsArcmin = (instrument: Instrument, count: number): number[] => {
    const random = new Random(3);
    const deviation = minimumDeviationArcmin(instrument.prism, 587.56);
    return Array.from({ length: count }, () => {
      const { setting } = readLine(random, instrument, 587.56);
      if (setting.kind !== 'one-side') throw new Error('one side was asked for');
      return (setting.windows[0]! - instrument.centralDeg) * 60 - deviation;
    });
  };

  test('their mean lies above the minimum deviation by the mean excess, their scatter is that of the model', () => {
    const errors = errorsArcmin(f2Bench, 20_000);
    const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
    const variance = errors.reduce((sum, error) => sum + (error - mean) ** 2, 0) / errors.length;
    const excess = excessPerSquareDegree(f2Bench, 587.56);
    // Setting scatter, rectangular reading, a tick to either side, and a scaled chi-square of one degree of freedom.
    const expectedVariance = 0.6 ** 2 + 1 / 12 + 0.06 + 2 * excess ** 2;
    expect(Math.abs(mean - excess)).toBeLessThan(
      (4 * Math.sqrt(expectedVariance)) / Math.sqrt(errors.length),
    );
    expect(variance / expectedVariance).toBeGreaterThan(0.95);
    expect(variance / expectedVariance).toBeLessThan(1.05);
  });

  test('slips come at their rate and are reported with what they did to the reading', () => {
    const random = new Random(4);
    let slips = 0;
    for (let k = 0; k < 4000; k++) {
      const { setting, slips: made } = readLine(random, { ...f2Bench, slipChance: 0.05 }, 587.56);
      if (setting.kind !== 'one-side') throw new Error('one side was asked for');
      slips += made.length;
      const error = (setting.windows[0]! - 200) * 60 - minimumDeviationArcmin(f2Bench.prism, 587.56);
      expect(Math.abs(error - (made[0]?.shiftArcmin ?? 0))).toBeLessThan(20);
    }
    expect(slips).toBeGreaterThan(150);
    expect(slips).toBeLessThan(250);
  });
});

describe('simulated benches', () => {
  test('the same seed gives the same bench, another seed another', () => {
    const bench = (seed: number) => simulateBench(new Random(seed), { ...plan, tube: neon }).bench;
    expect(bench(5)).toEqual(bench(5));
    expect(bench(5)).not.toEqual(bench(6));
  });

  test.each([
    ['one side', {}],
    ['both sides in two windows', { method: 'both-sides', windows: 2 }],
    ['a prism set once', { prism: 'fixed' }],
    ['a scale', { method: 'scale' }],
  ] as const)(
    '%s: readings are multiples of the least count and known lines keep their order',
    (_, changes) => {
      const random = new Random(8);
      for (let k = 0; k < 50; k++) {
        const { bench, truth } = simulateBench(random, { ...plan, ...changes, tube: neon });
        const lines = [...bench.known[0]!.lines, ...bench.tubes[0]!.lines];
        const values = lines.flatMap(({ settings }) =>
          settings.flatMap((s) => (s.kind === 'one-side' ? s.windows : [...s.left, ...s.right])),
        );
        const steps = values.map((v) => (bench.method === 'scale' ? v : v * 60) / bench.leastCount);
        for (const step of steps) expect(Math.abs(step - Math.round(step))).toBeLessThan(1e-6);
        expect(truth.known.length).toBeGreaterThanOrEqual(5);
        expect(truth.unknown.length).toBe(bench.tubes[0]!.lines.length);
        expect(truth.unknown.length).toBeLessThanOrEqual(10);
      }
    },
  );

  test('planted naming faults change what they say and nothing else', () => {
    const random = new Random(9);
    for (const naming of ['neighbour', 'swap', 'shift', 'wrong-lamp'] as const) {
      const { bench, truth } = simulateBench(random, { ...plan, knownLines: [7, 7], fault: { naming } });
      const wrong = truth.known.filter((line) => line.statedNm !== line.wavelengthNm).length;
      if (naming === 'neighbour') expect(wrong).toBe(1);
      if (naming === 'swap') expect(wrong).toBe(2);
      if (naming === 'shift') expect(wrong).toBeGreaterThanOrEqual(3);
      expect(bench.known[0]!.name).toBe(naming === 'wrong-lamp' ? 'mercury' : 'helium');
      expect(truth.fault).toEqual({ naming });
    }
  });

  test('a crown prism read by a coarse eye shows the yellow mercury pair as one line named by its mean', () => {
    const crown = cataloguePrism('N-BK7', 60);
    const lines = visibleLampLines('mercury', 1.5, (nm) => minimumDeviationArcmin(crown, nm));
    const wavelengths = lines.map((line) => line.wavelengthNm);
    expect(wavelengths).toContain(578);
    expect(wavelengths).not.toContain(576.96);
  });
});
