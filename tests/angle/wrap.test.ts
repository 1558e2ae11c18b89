import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wrapDegrees, wrapDirection } from '../../src/angle/wrap.ts';

describe('differences on the circle', () => {
  it.each([
    [0, 0],
    [180, 180],
    [-180, 180],
    [181, -179],
    [359, -1],
    [-359, 1],
    [540, 180],
  ])('%f is %f', (difference, expected) => {
    expect(wrapDegrees(difference)).toBe(expected);
  });

  it('never leaves (-180, 180], and full turns change nothing', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -3600, max: 3600 }),
        fc.integer({ min: -5, max: 5 }),
        (degrees, turns) => {
          const wrapped = wrapDegrees(degrees);
          expect(wrapped).toBeGreaterThan(-180);
          expect(wrapped).toBeLessThanOrEqual(180);
          expect(wrapDegrees(degrees + 360 * turns)).toBe(wrapped);
          expect(wrapDirection(degrees + 360 * turns)).toBe(wrapDirection(degrees));
        },
      ),
    );
  });
});
