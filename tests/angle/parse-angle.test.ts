import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circleOf } from '../../src/angle/circle.ts';
import { parseAngle } from '../../src/angle/parse-angle.ts';

const minutes = circleOf(1);
const halfMinutes = circleOf(0.5);
const fiveMinutes = circleOf(5);
const hundredths = circleOf(0.6);

const degrees = (text: string, circle = minutes): number => {
  const angle = parseAngle(text, circle);
  if (!angle.ok) throw new Error(angle.problem);
  return angle.degrees;
};
const codes = (text: string, circle = minutes): string[] => {
  const angle = parseAngle(text, circle);
  return angle.ok ? angle.odd.map(({ code }) => code) : [`refused: ${angle.problem}`];
};

const dms = (whole: number, minute: number, second = 0) => whole + minute / 60 + second / 3600;

describe('angle texts as they are typed', () => {
  it.each([
    ["232°41'", dms(232, 41)],
    ['232 41', dms(232, 41)],
    ['232d41m', dms(232, 41)],
    ['232d 41m 30s', dms(232, 41, 30)],
    ['232 deg 41 min', dms(232, 41)],
    ['232 degrees 41 minutes 30 seconds', dms(232, 41, 30)],
    ['232:41', dms(232, 41)],
    ['232:41:30', dms(232, 41, 30)],
    ['232.683', 232.683],
    ['232,683', 232.683],
    ['232,683°', 232.683],
    ["232°41.5'", dms(232, 41.5)],
    ["232°41,5'", dms(232, 41.5)],
    ['232°41\'30"', dms(232, 41, 30)],
    ["232°41'30''", dms(232, 41, 30)],
    ['232 41 30', dms(232, 41, 30)],
    ['232°41′30″', dms(232, 41, 30)],
    ['232º41’30”', dms(232, 41, 30)],
    ['232˚41ʹ30ʺ', dms(232, 41, 30)],
    ['232°41´30´´', dms(232, 41, 30)],
    ['232°41`', dms(232, 41)],
    ['232° 41′', dms(232, 41)],
    ['２３２°４１′', dms(232, 41)],
    ['232°41', dms(232, 41)],
    ['  232   41  ', dms(232, 41)],
    ['0 0', 0],
    ['360', 360],
    ['231.5+28', dms(231, 58)],
    ["231°30' + 28'", dms(231, 58)],
    ['231 30 + 28', dms(231, 58)],
    ['231,5 + 28′', dms(231, 58)],
    ["231°20'+ 15'30\"", dms(231, 35, 30)],
    ['231 20 + 15:30', dms(231, 35, 30)],
    ['231 20 + 15 30', dms(231, 35, 30)],
    ["231°40' + 15.5'", dms(231, 55, 30)],
  ])('%s', (text, expected) => {
    expect(degrees(text)).toBeCloseTo(expected, 10);
  });

  it('reads the vernier part of a decimal circle as degrees, or as the number of the tick', () => {
    expect(degrees('231.5+0.08', hundredths)).toBeCloseTo(231.58, 10);
    expect(degrees('231.5+8', hundredths)).toBeCloseTo(231.58, 10);
    expect(degrees('231 + 4', circleOf(6, { decimal: true }))).toBeCloseTo(231.4, 10);
  });

  it('keeps the numbers as they were typed', () => {
    const angle = parseAngle("231°30' + 28'", minutes);
    expect(angle.ok && angle.parts).toMatchObject({
      mainScale: { degrees: 231, minutes: 30, seconds: null },
      vernier: { degrees: null, minutes: 28, seconds: null },
    });
  });
});

describe('odd angles are named, not corrected', () => {
  it.each([
    ["232°41'", minutes, []],
    ['232.683', minutes, []],
    ['231.5+28', minutes, []],
    ["232°41.5'", minutes, ['finer-than-least-count']],
    ["232°41.5'", halfMinutes, []],
    ['232°41\'20"', halfMinutes, ['finer-than-least-count']],
    ["232°41'", fiveMinutes, ['finer-than-least-count']],
    ["41'", minutes, ['minutes-without-degrees']],
    ['41°35"', minutes, ['seconds-for-minutes']],
    ['41°0\'35"', minutes, ['finer-than-least-count']],
    ['232.41', minutes, ['decimal-for-minutes']],
    ['232.41°', minutes, ['finer-than-least-count']],
    ['232.50', minutes, []],
    ['232.15', fiveMinutes, ['decimal-for-minutes']],
    ['232.41', hundredths, []],
    ['232.415', hundredths, ['finer-than-least-count']],
    ['231.30+28', minutes, ['decimal-for-minutes']],
    ['231 28 + 5', minutes, ['off-main-scale']],
    ['231.5+31', minutes, ['vernier-beyond-division']],
    ['231.5+30', minutes, []],
    ['231.5+28"', minutes, ['seconds-for-minutes']],
    ['231 20 + 30"', halfMinutes, []],
  ])('%s', (text, circle, expected) => {
    expect(codes(text, circle)).toEqual(expected);
  });

  it('suggests what was probably meant', () => {
    const suggestion = (text: string) => {
      const angle = parseAngle(text, minutes);
      return angle.ok ? angle.odd[0]?.suggestion : null;
    };
    expect(suggestion('41°35"')).toBe("41°35'");
    expect(suggestion('232.41')).toBe("232°41'");
    expect(suggestion('231.5+28"')).toBe("231°58'");
    expect(suggestion('231.30+28')).toBe("231°58'");
  });
});

describe('any text at all', () => {
  it('gives an angle on the circle or one sentence', () => {
    const typed = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 40 }),
      fc.stringMatching(/^[0-9 .,:+°'"′″dms-]{0,24}$/),
      fc.string({ unit: 'grapheme', maxLength: 300 }),
    );
    fc.assert(
      fc.property(
        typed,
        fc.constantFrom(null, minutes, halfMinutes, fiveMinutes, hundredths),
        (text, circle) => {
          const angle = parseAngle(text, circle);
          if (angle.ok) {
            expect(angle.degrees).toBeGreaterThanOrEqual(0);
            expect(angle.degrees).toBeLessThanOrEqual(360);
            for (const { message } of angle.odd) expect(message).not.toMatch(/\p{Cc}/u);
          } else expect(angle.problem).not.toMatch(/\p{Cc}/u);
        },
      ),
      { numRuns: 3000 },
    );
  });
});
