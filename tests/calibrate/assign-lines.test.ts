/** All explanations of known lines: which lamp, which line, which slip; planted on exact benches of catalogue glass. */
import { describe, expect, test } from 'vitest';
import { explainKnownLines } from '../../src/calibrate/assign/assign-lines.ts';
import { isFault, lampLines } from '../../src/calibrate/assign/line-hypotheses.ts';
import { passedOverOf } from '../../src/calibrate/assign/transition-prior.ts';
import { NAMED_BY_GUESS_CHANCE } from '../../src/calibrate/assumptions.ts';
import { tubeNamed, tubes } from '../../src/lines/table.ts';
import { benchConstants } from '../../src/observe/bench-constants.ts';
import { observe } from '../../src/observe/observation.ts';
import { lampOrigin } from '../../src/observe/origin.ts';
import { scatterPrior } from '../../src/observe/setting-scatter.ts';
import type { Bench } from '../../src/record/bench.ts';
import { benchOf, GlassReader, heliumNm, hydrogenNm, mercuryNm } from './glass-bench.ts';

const reader = new GlassReader();

interface Line {
  /** The line that was read, and so many arc-minutes off it. */
  readonly nm: number;
  readonly off?: number;
  /** As the record states it; null: it does not. */
  readonly stated?: number | null;
  readonly more?: object;
}

const lampWith = (lamp: string, lines: readonly Line[]) => ({
  lamp,
  lines: lines.map(({ nm, off = 0, stated = nm, more = {} }) => ({
    ...(stated === null ? {} : { wavelengthNm: stated }),
    readings: [reader.line(nm, off)],
    ...more,
  })),
});

const at = (nm: readonly number[], of: (i: number) => Omit<Line, 'nm'> = () => ({})): Line[] =>
  nm.map((each, i) => ({ nm: each, ...of(i) }));

function explained(bench: Bench) {
  const { central } = lampOrigin(bench);
  const readings = bench.known
    .flatMap(({ lines }) => lines)
    .flatMap((line) => {
      const observation = observe(bench, line.settings, central);
      return observation === null ? [] : [{ line, observation }];
    });
  const scatter = scatterPrior(
    bench,
    readings.map(({ observation }) => observation),
  );
  const found = explainKnownLines(bench, readings, benchConstants(bench), scatter);
  const probabilities = found.map(({ probability }) => probability);
  expect(probabilities).toEqual([...probabilities].sort((a, b) => b - a));
  if (found.length > 0) expect(probabilities.reduce((a, b) => a + b)).toBeCloseTo(1, 9);
  for (const { choices } of found) expect(choices).toHaveLength(readings.length);
  return found;
}

const benchWith = (known: readonly object[], central = reader.central()): Bench =>
  benchOf({ instrument: { method: 'central', leastCount: "1'" }, central: [central], known, unknown: [] });
const lines = (lamp: string, of: readonly Line[]) => explained(benchWith([lampWith(lamp, of)]));
const kindsOf = (found: ReturnType<typeof explained>) => found[0]!.choices.map(({ kind }) => kind);

const keysOf = (found: ReturnType<typeof explained>): string[] =>
  found.map(({ choices, lampTakenFor }) =>
    JSON.stringify([
      lampTakenFor,
      choices.map(({ wavelengthNm, slip, kind }) => [
        kind,
        wavelengthNm,
        slip?.part,
        slip?.readingCorrection,
      ]),
    ]),
  );

describe('too little, or nothing to doubt', () => {
  test('one reading is none, two are enough', () => {
    expect(lines('mercury', at(mercuryNm.slice(4, 5)))).toEqual([]);
    const found = lines('mercury', at(mercuryNm.slice(4, 6)));
    expect(kindsOf(found)).toEqual(['as-stated', 'as-stated']);
    expect(found[0]!.probability).toBeGreaterThan(0.5);
  });

  test('of lines that all fit nothing else is tried', () => {
    const found = lines('mercury', at(mercuryNm));
    expect(found).toHaveLength(1);
    expect(found[0]!.choices.map(({ wavelengthNm }) => wavelengthNm)).toEqual([...mercuryNm]);
    expect(kindsOf(found).every((kind) => kind === 'as-stated')).toBe(true);
  });

  test('with a central image in the opposite window no line is to blame, and none is explained', () => {
    expect(explained(benchWith([lampWith('mercury', at(mercuryNm))], reader.text(1 + 4 / 60)))).toEqual([]);
  });
});

describe('of single lines', () => {
  test.each([[[]], [[0, 3]]])(
    'a wavelength that the lamp has not is taken for a misprint, lines without a name left out of the count: %j',
    (unnamed: number[]) => {
      const read = [690.75, 579.07, 546.07, 491.61, 435.83, 404.66];
      const found = lines(
        'mercury',
        at(read, (i) => (i === 2 ? { stated: 564.07 } : unnamed.includes(i) ? { stated: null } : {})),
      );
      const renamed = found.filter(({ choices }) => Math.abs((choices[2]!.wavelengthNm ?? 0) - 546.07) < 0.1);
      // Believed to stand in the table it would be right several times as often.
      expect(renamed.reduce((sum, { probability }) => sum + probability, 0)).toBeGreaterThan(0.9995);
    },
  );

  test('a slip is undone, and the rest stays', () => {
    const found = lines(
      'mercury',
      at(mercuryNm, (i) => (i === 3 ? { off: 30 } : {})),
    );
    const { choices, lampTakenFor } = found[0]!;
    expect(choices.map((choice) => isFault(choice))).toEqual(mercuryNm.map((_, i) => i === 3));
    expect(choices[3]!.slip?.readingCorrection).toBeCloseTo(-30, 6);
    expect(lampTakenFor).toEqual([null]);
  });

  test('a line named for another is given its own', () => {
    const found = lines(
      'helium',
      at(heliumNm, (i) => (i === 3 ? { stated: heliumNm[4] } : {})).toSpliced(4, 1),
    );
    expect(found[0]!.choices[3]).toMatchObject({
      kind: 'neighbour',
      wavelengthNm: expect.closeTo(501.57, 1),
    });
  });

  test('one that is nothing at all is set aside', () => {
    const found = lines(
      'helium',
      at(heliumNm, (i) => (i === 2 ? { off: 23 } : {})),
    );
    expect(found[0]!.choices[2]!.wavelengthNm).toBeNull();
  });

  test('one without a wavelength is found among the lamp’s, a slip among the others or not', () => {
    for (const off of [0, 30]) {
      const found = lines(
        'mercury',
        at(mercuryNm, (i) => (i === 4 ? { stated: null } : i === 6 ? { off } : {})),
      );
      expect(found[0]!.choices[4]).toMatchObject({
        kind: 'assigned',
        wavelengthNm: expect.closeTo(546.07, 1),
      });
      expect(isFault(found[0]!.choices[6]!)).toBe(off !== 0);
    }
  });
});

describe('a hand that shakes', () => {
  test('makes no faults of its scatter', () => {
    const offs = [2, -2, 2, -2, 3, -2, 2, -3];
    const found = lines(
      'mercury',
      at(mercuryNm, (i) => ({ off: offs[i]! })),
    );
    expect(found[0]!.choices.filter(isFault)).toEqual([]);
    expect(found[0]!.posterior.settingVariance).toBeGreaterThan((1.8 * 0.79) ** 2);
  });

  test('and a slip of it is still a slip', () => {
    const offs = [2, -2, 2, 28, 3, -2, 2, -3];
    const found = lines(
      'mercury',
      at(mercuryNm, (i) => ({ off: offs[i]! })),
    );
    expect(found[0]!.choices.map((choice) => isFault(choice))).toEqual(offs.map((off) => off === 28));
  });

  test('no explanation is counted twice', () => {
    const offs = [2, -2, 2, 28, 3, -2, -30, -3];
    const keys = keysOf(
      lines(
        'mercury',
        at(mercuryNm, (i) => ({ off: offs[i]! })),
      ),
    );
    expect(new Set(keys).size).toBe(keys.length);
  });

  test('nor where a line without a wavelength is no line at all, and all the others are as stated', () => {
    const found = lines(
      'mercury',
      at(mercuryNm, (i) => (i === 4 ? { stated: null, off: 600 } : {})),
    );
    expect(kindsOf(found)).toEqual(mercuryNm.map((_, i) => (i === 4 ? 'set-aside' : 'as-stated')));
    expect(new Set(keysOf(found)).size).toBe(found.length);
  });
});

describe('a lamp as a whole', () => {
  /** Read on helium, named with mercury's wavelengths in the same order. */
  const helium = at([...heliumNm].slice(0, 7), (i) => ({
    stated: [690.75, 623.44, 579.07, 546.07, 491.61, 435.83, 404.66][i]!,
  }));

  test('is taken for what its lines are', () => {
    const found = lines('mercury', helium);
    expect(found[0]!.lampTakenFor).toEqual(['helium']);
    expect(found[0]!.choices.map(({ wavelengthNm }) => Math.round(wavelengthNm!))).toEqual(
      heliumNm.slice(0, 7).map((nm) => Math.round(nm)),
    );
  });

  test('beside another that is right, only the wrong one is', () => {
    const found = explained(benchWith([lampWith('hydrogen', at(hydrogenNm)), lampWith('mercury', helium)]));
    expect(found[0]!.lampTakenFor).toEqual([null, 'helium']);
  });

  test('of three with faults the two with most of their lines faulty are suspected, however many lines that is', () => {
    const slipped = (nm: readonly number[]): Line[] =>
      at(nm, (i) => (i % 3 === 0 ? { off: i % 2 === 0 ? 30 : -30 } : {}));
    const cadmium = at([643.85, 508.58, 479.99, 467.82], (i) => ({ stated: hydrogenNm[i]! }));
    const found = explained(
      benchWith([
        lampWith('mercury', slipped(mercuryNm)),
        lampWith('helium', slipped(heliumNm)),
        lampWith('hydrogen', cadmium),
      ]),
    );
    expect(found[0]!.lampTakenFor).toEqual([null, null, 'cadmium']);
    expect(found[0]!.choices.filter(isFault)).toHaveLength(6);
  });

  test('is not suspected where its lines are confirmed, nor with two lines', () => {
    const confirmed = helium.map((line) => ({ ...line, more: { confirmed: true } }));
    for (const { lampTakenFor, choices } of lines('mercury', confirmed)) {
      expect(lampTakenFor).toEqual([null]);
      expect(choices.map(({ kind }) => kind)).not.toContain('neighbour');
    }
    for (const { lampTakenFor } of lines('mercury', helium.slice(0, 2))) expect(lampTakenFor).toEqual([null]);
  });

  test('is suspected as long as one of its lines is not confirmed', () => {
    const some = helium.map((line, i) => (i === 0 ? { ...line, more: { confirmed: true } } : line));
    expect(lines('mercury', some).some(({ lampTakenFor }) => lampTakenFor[0] === 'helium')).toBe(true);
  });

  test('that is right may have its lines named by guess, every one', () => {
    const read = [667.82, 587.56, 501.57, 492.19, 471.31, 447.15, 402.62];
    const named = [706.52, 667.82, 587.56, 504.77, 492.19, 471.31, 447.15];
    const found = lines(
      'helium',
      at(read, (i) => ({ stated: named[i]! })),
    );
    expect(found[0]!.lampTakenFor).toEqual([null]);
    expect(found[0]!.choices.map(({ kind }) => kind)).toEqual(read.map(() => 'neighbour'));
    for (const [i, { wavelengthNm }] of found[0]!.choices.entries())
      expect(Math.abs(wavelengthNm! - read[i]!)).toBeLessThan(2.5);
    const guess = Math.log(NAMED_BY_GUESS_CHANCE);
    const isGuess = ({ choices }: (typeof found)[number]) =>
      choices.some(({ logPrior }) => logPrior === guess);
    expect(found.some(isGuess)).toBe(true);
    // Whoever insists on one name has not guessed.
    const insisted = lines(
      'helium',
      at(read, (i) => ({ stated: named[i]!, more: { confirmed: i === 3 } })),
    );
    expect(insisted.some(isGuess)).toBe(false);
  });

  test('a pair read as one is as stated where all other names are guesses, and is counted once', () => {
    const read = [690.75, 623.44, 578.01, 546.07, 491.61, 435.83, 404.66];
    const named = [546.07, 690.75, 578, 404.66, 435.83, 623.44, 491.61];
    const found = lines(
      'mercury',
      at(read, (i) => ({ stated: named[i]! })),
    );
    const guess = Math.log(NAMED_BY_GUESS_CHANCE);
    const guessed = found.filter(({ choices }) => choices[0]!.logPrior === guess);
    expect(guessed.length).toBeGreaterThan(0);
    for (const { choices } of guessed)
      expect(choices.map(({ kind }) => kind)).toEqual(
        read.map((_, i) => (i === 2 ? 'as-stated' : 'neighbour')),
      );
    expect(new Set(keysOf(found)).size).toBe(found.length);
  });

  test('is as likely another as lamps are used for calibrations, and as its lines are passed over', () => {
    const named = [623.44, 491.61, 435.83, 404.66];
    const found = lines(
      'mercury',
      at(hydrogenNm, (i) => ({ stated: named[i]! })),
    );
    // Both have the same four lines at the same places; only one is a lamp that calibrations use.
    const of = (substance: string) => found.find(({ lampTakenFor }) => lampTakenFor[0] === substance)!;
    const [hydrogen, water] = [of('hydrogen'), of('water vapour')];
    expect(hydrogen.choices.map(({ wavelengthNm }) => wavelengthNm)).toEqual(
      water.choices.map(({ wavelengthNm }) => wavelengthNm),
    );
    const passed = (substance: string): number => {
      const passedOver = passedOverOf(lampLines(tubeNamed(substance)!));
      return hydrogenNm.slice(1).reduce((sum, nm, i) => sum + passedOver(hydrogenNm[i]!, nm), 0);
    };
    const byUse = (0.5 / tubes.length + 0.5 / 6) / (0.5 / tubes.length);
    expect(hydrogen.probability / water.probability).toBeCloseTo(
      byUse * Math.exp(passed('hydrogen') - passed('water vapour')),
      6,
    );
  });

  test('is suspected by fewer faults where its lines have colours only', () => {
    // Mercury through F2, as a hand reads it: the yellow lines alike, so that helium would need two slips and no more.
    const read = { "126°15'": 'violet', "125°21'": 'blue', "124°17'": 'blue-green', "123°35'": 'green' };
    const others = [
      ["123°17'", 'yellow'] as const,
      ["123°17'", 'yellow'] as const,
      ["122°55'", 'red'] as const,
    ];
    const of = [...Object.entries(read), ...others].map(([text, color]) => ({ readings: [text], color }));
    const found = explained(benchWith([{ lamp: 'helium', lines: of }], "75°00'"));
    expect(found[0]!.lampTakenFor).toEqual(['mercury']);
  });

  test('without a name is named by its lines', () => {
    const found = lines(
      '',
      at(heliumNm, () => ({ stated: null })),
    );
    expect(found[0]!.lampTakenFor).toEqual(['helium']);
  });

  test('without a name is sooner the lamp in use than its rare twin, whatever else may shine in it', () => {
    const found = lines(
      '',
      at(hydrogenNm, () => ({ stated: null })),
    );
    const chanceOf = (substance: string): number =>
      found
        .filter(({ lampTakenFor }) => lampTakenFor[0] === substance)
        .reduce((sum, { probability }) => sum + probability, 0);
    expect(found[0]!.lampTakenFor).toEqual(['hydrogen']);
    expect(chanceOf('hydrogen')).toBeGreaterThan(chanceOf('deuterium'));
  });
});

describe('on a scale', () => {
  /** Units that rise with the wavelength, or fall, along the prism's own curve. */
  const scaleBench = (sign: 1 | -1, stated: (i: number) => boolean) =>
    benchOf({
      instrument: { method: 'scale', leastCount: 0.1 },
      known: {
        lamp: 'mercury',
        lines: mercuryNm.map((nm, i) => ({
          ...(stated(i) ? { wavelengthNm: nm } : {}),
          readings: [Number((500 + sign * (reader.deviationArcmin(nm) - 2900)).toFixed(1))],
        })),
      },
      unknown: [],
    });

  test.each([1, -1] as const)('the direction is that of the stated wavelengths: %d', (sign) => {
    const found = explained(scaleBench(sign, (i) => i !== 4));
    expect(found[0]!.choices[4]).toMatchObject({ kind: 'assigned', wavelengthNm: expect.closeTo(546.07, 1) });
  });

  test.each([1, -1] as const)('where none is stated, it may be either, and is found: %d', (sign) => {
    const found = explained(scaleBench(sign, () => false));
    const given = found[0]!.choices.map(({ wavelengthNm }) => wavelengthNm ?? 0);
    expect(given.filter((nm, i) => Math.abs(nm - mercuryNm[i]!) < 1).length).toBeGreaterThanOrEqual(6);
  });
});
