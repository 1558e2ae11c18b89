/** A record in degrees.minutes, opened by the bench screen: what it means does not hang on which readings are left. */
import { expect, it } from 'vitest';
import type { BenchForm } from '../../src/tui/form.ts';
import { withSignedMinutes } from '../../src/tui/signed-minutes.ts';
import { START_PLACE } from '../../src/tui/state.ts';
import { historyUndone, startHistory } from '../../src/tui/trail.ts';

const dotted: BenchForm = {
  whichgas: 1,
  instrument: { method: 'central', leastCount: "1'" },
  central: ['181.04'],
  known: [{ lamp: 'mercury', lines: [{ wavelengthNm: 546.07, readings: ['229.40', '229.3'] }] }],
  unknown: [{ lines: [{ readings: ['228.50'] }, { readings: ["229°03'"] }, { readings: [229.17] }] }],
};

it('is written with signs as one step that can be undone, and it is said', () => {
  const before = startHistory(dotted, START_PLACE);
  const settled = withSignedMinutes(before)!;
  expect(settled.history.record).toEqual({
    ...dotted,
    central: ["181°04'"],
    known: [{ lamp: 'mercury', lines: [{ wavelengthNm: 546.07, readings: ["229°40'", "229°30'"] }] }],
    unknown: [{ lines: [{ readings: ["228°50'"] }, { readings: ["229°03'"] }, { readings: [229.17] }] }],
  });
  expect(settled.history.decimals).toBe('minutes');
  expect(settled.remark).toMatch(/^181\.04 is no mark .* taken as degrees\.minutes; .*\.$/);
  expect(historyUndone(settled.history).record).toEqual(dotted);
  expect(withSignedMinutes(settled.history)).toBeNull();
});

it('is left alone where its readings are what they seem', () => {
  const degrees: BenchForm = { ...dotted, central: ['181.07'], known: [], unknown: [] };
  expect(withSignedMinutes(startHistory(degrees, START_PLACE))).toBeNull();
});
