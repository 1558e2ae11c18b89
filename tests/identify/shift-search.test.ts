/** Which shifts of all readings are found, and with what prior: planted on a clean bench. */
import { describe, expect, test } from 'vitest';
import { MOST_SHIFTS, SHIFT_SPREAD, SMALLEST_SHIFT } from '../../src/identify/assumptions.ts';
import { likelyShifts, type ShiftPrior } from '../../src/identify/evidence/shift-search.ts';
import { tubeNamed, tubes } from '../../src/lines/table.ts';
import {
  GlassReader,
  heliumNm,
  hydrogenNm,
  mercuryNm,
  neonNm,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';
import { evidenceOf } from './evidence-bench.ts';
import { reader } from './tube-bench.ts';

const prior: ShiftPrior = { moved: { chance: 0.01, sd: 10 }, turned: { chance: 0.002, reach: 300 } };
const evidenceAt = (nm: readonly number[], movedArcmin: number) => {
  const moved = new GlassReader({ centralDeg: 181 + (4 + movedArcmin) / 60 });
  return evidenceOf(recordOf(reader, { unknown: unknownTube(moved, nm) })).evidence;
};
/** Standard uncertainty of the best reading. */
const uOf = ({ readings }: ReturnType<typeof evidenceAt>): number =>
  Math.sqrt(Math.min(...readings.map(({ totalVariance }) => totalVariance)));

describe('the shifts that are likely', () => {
  test.each([
    ['neon', 7, neonNm],
    ['neon', -23, neonNm],
    ['mercury', 141, mercuryNm],
    ['mercury', -288, mercuryNm],
    ['helium', 55, heliumNm],
    ['hydrogen', -17, hydrogenNm],
  ] as const)('%s by %d arc-minutes: the planted one comes first', (substance, by, nm) => {
    const evidence = evidenceAt(nm, by);
    const [first] = likelyShifts([tubeNamed(substance)!], evidence, prior);
    // Half a step of the search, and the readings' own mean.
    expect(Math.abs(first!.shift - by)).toBeLessThan(0.8 * uOf(evidence));
  });

  test('each stands for all shifts about it, knocked or turned; no two for the same, and few in all', () => {
    const evidence = evidenceAt(hydrogenNm, 10);
    const found = likelyShifts(tubes, evidence, prior);
    expect(found).toHaveLength(MOST_SHIFTS);
    const sd = SHIFT_SPREAD * uOf(evidence);
    found.forEach((each, i) => {
      const knocked = (0.01 * Math.exp(-0.5 * (each.shift / 10) ** 2)) / (10 * Math.sqrt(2 * Math.PI));
      const turned = 0.002 / 600;
      expect(each.sd).toBeCloseTo(sd, 12);
      expect(each.logPrior).toBeCloseTo(Math.log((knocked + turned) * sd * Math.sqrt(2 * Math.PI)), 9);
      for (const other of found.slice(0, i))
        expect(Math.abs(other.shift - each.shift)).toBeGreaterThanOrEqual(sd);
    });
  });

  test('none where the readings are understood as they stand, nor so small a one, nor of three readings', () => {
    expect(likelyShifts(tubes, evidenceAt(hydrogenNm, 0), prior)).toEqual([]);
    const evidence = evidenceAt(hydrogenNm, 2);
    const found = likelyShifts(tubes, evidence, prior);
    expect(found.length).toBeGreaterThan(0);
    for (const { shift } of found) expect(Math.abs(shift)).toBeGreaterThan(SMALLEST_SHIFT * uOf(evidence));
    expect(likelyShifts([tubeNamed('hydrogen')!], evidenceAt(hydrogenNm, 1), prior)).toEqual([]);
    expect(likelyShifts(tubes, evidenceAt(hydrogenNm.slice(0, 3), 30), prior)).toEqual([]);
  });
});
