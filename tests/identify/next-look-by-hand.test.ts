/** Where to look next: information worked out by hand for tubes of few lines on the straight curve. */
import { describe, expect, test } from 'vitest';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';
import { lookReach } from '../../src/identify/bench/looked-places.ts';
import { nextLook } from '../../src/identify/rank/next-look.ts';
import type { Row } from '../../src/identify/rank/rank.ts';
import { chanceSeenLooking, waysOfLooking } from '../../src/identify/spectrum/detection.ts';
import { tubeOrigin } from '../../src/observe/origin.ts';
import { benchOf, type PlainRecord } from '../calibrate/glass-bench.ts';
import { handCurve, handLine, handReading, handRow } from './hand-made.ts';

const record: PlainRecord = {
  instrument: { method: 'central', leastCount: "1'" },
  central: ["100°00'"],
  known: { lamp: 'helium', lines: [{ wavelengthNm: 587.56, readings: ["150°00'"] }] },
  unknown: { lines: [{ readings: ["148°40'"] }] },
};
const bench = benchOf(record);
const origin = tubeOrigin(bench, bench.tubes[0]!);
// Read at 540 nm: 2920'. What a look reaches: 3 times 0.5' and 1.5 nm of 2' each.
const readings = [handReading(0, 2920)];
const REACH = 4.5;
const look = (rows: readonly Row[], looked: Parameters<typeof nextLook>[3] = [], shift = 0) =>
  nextLook(bench, rows, { readings, origin }, looked, handCurve, shift);
const row = (probability: number, name: string, nms: readonly (number | ReturnType<typeof handLine>)[]) =>
  handRow(
    probability,
    name,
    nms.map((line) => (typeof line === 'number' ? handLine(line) : line)),
    readings,
  );
const unlisted = (probability: number): Row => ({ ...row(probability, 'unlisted', [540]), tube: null });

test('a look reaches as far here as it is said to', () => {
  expect(lookReach(readings, handCurve, 2920)).toBe(REACH);
});

describe('two tubes that share the line read', () => {
  test('are told apart at the line that one of them has', () => {
    // 600 nm: 2800', 46°40' from the central image.
    expect(look([row(0.5, 'neon', [540, 600]), row(0.5, 'argon', [540])])).toEqual({
      reading: "146°40'",
      wavelengthNm: 600,
      separates: ['neon', 'argon'],
    });
    expect(look([row(0.5, 'argon', [540]), row(0.5, 'neon', [540, 600])])).toMatchObject({
      wavelengthNm: 600,
      separates: ['neon', 'argon'],
    });
  });

  test('are told apart at a line of one, not where both have one within reach', () => {
    const within = handCurve.wavelengthAt(2800 + 0.9 * REACH, 0)!.wavelengthNm;
    const beyond = handCurve.wavelengthAt(2800 + 1.1 * REACH, 0)!.wavelengthNm;
    const neon = row(0.5, 'neon', [540, 600, handLine(650, { prominence: -1.5 })]);
    expect(look([neon, row(0.5, 'argon', [540, within])])).toMatchObject({ wavelengthNm: 650 });
    expect(look([neon, row(0.5, 'argon', [540, beyond])])!.wavelengthNm).not.toBe(650);
  });

  test('are told apart by the line that is most surely seen', () => {
    const lines = [-2, 0, -1].map((prominence, i) => handLine(560 + 40 * i, { prominence }));
    expect(look([row(0.5, 'neon', [540, ...lines]), row(0.5, 'argon', [540])])).toMatchObject({
      wavelengthNm: 600,
    });
  });

  test('are asked about no line that an ordinary tube may lack', () => {
    const optional = handLine(600, { expected: false });
    const sure = handLine(650, { prominence: -1 });
    expect(look([row(0.5, 'neon', [540, optional, sure]), row(0.5, 'argon', [540])])).toMatchObject({
      wavelengthNm: 650,
    });
  });

  test('are not asked where the place as it is told, in whole counts, may be within reach of a reading or a look', () => {
    const justBeyond = (ordinate: number) => handCurve.wavelengthAt(ordinate - REACH - 0.4, 0)!.wavelengthNm;
    const faint = handLine(650, { prominence: -1 });
    const argon = row(0.5, 'argon', [540]);
    expect(look([row(0.5, 'neon', [540, justBeyond(2920), faint]), argon])!.wavelengthNm).toBe(650);
    const looked = [{ ordinate: 2800, reach: REACH, goesWithLines: false }];
    const neon = row(0.5, 'neon', [540, justBeyond(2800), faint]);
    expect(look([neon, argon], looked)!.wavelengthNm).toBe(650);
    expect(look([neon, argon])!.wavelengthNm).not.toBe(650);
  });

  test('are asked where something was neither read nor looked at', () => {
    const rows = [
      row(0.5, 'neon', [handLine(541), 600, handLine(650, { prominence: -1 })]),
      row(0.5, 'argon', []),
    ];
    const at = (ordinate: number) => [{ ordinate, reach: REACH, goesWithLines: false }];
    expect(look(rows)).toMatchObject({ wavelengthNm: 600 });
    expect(look(rows, at(2800 + 0.9 * REACH))).toMatchObject({ wavelengthNm: 650 });
    expect(look(rows, at(2800 + 1.2 * REACH))).toMatchObject({ wavelengthNm: 600 });
  });
});

describe('not asked for is', () => {
  test('a line where the eye sees little, or outside the curve', () => {
    const wide: CalibrationCurve = {
      ...handCurve,
      domainNm: [380, 760],
      wavelengthAt: (ordinate) => ({
        wavelengthNm: (4000 - ordinate) / 2,
        standardUncertaintyNm: 0.25,
        extrapolated: false,
      }),
    };
    const ask = (nm: number) => {
      const rows = [row(0.5, 'neon', [540, nm]), row(0.5, 'argon', [540])];
      return nextLook(bench, rows, { readings, origin }, [], wide, 0);
    };
    expect(ask(398)).not.toBeNull();
    expect(ask(394)).toBeNull();
    expect(ask(714)).not.toBeNull();
    expect(ask(716)).toBeNull();
    // The curve of all others ends at 400 and 700 nm.
    for (const nm of [399, 400, 700, 701])
      expect(look([row(0.5, 'neon', [540, nm]), row(0.5, 'argon', [540])])).toBeNull();
  });

  test('a line that tells less than 0.02 bit', () => {
    const rows = (probability: number) => [
      row(1 - probability, 'neon', [540]),
      row(probability, 'argon', [540, 600]),
    ];
    expect(look(rows(0.008))).not.toBeNull();
    expect(look(rows(0.0025))).toBeNull();
  });

  test('one of a tube that is no rival, or of the seventh', () => {
    const last = row(1, 'argon', [540, 600]);
    const six = Array.from({ length: 6 }, (_, i) => row(0.2, `tube ${i}`, [540]));
    expect(look([...six.slice(1), last])).toMatchObject({ wavelengthNm: 600 });
    expect(look([...six, last])).toBeNull();
  });
});

describe('a sure tube', () => {
  const faint = handLine(650, { prominence: -1.8 });
  const lines = [540, faint, 600] as const;

  test('below 99 % is confirmed at its likeliest line, against the next of the list', () => {
    // Both have all lines: nothing tells them apart.
    expect(look([row(0.98, 'neon', lines), row(0.02, 'argon', lines)])).toEqual({
      reading: "146°40'",
      wavelengthNm: 600,
      separates: ['neon', 'argon'],
    });
    expect(look([row(0.991, 'neon', lines), row(0.009, 'argon', lines)])).toBeNull();
    expect(look([row(0.9, 'neon', [540, 600])])).toMatchObject({ separates: ['neon', 'something else'] });
  });

  test('is not confirmed at a line that is seen every other time at the most', () => {
    const { limit } = waysOfLooking(false, 1)[2]!.looking;
    const chance = (prominence: number) => chanceSeenLooking({ prominence, prominenceSd: 0.3 }, limit);
    expect(chance(-3)).toBeGreaterThan(0.51);
    expect(chance(-3.2)).toBeLessThan(0.49);
    const ask = (prominence: number) => {
      const line = handLine(600, { prominence });
      return look([row(0.98, 'neon', [540, line]), row(0.02, 'argon', [540, line])]);
    };
    expect(ask(-3)).not.toBeNull();
    expect(ask(-3.2)).toBeNull();
  });
});

describe('a tube off the list', () => {
  test('has its lines anywhere: ten in 310 nm, so one within reach with a chance of one in six', () => {
    // Reach is 2.25 nm to either side. Bits as Shannon has them.
    const something = (missed: number) => 1 - 0.98 * missed;
    const entropy = (p: number) => -p * Math.log2(p) - (1 - p) * Math.log2(1 - p);
    const ofUnlisted = something(Math.exp((-4.5 * 10) / 310));
    expect(ofUnlisted).toBeCloseTo(0.152, 3);
    const { limit } = waysOfLooking(false, 1)[2]!.looking;
    const ofNeon = something(1 - chanceSeenLooking({ prominence: 0, prominenceSd: 0.3 }, limit));
    const bits = (weight: number) =>
      entropy(weight * ofUnlisted + (1 - weight) * ofNeon) -
      weight * entropy(ofUnlisted) -
      (1 - weight) * entropy(ofNeon);
    // The weight of a tube off the list at which the look begins to tell 0.02 bit; neon is too sure to be confirmed.
    let [little, much] = [1e-4, 0.01];
    while (much - little > 1e-7) {
      const between = (little + much) / 2;
      if (bits(between) < 0.02) little = between;
      else much = between;
    }
    const ask = (weight: number) => look([row(1 - weight, 'neon', [540, 600]), unlisted(weight)]);
    expect(ask(1.02 * much)).toMatchObject({ wavelengthNm: 600, separates: ['neon', 'something else'] });
    expect(ask(0.98 * much)).toBeNull();
  });

  test('is named for what it is, whichever leads', () => {
    expect(look([unlisted(0.6), row(0.4, 'neon', [540, 600])])).toMatchObject({
      wavelengthNm: 600,
      separates: ['neon', 'something else'],
    });
  });
});

describe('where all readings are shifted', () => {
  const shifted = (nm: number) => handLine(nm, { ordinate: handCurve.ordinateAt(nm) + 20 });

  test('the place goes with them, the wavelength is the line', () => {
    const rows = [row(0.5, 'neon', [shifted(600)]), row(0.5, 'argon', [])];
    // 2820': 47°00' from the central image.
    expect(look(rows, [], 20)).toEqual({
      reading: "147°00'",
      wavelengthNm: 600,
      separates: ['neon', 'argon'],
    });
  });

  test('a line of a row that is not shifted is told by the wavelength that the leading row has there', () => {
    const rows = [row(0.5, 'neon', []), row(0.5, 'argon', [600])];
    expect(look(rows, [], 20)).toMatchObject({ reading: "146°40'", wavelengthNm: 610 });
  });
});
