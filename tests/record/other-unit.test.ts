import { expect, test } from 'vitest';
import { otherUnitMeant } from '../../src/record/other-unit.ts';

test.each([
  [5460.7, ': in ångström? In nanometres that is 546.07'],
  [3799.9, ''],
  [3800, ': in ångström? In nanometres that is 380'],
  [8000, ': in ångström? In nanometres that is 800'],
  [8000.1, ''],
  [0.546074, ': in µm? In nanometres that is 546.074'],
  [0.3799, ''],
  [Number.NaN, ''],
])('%s, given for nanometres', (value, meant) => {
  expect(otherUnitMeant(value)).toBe(meant);
});
