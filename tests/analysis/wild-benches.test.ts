/** Readings that mean nothing at all: an analysis comes out, and every number in it is one. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { benchOf, type PlainRecord } from '../calibrate/glass-bench.ts';
import { unsoundNumbers } from './walk.ts';

const angle = fc.oneof(
  fc.integer({ min: 0, max: 21599 }).map((minutes) => minutes / 60),
  fc.constantFrom(0, 90, 180, 270, 359.9),
);
const place = fc.oneof(
  fc.integer({ min: -2000, max: 2000 }),
  fc.double({ min: -1e6, max: 1e6, noNaN: true }),
);
const listOf = <T>(one: fc.Arbitrary<T>, max: number) => fc.array(one, { maxLength: max });
const repeatsOf = <T>(reading: fc.Arbitrary<T>) => fc.array(reading, { minLength: 1, maxLength: 3 });

const lines = <T>(reading: fc.Arbitrary<T>, known: boolean) =>
  listOf(
    fc.record(
      {
        readings: repeatsOf(reading),
        color: fc.constantFrom('red', 'green', 'violet'),
        brightness: fc.constantFrom('strong', 'weak'),
        use: fc.boolean(),
        ...(known
          ? {
              wavelengthNm: fc.oneof(
                fc.constantFrom(587.56, 546.07, 404.66),
                fc.double({ min: 200, max: 1200, noNaN: true }),
              ),
              confirmed: fc.boolean(),
            }
          : {}),
      },
      { requiredKeys: ['readings'] },
    ),
    8,
  );

const recordWith = <T>(
  instrument: PlainRecord,
  reading: fc.Arbitrary<T>,
  central: boolean,
): fc.Arbitrary<PlainRecord> =>
  fc.record(
    {
      instrument: fc.constant(instrument),
      ...(central ? { central: listOf(angle, 3) } : {}),
      known: listOf(
        fc.record({
          lamp: fc.constantFrom('helium', 'mercury', 'mercury-cadmium', ''),
          lines: lines(reading, true),
        }),
        2,
      ),
      unknown: fc.record(
        {
          lines: lines(reading, false),
          notSeen: listOf(
            fc.double({ min: 200, max: 1200, noNaN: true }).map((wavelengthNm) => ({ wavelengthNm })),
            3,
          ),
          complete: fc.boolean(),
          shelf: listOf(fc.constantFrom('neon', 'argon', 'sodium'), 3),
          ...(central ? { central: listOf(angle, 2) } : {}),
        },
        { requiredKeys: ['lines'] },
      ),
    },
    { requiredKeys: ['instrument', 'known', 'unknown'] },
  );

const records = fc.oneof(
  recordWith({ method: 'central', leastCount: "1'" }, angle, true),
  recordWith({ method: 'central', leastCount: "5'", prism: 'fixed' }, angle, true),
  recordWith({ method: 'both-sides', leastCount: '30"' }, fc.record({ left: angle, right: angle }), false),
  recordWith({ method: 'scale', leastCount: 0.1 }, place, false),
);

test('any readings whatever make an analysis of sound numbers whose probabilities sum to 1', () => {
  let ranked = 0;
  fc.assert(
    fc.property(records, (record) => {
      const analysis = analyseBench(benchOf(record));
      expect(unsoundNumbers(analysis)).toEqual([]);
      for (const { candidates } of analysis.tubes) {
        if (candidates.length === 0) continue;
        ranked += 1;
        expect(candidates.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
      }
    }),
    { numRuns: 30, seed: 11 },
  );
  // Most wild benches have no curve; some must have one, or nothing was tried.
  expect(ranked).toBeGreaterThan(0);
});
