import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circleOf } from '../../src/angle/circle.ts';
import { decimalMeaning, meantText } from '../../src/angle/decimal-meaning.ts';
import { formatAngle } from '../../src/angle/format-angle.ts';
import { parseAngle } from '../../src/angle/parse-angle.ts';

const one = circleOf(1);
const five = circleOf(5);
const halfMinute = circleOf(0.5);

describe('a number with a decimal mark on a circle with minutes', () => {
  it.each([
    ['96.333', five, "96°20' (decimal degrees)"],
    // 33 minutes are no mark there.
    ['96.33', five, "96°20' (decimal degrees)"],
    ['96,66', five, "96°40' (decimal degrees)"],
    ['229.68', one, "229°41' (decimal degrees)"],
    ['96.1730', halfMinute, '96°17\'30" (degrees.minutes)'],
    // Sixty minutes are a degree.
    ['96.60', one, "96°36' (decimal degrees)"],
    ['231.30+28', one, "231°30' + 28 (degrees.minutes)"],
  ])('%s has one meaning where only one habit can have written it', (text, circle, said) => {
    const meaning = decimalMeaning(text, circle);
    expect(meaning?.kind === 'one' && meantText(meaning.meant)).toBe(said);
  });

  it('is none where it would have sixty seconds and no mark of decimals', () => {
    expect(decimalMeaning('96.1760', halfMinute)).toBeNull();
  });

  it.each([
    ['229.17', one, "229°10'", "229°17'"],
    ['230,27', one, "230°16'", "230°27'"],
    ['230.48', one, "230°29'", "230°48'"],
    // A last zero dropped, as spreadsheets do.
    ['229.5', one, "229°30'", "229°50'"],
    // 25′ are 0.41666°, cut off to two digits.
    ['232.41', one, "232°25'", "232°41'"],
    ['96.25', five, "96°15'", "96°25'"],
  ])('%s has two where both can', (text, circle, degrees, minutes) => {
    expect(decimalMeaning(text, circle)).toMatchObject({
      kind: 'either',
      degrees: { text: degrees },
      minutes: { text: minutes },
    });
  });

  it.each(['229.17°', '229 17', "229°17'", '229', '229.00', '360.00', '231.5 + 28', 'rubbish', '1.2.3'])(
    '%s is no such number',
    (text) => {
      expect(decimalMeaning(text, one)).toBeNull();
    },
  );

  it('is no question on a circle divided in decimals, nor on a scale', () => {
    expect(decimalMeaning('229.17', circleOf(0.6))).toBeNull();
    expect(decimalMeaning('229.17', null)).toBeNull();
  });

  it('always offers what was read, whichever habit wrote it', () => {
    const circles = [halfMinute, one, circleOf(2), five, circleOf(10)];
    fc.assert(
      fc.property(
        fc.constantFrom(...circles),
        fc.integer({ min: 0, max: 359 * 60 }),
        fc.constantFrom('minutes', 'rounded 2', 'rounded 3', 'cut 2', 'cut 3'),
        (circle, arcmin, habit) => {
          // Two digits are coarser than half a minute: several marks are written alike.
          fc.pre(!(circle === halfMinute && habit.endsWith('2')));
          const degrees = (Math.round(arcmin / circle.leastCountArcmin) * circle.leastCountArcmin) / 60;
          const read = formatAngle(degrees, circle);
          const [, whole, minutes, seconds = ''] = /^(\d+)°(\d+)'(?:(\d+)")?$/.exec(read)!;
          const digits = Number(habit.at(-1));
          const cut = Math.floor(degrees * 10 ** digits + 1e-9) / 10 ** digits;
          const text =
            habit === 'minutes'
              ? `${whole}.${minutes}${seconds === '00' ? '' : seconds}`
              : (habit.startsWith('cut') ? cut : degrees).toFixed(digits);
          const meaning = decimalMeaning(text, circle);
          if (meaning === null) {
            const plain = parseAngle(text, circle);
            expect(plain.ok && formatAngle(plain.degrees, circle), text).toBe(read);
          } else {
            const as = habit === 'minutes' ? 'minutes' : 'degrees';
            expect(meaning.kind === 'one' ? meaning.meant.text : meaning[as].text).toBe(read);
          }
        },
      ),
    );
  });
});

describe('sixtieths', () => {
  it.each([
    ['96 20/60', 96 + 20 / 60],
    ['96°20/60', 96 + 20 / 60],
    ['231.5 + 28/60', 231.5 + 28 / 60],
  ])('%s is understood', (text, degrees) => {
    const angle = parseAngle(text, one);
    expect(angle.ok && angle.degrees).toBeCloseTo(degrees, 9);
  });
});
