import { describe, expect, it } from 'vitest';
import { deviationText } from '../../src/present/quantity-text.ts';

const toMinutes = { leastCount: 1 };

describe('a deviation in text', () => {
  it('has a tenth of a minute only where a mean falls between the minutes', () => {
    expect(deviationText(53 + 39.5 / 60, toMinutes)).toBe("53°39.5'");
    expect(deviationText(53 + 40.5 / 60, toMinutes)).toBe("53°40.5'");
    expect(deviationText(53 + 4 / 60, toMinutes)).toBe("53°04'");
    expect(deviationText(53 + 4.33 / 60, toMinutes)).toBe("53°04.3'");
    expect(deviationText(53 + 59.97 / 60, toMinutes)).toBe("54°00'");
    expect(deviationText(-0.5 / 60, toMinutes)).toBe("-0°00.5'");
  });

  it('keeps to seconds and to decimals where the circle has them', () => {
    expect(deviationText(53 + 39.5 / 60, { leastCount: 0.5 })).toBe('53°39\'30"');
    expect(deviationText(53.125, { leastCount: 0.6, decimalCircle: true })).toBe('53.13°');
  });

  it('is a dash where there is none', () => {
    expect(deviationText(null, toMinutes)).toBe('-');
  });
});
