/** The lines of a curve are counted alike wherever they are told. */
import { expect, it } from 'vitest';
import { isUsedAsRead, linesInCurve } from '../../src/words/lines-in-curve.ts';

const lines = (...statuses: ('used' | 'slip' | 'reassigned' | 'set-aside')[]) =>
  statuses.map((status) => ({ status }));

it.each([
  [lines('used', 'used', 'reassigned'), '3 of 3 lines'],
  [lines('used', 'used', 'set-aside'), '2 of 3 lines'],
  [lines('used', 'reassigned', 'slip'), '2 of 3 lines as read, 1 with its slip undone'],
  [lines('used', 'slip', 'slip', 'set-aside'), '1 of 4 lines as read, 2 with their slips undone'],
])('%j', (of, told) => {
  expect(linesInCurve(of)).toBe(told);
  expect(Number.parseInt(told, 10)).toBe(of.filter(isUsedAsRead).length);
});
