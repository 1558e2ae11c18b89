/** Records to time: typical ones, and the largest that a person brings. */
import { tubes } from '../../src/lines/table.ts';
import type { Bench } from '../../src/record/bench.ts';
import { benchOf, GlassReader, heliumNm, neonNm, recordOf, unknownTube } from '../calibrate/glass-bench.ts';
import { Random } from '../score/random.ts';
import { simulateBench } from '../score/simulate-bench.ts';

const reader = new GlassReader();

/** Eight known lines, ten lines of neon. */
export const typical: Bench = benchOf(recordOf(reader, { unknown: unknownTube(reader, neonNm) }));

/** As a pair of students brings it: scatter, and a slip in every thirtieth reading. */
export const withSlips: readonly Bench[] = Array.from({ length: 20 }, (_, seed) => {
  const random = new Random(100 + seed);
  const tube = random.pick(tubes);
  return simulateBench(random, {
    family: 'mixed',
    leastCountArcmin: 1,
    lamp: 'helium',
    slipChance: 0.03,
    tube,
  }).bench;
});

/** All that is wrong with known lines at once: two swapped, one slip. */
export const faulty: Bench = benchOf(
  recordOf(reader, {
    known: {
      lamp: 'helium',
      lines: heliumNm.map((nm) => ({
        wavelengthNm: nm === 492.19 ? 471.31 : nm === 471.31 ? 492.19 : nm,
        readings: [reader.line(nm, nm === 667.82 ? 30 : 0)],
      })),
    },
    unknown: unknownTube(reader, neonNm),
  }),
);

/** Twenty-five readings of neon. */
const manyNm = tubes
  .find(({ substance }) => substance === 'neon')!
  .lines.filter(
    ({ wavelengthNm, prominence }) => prominence > -3.3 && wavelengthNm > 400 && wavelengthNm < 705,
  )
  .sort((a, b) => b.prominence - a.prominence)
  .slice(0, 25)
  .map(({ wavelengthNm }) => wavelengthNm)
  .sort((a, b) => b - a);
export const manyReadings: Bench = benchOf(recordOf(reader, { unknown: unknownTube(reader, manyNm) }));

/** The largest known lamp that a record takes, without one wavelength: any line may be any of neon's, or a slip. */
export const largestLamp: Bench = benchOf(
  recordOf(reader, {
    known: {
      lamp: 'neon',
      lines: Array.from({ length: 200 }, (_, i) => ({
        readings: [reader.line(400 + 1.6 * i, (37 * i) % 90)],
      })),
    },
  }),
);

/** Twenty tubes of noise on a scale whose known lines are noise too: nothing fits, so everything is weighed. */
export const hopeless: Bench = (() => {
  const random = new Random(1);
  const noise = (lines: number) =>
    Array.from({ length: lines }, () => ({ readings: [random.whole(0, 3000) / 10] }));
  const known = noise(8).map((line, i) => ({ wavelengthNm: heliumNm[i], ...line }));
  return benchOf({
    instrument: { method: 'scale', leastCount: 0.1 },
    known: { lamp: 'helium', lines: known },
    unknown: Array.from({ length: 20 }, () => ({ lines: noise(12) })),
  });
})();
