/** What the line before says of the next one: the order of lines, pairs read as one, names wrong in a row. */
import { describe, expect, test } from 'vitest';
import type { ChoiceKind, LineChoice } from '../../src/calibrate/assign/line-hypotheses.ts';
import {
  addedPrior,
  type KnownItem,
  misnamedBy,
  type Understood,
} from '../../src/calibrate/assign/transition-prior.ts';
import { AFTER_MORE, AFTER_ONE, FAULT_CHANCE, PAIR_APART_NM } from '../../src/calibrate/assumptions.ts';

const choice = (kind: ChoiceKind, wavelengthNm: number | null, wavelengthVariance = 0): LineChoice => ({
  kind,
  wavelengthNm,
  wavelengthVariance,
  slip: null,
  logPrior: -1,
});
/** A line that the record states so, read at 3000' ; what is passed over costs a tenth for each nm. */
const item = (statedNm: number | null): KnownItem =>
  ({
    observation: { ordinate: 3000 },
    choices: statedNm === null ? [] : [choice('as-stated', statedNm)],
    passedOver: (from: number, to: number) => -0.1 * Math.abs(to - from),
  }) as unknown as KnownItem;
const behind = (nm: number, more: Partial<Understood> = {}, variance = 0, ordinate = 2900): Understood => ({
  pick: null,
  misnamed: null,
  slips: 0,
  last: { nm, variance, ordinate },
  ...more,
});
const start: Understood = { pick: null, misnamed: null, slips: 0, last: null };
const NEVER = Number.NEGATIVE_INFINITY;

describe('a line that the record does not name', () => {
  const added = (which: LineChoice, before: Understood, falls = true) =>
    addedPrior(before, item(null), which, falls);

  test('costs what is passed over on the way to it, the first one nothing', () => {
    expect(added(choice('assigned', 546), start)).toBe(-1);
    expect(added(choice('assigned', 546), behind(577))).toBeCloseTo(-1 - 3.1, 12);
  });

  test('stands on the far side of the one before, whichever way readings go', () => {
    expect(added(choice('assigned', 578), behind(577))).toBe(NEVER);
    expect(added(choice('assigned', 578), behind(577), false)).toBeCloseTo(-1.1, 12);
    expect(added(choice('assigned', 576), behind(577), false)).toBe(NEVER);
  });

  test('may be the line before only where it was read at the same place', () => {
    expect(added(choice('assigned', 577), behind(577, {}, 0, 3000))).toBe(-1);
    expect(added(choice('assigned', 577), behind(577, {}, 0, 3001))).toBe(NEVER);
    expect(added(choice('assigned', 570), behind(577, {}, 0, 3001))).toBeCloseTo(-1.7, 12);
  });

  test('is not so near a pair read as one, whichever of the two is the pair', () => {
    const near = 577 - PAIR_APART_NM + 0.01;
    const far = 577 - PAIR_APART_NM - 0.01;
    expect(added(choice('assigned', near), behind(577))).toBeGreaterThan(NEVER);
    expect(added(choice('assigned', near, 0.11), behind(577))).toBe(NEVER);
    expect(added(choice('assigned', near), behind(577, {}, 0.11))).toBe(NEVER);
    expect(added(choice('assigned', near, 0.1), behind(577, {}, 0.1))).toBeGreaterThan(NEVER);
    expect(added(choice('assigned', far, 0.11), behind(577, {}, 0.11))).toBeGreaterThan(NEVER);
    // One that was named so is taken at its word.
    expect(addedPrior(behind(577), item(590), choice('neighbour', near, 0.11), true)).toBeGreaterThan(NEVER);
  });

  test('set aside, or misread, it keeps no order', () => {
    expect(added(choice('set-aside', null), behind(577))).toBe(-1);
    expect(added({ ...choice('assigned', 578), slip: {} as never }, behind(577))).toBeGreaterThan(NEVER);
  });
});

describe('a wrong name', () => {
  const wrong = (
    statedNm: number | null,
    rightNm: number | null,
    before = start,
    kind: ChoiceKind = 'neighbour',
  ) => misnamedBy(before, choice(kind, rightNm), item(statedNm));
  const misnamed = (inARow: number) => ({ misnamed: { statedNm: 579, rightNm: 577, inARow } });

  test('is one of a line that is another than the one stated', () => {
    expect(wrong(579, 577)).toEqual({ statedNm: 579, rightNm: 577, inARow: 1 });
    expect(wrong(579, 577, start, 'as-stated')).toBeNull();
    expect(wrong(null, 577)).toBeNull();
    expect(wrong(579, null)).toBeNull();
  });

  test('goes on in a row as long as it is towards the same side', () => {
    expect(wrong(546, 492, behind(577, misnamed(2)))!.inARow).toBe(3);
    expect(wrong(492, 546, behind(577, misnamed(2)))!.inARow).toBe(1);
    const towardsRed = { misnamed: { statedNm: 577, rightNm: 579, inARow: 1 } };
    expect(wrong(492, 546, behind(579, towardsRed))!.inARow).toBe(2);
    expect(wrong(546, 492, behind(579, towardsRed))!.inARow).toBe(1);
  });

  test('once is followed by the same, or all is well again; twice it is hardly found soon', () => {
    const gain = (inARow: number, kind: ChoiceKind, statedNm: number, nm: number) =>
      addedPrior(behind(577, misnamed(inARow)), item(statedNm), choice(kind, nm), true) - -1;
    const oneSide = Math.log(FAULT_CHANCE.neighbour / 2);
    for (const [inARow, then] of [
      [1, AFTER_ONE],
      [2, AFTER_MORE],
      [5, AFTER_MORE],
    ] as const) {
      expect(gain(inARow, 'as-stated', 546, 546)).toBeCloseTo(Math.log(then.inStep), 12);
      expect(gain(inARow, 'neighbour', 546, 492)).toBeCloseTo(Math.log(then.again) - oneSide, 12);
    }
    // Another way, and no exchange: nothing is gained by it.
    expect(gain(1, 'neighbour', 492, 546)).toBe(0);
    expect(addedPrior(behind(577), item(546), choice('neighbour', 492), true)).toBe(-1);
  });
});
