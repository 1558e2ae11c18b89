import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circleOf, usualScaleDivision } from '../../src/angle/circle.ts';
import { drawVernier } from '../../src/angle/draw-vernier.ts';
import { vernierReading } from '../../src/angle/vernier.ts';

describe('the vernier as understood', () => {
  it.each([
    [231 + 58 / 60, 1, { mainScaleDeg: 231.5, tick: 28, divisions: 30 }],
    [229 + 35 / 60, 5, { mainScaleDeg: 229, tick: 7, divisions: 12 }],
    [231 + 34.5 / 60, 0.5, { mainScaleDeg: 231 + 20 / 60, tick: 29, divisions: 40 }],
    [231.58, 0.6, { mainScaleDeg: 231.5, tick: 8, divisions: 50 }],
    [232 - 1e-9, 1, { mainScaleDeg: 232, tick: 0, divisions: 30 }],
  ])('%f read to %f arc-minutes', (degrees, leastCount, expected) => {
    const reading = vernierReading(degrees, circleOf(leastCount));
    expect(reading?.mainScaleDeg).toBeCloseTo(expected.mainScaleDeg, 9);
    expect(reading).toMatchObject({ tick: expected.tick, divisions: expected.divisions });
    expect(Math.abs(reading!.offTickArcmin)).toBeLessThan(1e-6);
  });

  it('takes the usual main scale for a least count', () => {
    expect([5, 1, 0.5].map(usualScaleDivision)).toEqual([60, 30, 20]);
  });

  it('draws where the zero stands and which tick meets a mark', () => {
    expect(drawVernier(231 + 58 / 60, circleOf(1)).lines).toEqual([
      '                    where the zero of the vernier stands',
      "       30'         231°        30'         232°        30'         233°",
      '        │           │           │           │           │           │',
      '                                           ▕           ▏          ▕',
      '                                           0           1          2',
      '                         the tick that meets a mark',
      " 244°        30'         245°        30'         246°        30'",
      '  │           │           │           │           │           │           │',
      '   ▕           ▏          ▕           │           ▏          ▕',
      '   25          26         27          28          29         30',
      "                                      ▲ 28'",
    ]);
  });

  it('says the same in words', () => {
    expect(drawVernier(231 + 34.5 / 60, circleOf(0.5)).sentence).toBe(
      "231°34'30\": main scale 231°20', vernier tick 29 of 40 (14'30\")",
    );
    expect(drawVernier(12, circleOf(7)).lines).toEqual([]);
  });

  it('puts the matching tick under a mark, in 76 columns at most, plain ASCII when asked', () => {
    const circles = [1, 5, 0.5, 0.6, 2, 10, 60, 1 / 3].map((count) => circleOf(count));
    fc.assert(
      fc.property(
        fc.constantFrom(...circles),
        fc.nat(500_000),
        fc.integer({ min: 20, max: 200 }),
        (circle, count, width) => {
          const degrees = ((count * circle.leastCountArcmin) / 60) % 360;
          const { lines, sentence } = drawVernier(degrees, circle, { ascii: true, width });
          const pointer = lines.at(-1)!.indexOf('^');
          const lastPanel = lines.slice(lines.findLastIndex((line) => /[a-ce-z]/.test(line)) + 1);
          expect(lastPanel[1]![pointer]).toBe('|');
          expect(lastPanel[2]![pointer]).toBe('|');
          for (const line of [...lines, sentence]) expect(line).toMatch(/^[\x20-\x7e]*$/);
          for (const line of lines)
            expect(line.length).toBeLessThanOrEqual(Math.max(40, Math.min(width, 76)));
        },
      ),
      { numRuns: 500 },
    );
  });
});
