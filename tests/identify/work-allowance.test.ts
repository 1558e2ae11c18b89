/** What is computed for a tube is bounded, and no bench that a person brings notices it. */
import { describe, expect, it } from 'vitest';
import { calibrate } from '../../src/calibrate/calibrate.ts';
import { allowanceOfEach, WorkAllowance } from '../../src/identify/evidence/work-allowance.ts';
import { identifyTube } from '../../src/identify/identify.ts';
import type { Bench } from '../../src/record/bench.ts';
import { hopeless, manyReadings, typical, withSlips } from '../bench/records.ts';

class Counted extends WorkAllowance {
  spent = 0;

  override spend(units: number): void {
    super.spend(units);
    this.spent += units;
  }
}

function identified(bench: Bench, units: number) {
  const { calibration, state } = calibrate(bench);
  const allowance = new Counted(units);
  return { found: identifyTube(bench, bench.tubes[0]!, calibration, state, 'same', allowance), allowance };
}

describe('what is computed for one tube', () => {
  const benches: readonly (readonly [string, Bench])[] = [
    ['ten lines', typical],
    ['25 lines', manyReadings],
  ];
  it.each(benches)('is all that can be said of %s, even in a record of twenty tubes', (_, bench) => {
    const { allowance } = identified(bench, allowanceOfEach(20));
    expect(allowance.spent).toBeLessThan(allowanceOfEach(20));
  });

  it('is all that can be said of nearly every simulated bench with slips, too', () => {
    const units = allowanceOfEach(20);
    const noticed = withSlips.filter((bench) => identified(bench, units).allowance.spent >= units);
    expect(noticed.length).toBeLessThanOrEqual(1);
  });

  it('ends soon after the allowance of a hopeless tube is spent', () => {
    const without = identified(hopeless, Number.POSITIVE_INFINITY).allowance.spent;
    for (const units of [1e5, 1e6, allowanceOfEach(20)]) {
      const { spent } = identified(hopeless, units).allowance;
      // The quick look at all tubes, the closer look at the leading one and what was begun are not cut short.
      expect(spent).toBeLessThan(units + without / 4);
    }
    expect(without).toBeGreaterThan(2 * allowanceOfEach(20));
  });

  it('still ranks every tube when nothing is left of it', () => {
    const { found } = identified(typical, 1);
    const all = found.candidates.reduce((sum, { probability }) => sum + probability, 0);
    expect(all).toBeCloseTo(1, 9);
    expect(found.candidates[0]!.substance).toBe('neon');
    expect(found.candidates.length).toBe(identified(typical, 1e9).found.candidates.length);
  });

  it('is less for each of many tubes, and never more than a single one gets', () => {
    expect(allowanceOfEach(1)).toBe(allowanceOfEach(2));
    expect(allowanceOfEach(20)).toBeCloseTo(allowanceOfEach(10) / 2);
  });

  it('is less for a tube of more readings than anyone takes', () => {
    expect(allowanceOfEach(20, 120)).toBe(allowanceOfEach(20));
    expect(allowanceOfEach(20, 121)).toBeLessThan(allowanceOfEach(20, 120) / 2);
  });
});
