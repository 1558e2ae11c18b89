import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circleOf } from '../../src/angle/circle.ts';
import { formatAngle, formatCount, formatDeviation } from '../../src/angle/format-angle.ts';
import { parseAngle } from '../../src/angle/parse-angle.ts';
import { wrapDegrees } from '../../src/angle/wrap.ts';

const circles = [1, 5, 2, 10, 0.5, 1 / 3, 0.25, 1 / 6, 60, 0.1, 0.6, 1.2].map((leastCount) =>
  circleOf(leastCount),
);
const circle = fc.constantFrom(...circles, circleOf(6, { decimal: true }), circleOf(3, { decimal: true }));

describe('formatAngle', () => {
  it.each([
    [231.4333333, 1, "231°26'"],
    [231.4416667, 0.5, '231°26\'30"'],
    [231.05, 5, "231°03'"],
    [231.43, 0.6, '231.43°'],
    [231.9999, 1, "232°00'"],
    [359.9999, 1, "0°00'"],
    [359.99999, 0.5, '0°00\'00"'],
    [359.999, 0.6, '0.00°'],
    [-0.5, 1, "359°30'"],
    [-1e-12, 1, "0°00'"],
    [720, 1, "0°00'"],
    [12 + 34.1 / 60, 0.1, '12°34\'06"'],
  ])('%f with a least count of %f arc-minutes is %s', (degrees, leastCount, text) => {
    expect(formatAngle(degrees, leastCount)).toBe(text);
  });

  it('is undone by parseAngle on every step of every circle, and nothing is odd then', () => {
    fc.assert(
      fc.property(circle, fc.nat(1e6), (onCircle, count) => {
        const degrees = ((count * onCircle.leastCountArcmin) / 60) % 360;
        const angle = parseAngle(formatAngle(degrees, onCircle), onCircle);
        if (!angle.ok) throw new Error(angle.problem);
        expect(Math.abs(wrapDegrees(angle.degrees - degrees))).toBeLessThan(1e-9);
        expect(angle.odd).toEqual([]);
      }),
      { numRuns: 2000 },
    );
  });

  it('is undone by parseAngle to half a least count anywhere', () => {
    fc.assert(
      fc.property(circle, fc.double({ min: -720, max: 720, noNaN: true }), (onCircle, degrees) => {
        const angle = parseAngle(formatAngle(degrees, onCircle), onCircle);
        if (!angle.ok) throw new Error(angle.problem);
        const offArcmin = Math.abs(wrapDegrees(angle.degrees - degrees)) * 60;
        expect(offArcmin).toBeLessThanOrEqual(onCircle.leastCountArcmin / 2 + 1e-9);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('formatDeviation and formatCount', () => {
  it('keeps the sign and does not wrap', () => {
    expect(formatDeviation(-48.5, 1)).toBe("-48°30'");
    expect(formatDeviation(-0.001, 1)).toBe("0°00'");
    expect(formatDeviation(360.5, 1)).toBe("360°30'");
  });

  it.each([
    [1, "1'"],
    [0.5, '30"'],
    [60, '1°'],
    [0.6, '0.01°'],
    [5, "5'"],
  ])('%f arc-minutes is %s', (leastCount, text) => {
    expect(formatCount(leastCount)).toBe(text);
  });
});
