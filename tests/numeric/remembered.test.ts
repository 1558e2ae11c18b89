/** What is worked out once and kept; and small texts of numbers. */
import { describe, expect, test } from 'vitest';
import { percentText } from '../../src/numeric/percent-text.ts';
import { once, remembered } from '../../src/numeric/remembered.ts';
import { signedText } from '../../src/numeric/signed-text.ts';
import { mean } from '../../src/numeric/sum.ts';

describe('a value kept under a key', () => {
  test('is made once, whatever it is', () => {
    for (const value of [7, 0, null, '']) {
      const store = new Map<string, unknown>();
      let made = 0;
      const ask = () =>
        remembered(store, 'a', () => {
          made += 1;
          return value;
        });
      expect([ask(), ask(), made]).toEqual([value, value, 1]);
      expect(remembered(store, 'b', () => 9)).toBe(9);
    }
  });

  test('without a key is made when it is first asked for', () => {
    let made = 0;
    const ask = once(() => {
      made += 1;
      return null;
    });
    expect(made).toBe(0);
    expect([ask(), ask(), made]).toEqual([null, null, 1]);
  });
});

test.each([
  [0.5, '50.0 %'],
  [0.9995, '100.0 %'],
  [0.99951, '>99.9 %'],
  [0.0005, '0.1 %'],
  [0.00049, '<0.1 %'],
  [0.1234, '12.3 %'],
])('the probability %d is written %s', (probability, text) =>
  expect(percentText(probability, '>', '<')).toBe(text),
);

test.each([
  [1.25, 1, '+1.3'],
  [-1.26, 1, '-1.3'],
  [0, 1, '+0.0'],
  [-0.04, 1, '+0.0'],
  [-0.06, 1, '-0.1'],
  [-3, 0, '-3'],
])('%d with %i decimals and its sign is %s', (value, decimals, text) =>
  expect(signedText(value, decimals)).toBe(text),
);

test('the mean of nothing is no number', () => {
  expect(mean([1, 2, 6])).toBe(3);
  expect(mean([])).toBeNaN();
});
