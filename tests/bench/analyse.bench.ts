import { bench, describe } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { calibrate } from '../../src/calibrate/calibrate.ts';
import { identifyTube } from '../../src/identify/identify.ts';
import type { Bench } from '../../src/record/bench.ts';
import { faulty, hopeless, largestLamp, manyReadings, typical, withSlips } from './records.ts';

const options = { time: 1000, warmupTime: 300 };

describe('the whole way', () => {
  bench('a typical record', () => void analyseBench(typical), options);
  bench('a record with faulty known lines', () => void analyseBench(faulty), options);
  bench('25 readings', () => void analyseBench(manyReadings), options);
  bench('twenty tubes of noise', () => void analyseBench(hopeless), { ...options, iterations: 1 });
  let next = 0;
  bench(
    'one of 20 simulated records with slips in a thirtieth of the readings',
    () => {
      analyseBench(withSlips[next % withSlips.length]!);
      next += 1;
    },
    options,
  );
});

describe('calibration alone', () => {
  bench('a typical record', () => void calibrate(typical), options);
  bench('a record with faulty known lines', () => void calibrate(faulty), options);
  bench('the largest lamp, no wavelength stated', () => void calibrate(largestLamp), {
    ...options,
    iterations: 1,
  });
});

describe('identification alone', () => {
  const ready = (of: Bench) => ({ of, ...calibrate(of) });
  for (const [name, { of, calibration, state }] of [
    ['a typical record', ready(typical)],
    ['25 readings', ready(manyReadings)],
  ] as const) {
    bench(name, () => void identifyTube(of, of.tubes[0]!, calibration, state), options);
  }
});
