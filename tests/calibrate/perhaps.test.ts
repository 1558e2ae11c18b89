/** A fault that is possible and not likely is mentioned at its line, and is no doubt. */
import { describe, expect, test } from 'vitest';
import { calibrateAndTell as calibrate } from '../calibrate-and-tell.ts';
import { Random } from '../score/random.ts';
import { simulateBench } from '../score/simulate-bench.ts';

/** Simulated benches on which one line has its neighbour's name. */
const benches = Array.from({ length: 120 }, (_, seed) =>
  simulateBench(new Random(seed), {
    family: 'flint',
    leastCountArcmin: 5,
    lamp: 'helium',
    fault: { naming: 'neighbour' },
  }),
).filter(({ truth }) => truth.fault !== null);

const mentioned = benches.flatMap((simulated) => {
  const { lines, doubts } = calibrate(simulated.bench).calibration;
  return lines.flatMap((line, i) =>
    line.status === 'used' && line.message !== null
      ? [{ line, message: line.message, doubts, truth: simulated.truth.known[i]! }]
      : [],
  );
});

describe('a line that is perhaps misnamed', () => {
  test('is used as it stands, with a sentence that gives the chance', () => {
    expect(mentioned.length).toBeGreaterThan(5);
    for (const { line, message, doubts } of mentioned) {
      const chance = Number(/ with a chance of (\d+) %: /.exec(message)?.[1]);
      expect(message).toMatch(/ may (be|not have been) /);
      expect(message).not.toMatch(/set aside|off the curve/);
      expect(chance).toBeGreaterThanOrEqual(25);
      expect(chance).toBeLessThan(75);
      expect(line.wavelengthNm).toBe(line.statedWavelengthNm);
      expect(doubts.some(({ index }) => index === line.index)).toBe(false);
    }
  });

  test('is mostly the one that is, and mostly with its right name', () => {
    const right = mentioned.filter(({ truth }) => truth.statedNm !== truth.wavelengthNm);
    expect(right.length / mentioned.length).toBeGreaterThan(0.5);
    const named = right.filter(({ message, truth }) => message.includes(String(truth.wavelengthNm)));
    expect(named.length / right.length).toBeGreaterThan(0.5);
  });
});
