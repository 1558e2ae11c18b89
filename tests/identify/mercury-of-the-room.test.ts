/** Mercury of the room, or of a neighbour's lamp, read among the lines of a tube. Lines: NIST SRD 108. */
import { describe, expect, test } from 'vitest';
import { tubeWith } from './tube-bench.ts';

const mercuryNm = [579.07, 546.07, 435.83, 404.66];
const tube = (...nm: number[]) => tubeWith(nm.sort((a, b) => b - a));

describe('mercury of the room', () => {
  test.each([
    ['sodium', [589.3, 568.5]],
    ['lithium', [670.78, 610.36]],
    ['helium', [667.82, 587.56, 501.57, 447.15]],
  ])('does not hide %s', (substance, nm) => {
    const { candidates, verdict } = tube(...nm, ...mercuryNm);
    expect(verdict).not.toMatchObject({ kind: 'identified', substance: 'mercury' });
    const [own, ...others] = candidates.filter((row) => row.substance === substance);
    expect(own?.with).toEqual(['mercury']);
    expect(own?.probability).toBeGreaterThan(0.2);
    // Light of the room is nothing of the tube, which has one row.
    expect(others.filter((row) => row.with.length === 0)).toEqual([]);
  });

  test('does not keep a tube from being identified beside itself', () => {
    expect(tube(667.82, 587.56, 501.57, 447.15, 546.07, 435.83).verdict).toMatchObject({
      kind: 'identified',
      substance: 'helium',
    });
  });

  test('adds no tube to plain mercury', () => {
    expect(tube(623.44, 407.78, ...mercuryNm).verdict).toMatchObject({
      kind: 'identified',
      substance: 'mercury',
    });
  });

  test('is what a row that needs it is told to need', () => {
    const { candidates } = tube(589.3, 568.5, 491.61, 496.03, 407.78, ...mercuryNm);
    expect(candidates[0]!.substance).toBe('mercury');
    const needing = candidates.find(
      ({ substance, with: others }) => substance === 'sodium' && others.length > 0,
    );
    expect(needing?.reasonAgainst).toMatch(/mercury of the room or of a lamp near by is rare among readings/);
  });
});
