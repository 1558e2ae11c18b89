/** u of the apex angle: as stated, or from two reflected images (JCGM 100:2008, 5.1.2). */
import { expect, test } from 'vitest';
import { apexUncertaintyDeg } from '../../src/observe/apex-angle.ts';
import { asWritten } from '../../src/observe/reading-step.ts';
import { benchOf } from '../calibrate/glass-bench.ts';
import { resolution } from './by-hand.ts';

const bench = (apexAngle: unknown, more: object = {}) =>
  benchOf({
    instrument: {
      method: 'central',
      leastCount: "1'",
      ...(apexAngle === undefined ? {} : { apexAngle }),
      ...more,
    },
    known: [],
    unknown: [],
  });
const images = { readings: { left: "120°00'", right: "0°00'" } };

test.each([
  ['none', undefined],
  ['exact', '60°'],
])('%s: nothing is uncertain', (_, apexAngle) =>
  expect(apexUncertaintyDeg(bench(apexAngle), 0.5)).toBeNull(),
);

test('stated: as stated, whatever the scatter', () =>
  expect(apexUncertaintyDeg(bench({ value: '60°', u: "3'" }), 99)).toBeCloseTo(3 / 60, 9));

test.each([
  [1, "1'", 1],
  [2, "1'", 1],
  [1, "2'", 2],
] as const)('from images with %d window(s) and a least count of %s', (windows, leastCount, count) => {
  const sides =
    windows === 2 ? { left: ["120°00'", "300°00'"], right: ["0°00'", "180°00'"] } : images.readings;
  const read = bench({ readings: sides }, { leastCount, ...(windows === 2 ? { windows } : {}) });
  // A is half the difference of two readings: u(A)² = 2·u²/4.
  const single = resolution(count) / windows + 0.5;
  expect(apexUncertaintyDeg(read, 0.5)).toBeCloseTo(Math.sqrt((2 * single) / 4) / 60, 12);
});

test.each([
  ['the lines are rounded, and so are the images', 10, "120°00'", 10],
  ['an image shows that it was read finer', 10, "120°02'", 1],
  ['the lines are read finely', 1, "120°00'", 1],
] as const)('from images with the step to which both were written: %s', (_, step, left, own) => {
  const lines = Array.from({ length: 8 }, (_, i) => {
    const arcmin = 2400 + 7 * step * i + (step === 1 ? 1 : 0);
    return { readings: [`${Math.floor(arcmin / 60)}°${String(arcmin % 60).padStart(2, '0')}'`] };
  });
  const read = asWritten(
    benchOf({
      instrument: {
        method: 'central',
        leastCount: "1'",
        apexAngle: { readings: { left, right: "0°00'" } },
      },
      central: ["30°00'"],
      known: { lamp: 'mercury', lines },
    }),
  );
  expect(apexUncertaintyDeg(read, 0.5)).toBeCloseTo(Math.sqrt((resolution(own) + 0.5) / 2) / 60, 12);
});
