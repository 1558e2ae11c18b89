/** Which wavelength a known line may have, and how likely one choice makes the next. */
import { describe, expect, test } from 'vitest';
import {
  isFault,
  type LampLine,
  type LineChoice,
  lampLines,
  lampTable,
  linesOfTheTable,
  openChoices,
  statedChoices,
} from '../../src/calibrate/assign/line-hypotheses.ts';
import {
  addedPrior,
  type KnownItem,
  passedOverOf,
  type Understood,
} from '../../src/calibrate/assign/transition-prior.ts';
import { weighed } from '../../src/calibrate/assign/weigh-assignment.ts';
import {
  AFTER_ONE,
  FAULT_CHANCE,
  GIVEN_TWICE,
  IN_THE_TABLE_CHANCE,
  READ_TWICE,
  UNLISTED,
} from '../../src/calibrate/assumptions.ts';
import { lampSpectrum } from '../../src/lines/table.ts';
import type { ReadingAlternative } from '../../src/observe/slip-hypotheses.ts';
import type { KnownBenchLine } from '../../src/record/bench.ts';

const mercury = lampSpectrum(['mercury']);
const line: KnownBenchLine = {
  index: 0,
  lampIndex: 0,
  statedWavelengthNm: null,
  settings: [],
  texts: [],
  colour: null,
  brightness: null,
  note: null,
  use: true,
  confirmed: false,
};
const chanceOf = ({ logPrior }: LineChoice) => Math.exp(logPrior);
const at = (choices: readonly LineChoice[], nm: number) =>
  choices.find(({ wavelengthNm }) => wavelengthNm !== null && Math.abs(wavelengthNm - nm) < 0.05)!;

describe('the lines of a lamp', () => {
  // NIST SRD 108: mercury's yellow pair, 576.960 and 579.066 nm.
  const lines = lampLines(mercury);

  test('a bright pair may be read as one, anywhere between the two', () => {
    const pair = lines.find(({ variance }) => variance > 0)!;
    expect(pair.wavelengthNm).toBeCloseTo((576.96 + 579.066) / 2, 2);
    // Half of 2.106 nm over √3 (GUM 4.3.7).
    expect(Math.sqrt(pair.variance)).toBeCloseTo(2.106 / 2 / Math.sqrt(3), 3);
  });

  test('ascend, and brighter ones are likelier written down', () => {
    const nm = lines.map(({ wavelengthNm }) => wavelengthNm);
    expect(nm).toEqual([...nm].sort((a, b) => a - b));
    const single = lines.filter(({ variance }) => variance === 0);
    const byProminence = [...single].sort((a, b) => a.prominence - b.prominence);
    expect(byProminence.map(({ chance }) => chance)).toEqual(
      [...single.map(({ chance }) => chance)].sort((a, b) => a - b),
    );
    expect(Math.max(...single.map(({ chance }) => chance))).toBeLessThan(0.9);
  });

  test('that the record names stand in the table; one that gives the pair hardly gives its lines', () => {
    const table = linesOfTheTable(lines, [546.07, 578]);
    const of = (nm: number) => table.find(({ wavelengthNm }) => Math.abs(wavelengthNm - nm) < 0.02)!;
    expect(of(546.075).chance).toBe(0.97);
    expect(of(578.013).chance).toBe(0.97);
    const before = lines.find(({ wavelengthNm }) => Math.abs(wavelengthNm - 579.066) < 0.02)!;
    expect(of(579.066).chance).toBeCloseTo(0.1 * before.chance, 12);
    expect(of(435.833).chance).toBe(
      lines.find(({ wavelengthNm }) => Math.abs(wavelengthNm - 435.833) < 0.02)!.chance,
    );
  });
});

describe('what a named line may be', () => {
  const stated = [579.07, 546.07, 435.83, 404.66];
  const table = lampTable(mercury, stated);

  test('as stated, set aside, or another line of the lamp, the near ones likelier than those behind them', () => {
    const choices = statedChoices(line, 546.07, table, []);
    expect(choices[0]).toMatchObject({ kind: 'as-stated', wavelengthNm: 546.07, logPrior: 0 });
    expect(chanceOf(choices[1]!)).toBeCloseTo(FAULT_CHANCE.setAside, 12);
    const others = choices.filter(({ kind }) => kind === 'neighbour');
    expect(chanceOf(at(others, 576.96))).toBeGreaterThan(chanceOf(at(others, 690.752)));
    const sum = others.reduce((total, choice) => total + chanceOf(choice), 0);
    expect(sum).toBeLessThanOrEqual(FAULT_CHANCE.neighbour + 1e-12);
    expect(sum).toBeGreaterThan(0.5 * FAULT_CHANCE.neighbour);
    expect(others.every(isFault)).toBe(true);
    expect(isFault(choices[0]!)).toBe(false);
  });

  const lampLine = (wavelengthNm: number, chance: number, prominence = 0): LampLine => ({
    wavelengthNm,
    chance,
    prominence,
    variance: 0,
    optional: false,
  });
  const neighboursOf = (lines: readonly LampLine[], statedNm: number): Record<string, number> =>
    Object.fromEntries(
      statedChoices(line, statedNm, { lines, isListed: () => true }, [])
        .filter(({ kind }) => kind === 'neighbour')
        .map((choice) => [choice.wavelengthNm, chanceOf(choice)]),
    );

  test('on either side: by its own chance, by what is passed over, and unlike lines hardly unless both are named', () => {
    const lines = [
      lampLine(500, 0.5),
      lampLine(510, 0.8, -2),
      lampLine(520, IN_THE_TABLE_CHANCE),
      lampLine(530, 0.6, 1.5),
      lampLine(540, IN_THE_TABLE_CHANCE, -3),
    ];
    const side = FAULT_CHANCE.neighbour / 2;
    const found = neighboursOf(lines, 520);
    expect(found['510']).toBeCloseTo(side * 0.8 * 0.35, 12);
    expect(found['500']).toBeCloseTo(side * (1 - 0.8 * 0.8) * 0.5, 12);
    // More than one altogether: together they are as likely as one.
    const above = [0.6, (1 - 0.8 * 0.6) * 0.97];
    const total = above[0]! + above[1]!;
    expect(total).toBeGreaterThan(1);
    expect(found['530']).toBeCloseTo((side * above[0]!) / total, 12);
    expect(found['540']).toBeCloseTo((side * above[1]!) / total, 12);
    // Of a line that the lamp does not have nothing is known.
    expect(neighboursOf(lines, 515)['510']).toBeCloseTo(side * 0.8, 12);
  });

  test('and twelve lines away at the most', () => {
    const lines = Array.from({ length: 31 }, (_, i) => lampLine(500 + i, 0.1));
    expect(Object.keys(neighboursOf(lines, 515)).map(Number)).toEqual(
      lines.map(({ wavelengthNm }) => wavelengthNm).filter((nm) => nm !== 515 && Math.abs(nm - 515) <= 12),
    );
  });

  test('only itself or misread, where a person insists', () => {
    const choices = statedChoices({ ...line, confirmed: true }, 546.07, table, []);
    expect(choices.map(({ kind }) => kind)).toEqual(['as-stated', 'set-aside']);
  });

  test('a wavelength that the lamp does not have may have a wrong digit: 564.07 for 546.07', () => {
    const wrong = lampTable(mercury, [...stated, 564.07]);
    expect(wrong.isListed(564.07)).toBe(false);
    expect(wrong.isListed(546.07)).toBe(true);
    const choices = statedChoices(line, 564.07, wrong, []);
    expect(chanceOf(choices[0]!)).toBeCloseTo(UNLISTED.right, 12);
    expect(chanceOf(at(choices, 546.075))).toBeGreaterThan(UNLISTED.oneDigitWrong);
    expect(chanceOf(at(choices, 576.96))).toBeLessThan(0.05);
  });

  test('the mean that tables quote for a pair read as one is listed, a wavelength beside it is not', () => {
    const table = lampTable(mercury, [...stated, 578.0]);
    expect(table.isListed(578.0)).toBe(true);
    expect(table.isListed(578.6)).toBe(false);
  });

  test("where most names are not the lamp's own its name is wrong, and all are believed", () => {
    const helium = [667.82, 587.56, 501.57, 447.15];
    expect(lampTable(mercury, helium).isListed(667.82)).toBe(true);
  });

  test('the rounding of what is written is in its variance: ±0.5, ±0.05, ±0.005 as rectangles', () => {
    for (const [nm, half] of [
      [546, 0.5],
      [546.1, 0.05],
      [546.07, 0.005],
    ] as const)
      expect(statedChoices(line, nm, table, [])[0]!.wavelengthVariance).toBeCloseTo(half ** 2 / 3, 12);
  });
});

describe('what a line without a name may be', () => {
  const lines = lampLines(mercury);

  test('any line, by its chance; a colour makes others unlikely', () => {
    const open = openChoices(line, lines, []);
    const green = openChoices({ ...line, colour: 'green' }, lines, []);
    expect(at(green, 546.075).logPrior).toBeCloseTo(at(open, 546.075).logPrior, 9);
    expect(at(green, 435.833).logPrior).toBeLessThan(at(open, 435.833).logPrior - 3);
    expect(chanceOf(open.at(-1)!)).toBeCloseTo(3 * FAULT_CHANCE.setAside, 12);
  });

  test('and any of them misread, by the odds of the slip, unless these are too small to try', () => {
    const slip = (logOdds: number) => ({ logOdds }) as ReadingAlternative;
    const [likely, hardly] = [slip(-7.9), slip(-8.1)];
    const open = openChoices(line, lines, [likely, hardly]);
    const plain = open.filter((each) => each.kind === 'assigned' && each.slip === null);
    const slipped = open.filter((each) => each.slip !== null);
    expect(plain).toHaveLength(lines.length);
    expect(slipped).toEqual(
      plain.map((each) => ({ ...each, slip: likely, logPrior: expect.closeTo(each.logPrior - 7.9, 12) })),
    );
  });
});

describe('how one choice bears on the next', () => {
  const lines = lampLines(mercury);
  const item = (statedNm: number, ordinate: number): KnownItem => ({
    observation: { ordinate } as KnownItem['observation'],
    choices: [choice('as-stated', statedNm)],
    passedOver: passedOverOf(lines),
  });
  const choice = (kind: LineChoice['kind'], wavelengthNm: number): LineChoice => ({
    kind,
    wavelengthNm,
    wavelengthVariance: 0,
    slip: null,
    logPrior: Math.log(FAULT_CHANCE.neighbour / 2),
  });
  const start: Understood = { pick: null, misnamed: null, slips: 0, last: null };
  const knownUpTo = (nm: number, ordinate: number, more: Partial<Understood> = {}): Understood => ({
    ...start,
    last: { nm, variance: 0, ordinate },
    ...more,
  });

  test('on a circle the wavelength falls as the deviation rises', () => {
    const before = knownUpTo(546.07, 3000);
    const next = item(435.83, 3100);
    expect(addedPrior(before, next, choice('assigned', 576.96), true)).toBe(Number.NEGATIVE_INFINITY);
    expect(addedPrior(before, next, choice('assigned', 435.833), true)).toBeGreaterThan(-20);
    expect(addedPrior(before, next, choice('assigned', 576.96), false)).toBeGreaterThan(-20);
  });

  test('after a wrong name the next is wrong alike, exchanged with it, or right again', () => {
    // 579 was taken for 577; now 577 is taken for 579.
    const misnamed = { statedNm: 579.07, rightNm: 576.96, inARow: 1 };
    const before = knownUpTo(579.9, 2900, { misnamed });
    const plain = (which: LineChoice, from: Understood) => addedPrior(from, item(576.96, 3000), which, true);
    const right = choice('as-stated', 576.96);
    expect(plain(right, before) - plain(right, start)).toBeCloseTo(Math.log(AFTER_ONE.inStep), 12);
    const exchanged = choice('neighbour', 579.07);
    expect(plain(exchanged, before)).toBeCloseTo(Math.log(AFTER_ONE.exchanged), 12);
    const alike = choice('neighbour', 546.07);
    expect(plain(alike, before) - plain(alike, start)).toBeCloseTo(
      Math.log(AFTER_ONE.again) - Math.log(FAULT_CHANCE.neighbour / 2),
      12,
    );
  });

  test('one line of the lamp is hardly read at two places', () => {
    const first = { choice: choice('as-stated', 546.07), before: null };
    const before = knownUpTo(546.07, 3000, { pick: first });
    const twice = choice('neighbour', 546.075);
    const apart = addedPrior(before, item(576.96, 3010), { ...twice, slip: {} as never }, true);
    const once = addedPrior(knownUpTo(600, 2900), item(576.96, 3010), { ...twice, slip: {} as never }, true);
    expect(apart - once).toBeCloseTo(Math.log(GIVEN_TWICE), 12);
  });

  test('whichever of the two has the other name; one read twice under its own name is nothing odd', () => {
    const slip = {} as never;
    const cost = (earlier: LineChoice['kind'], now: LineChoice['kind'], ordinate: number): number => {
      const next = { ...choice(now, 546.075), slip };
      const of = (nm: number) =>
        addedPrior(
          knownUpTo(546.07, 3000, { pick: { choice: choice(earlier, nm), before: null } }),
          item(546.07, ordinate),
          next,
          true,
        );
      return of(546.07) - of(600);
    };
    expect(cost('as-stated', 'as-stated', 3010)).toBe(0);
    expect(cost('neighbour', 'as-stated', 3010)).toBeCloseTo(Math.log(GIVEN_TWICE), 12);
    expect(cost('neighbour', 'neighbour', 3010)).toBeCloseTo(Math.log(GIVEN_TWICE), 12);
    expect(cost('as-stated', 'neighbour', 3000)).toBeCloseTo(Math.log(READ_TWICE), 12);
  });

  test('a second slip of one observer is twice as likely', () => {
    const slipped = { ...choice('as-stated', 435.83), slip: {} as never };
    const of = (slips: number) => addedPrior({ ...start, slips }, item(435.83, 3000), slipped, true);
    expect(Math.exp(of(1) - of(0))).toBeCloseTo(2, 12);
  });
});

describe('explanations against each other', () => {
  test('weigh as their evidence, best first; the negligible are left out', () => {
    const of = (log: number) => ({ log, logPrior: 0 }) as never;
    const found = weighed([of(-10), of(-9), of(-30)]);
    expect(found.map(({ probability }) => probability)).toEqual([
      expect.closeTo(1 / (1 + Math.exp(-1)), 12),
      expect.closeTo(1 / (1 + Math.E), 12),
    ]);
    expect(weighed([])).toEqual([]);
  });
});
