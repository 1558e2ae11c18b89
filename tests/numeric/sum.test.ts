import { expect, test } from 'vitest';
import { sum, sumOf } from '../../src/numeric/sum.ts';

test('a sum begins at 0', () => {
  expect(sum([])).toBe(0);
  expect(sum([4])).toBe(4);
  expect(sum([4, -1, 0.5])).toBe(3.5);
});

test('a sum of what is made of each item and its place', () => {
  expect(sumOf([], () => 9)).toBe(0);
  expect(sumOf(['a', 'bcd'], ({ length }, at) => 10 * length + at)).toBe(41);
});
