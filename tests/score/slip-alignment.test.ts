import { describe, expect, test } from 'vitest';
import { tubes } from '../../src/lines/table.ts';
import { type AlignmentModel, alignmentEvidence } from './alignment.ts';
import { Random } from './random.ts';
import { pairedEvidence, slipAlignmentEvidence } from './slip-alignment.ts';
import { beforeSlip, misreadSomehow } from './slips.ts';

/** A flint prism, nearly: arc-minutes against nanometres. */
const model: AlignmentModel = {
  deviationAt: (nm) => 2700 + 6e7 / nm ** 2,
  errorDensity: (error) => Math.exp(-0.5 * error * error) / Math.sqrt(2 * Math.PI),
  prominenceScatter: 0.7,
  strayRate: 0.1,
};

describe('readings that may be slips', () => {
  test('pairings are summed as by counting every one of them', () => {
    const seen = [0.9, 0.3, 0.6];
    const ratios = [
      [2, 0.5, 0],
      [0, 4, 1.5],
    ];
    // Every reading to a line of its own or to none.
    let expected = 0;
    for (const first of [null, 0, 1, 2])
      for (const second of [null, 0, 1, 2]) {
        if (first !== null && first === second) continue;
        let weight = 1;
        for (const [i, line] of [first, second].entries()) if (line !== null) weight *= ratios[i]![line]!;
        for (const [line, chance] of seen.entries())
          weight *= line === first || line === second ? chance : 1 - chance;
        expected += weight;
      }
    const pairs = seen.map((_, line) =>
      ratios.flatMap((own, i) => (own[line]! > 0 ? [{ bit: 2 ** i, ratio: own[line]! }] : [])),
    );
    expect(pairedEvidence(pairs, seen, new Float64Array(4))).toBeCloseTo(expected, 12);
  });

  test('of which none is a slip rank the tubes as the plain alignment does', () => {
    const readings = [667.82, 587.56, 501.57, 447.15].map((nm) => model.deviationAt(nm) + 0.3);
    const sure = readings.map((deviationArcmin) => ({
      places: [{ deviationArcmin, chance: 1 }],
      anywhere: 0,
    }));
    for (const substance of ['helium', 'mercury', 'neon']) {
      const tube = tubes.find((one) => one.substance === substance)!;
      const plain = alignmentEvidence(tube, readings, model);
      expect(Math.abs(slipAlignmentEvidence(tube, sure, model) - plain)).toBeLessThan(0.15);
    }
  });

  test('lead back to the reading before the slip', () => {
    const random = new Random(6);
    let found = 0;
    const benches = 2000;
    for (let k = 0; k < benches; k++) {
      const shownDeg = random.whole(230 * 60, 240 * 60) / 60;
      const at = { leastCountArcmin: 1, divisionArcmin: 30, otherSideDeg: 2 * 190 - shownDeg };
      const { shownDeg: written, kind } = misreadSomehow(random, { shownDeg, ...at });
      const back = beforeSlip({ shownDeg: written, ...at, otherSideDeg: 2 * 190 - written });
      if (back.readings.some(({ readingDeg }) => Math.abs(readingDeg - shownDeg) < 1e-6)) found += 1;
      else expect(kind).toBe('other-minutes');
    }
    expect(found / benches).toBeGreaterThan(0.93);
  });
});
