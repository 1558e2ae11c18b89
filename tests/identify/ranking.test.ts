/** What the ranking of a tube holds, whatever the tube. */
import { describe, expect, test } from 'vitest';
import { tubeNamed, tubes } from '../../src/lines/table.ts';
import { GlassReader, hydrogenNm, neonNm, recordOf } from '../calibrate/glass-bench.ts';
import { analysedTube, probabilityOf, reader, standsFor, tubeWith } from './tube-bench.ts';

const fewNeonNm = [640.22, 585.25];
const argonNm = [696.54, 603.21, 560.67, 549.59, 451.07, 433.36, 430.01, 427.22, 420.07, 415.86];
const nearNothingNm = [694, 669, 641, 605, 579, 559, 526, 511, 477, 452];

describe.each([
  ['neon', tubeWith(neonNm)],
  ['two lines of neon', tubeWith(fewNeonNm)],
  ['one line', tubeWith([585.25])],
  ['hydrogen', tubeWith(hydrogenNm)],
  ['no tube at all', tubeWith(nearNothingNm)],
])('a tube with %s', (_, tube) => {
  test('has every tube of the line table in exactly one row, and "unlisted"', () => {
    // A tube that mercury of the room shines into has its one row with mercury in it.
    const single = tube.candidates.filter((row) => row.with.length === 0);
    const named = single.flatMap((row) => [row.substance, ...row.indistinguishable]);
    expect(new Set(named).size).toBe(named.length);
    const lit = tube.candidates
      .filter((row) => row.with[0] === 'mercury' && !named.includes(row.substance!))
      .map(({ substance }) => substance);
    expect([...named, ...lit].sort()).toEqual(
      [...tubes.map(({ substance }) => substance), 'unlisted'].sort(),
    );
    expect(tube.candidates.find((row) => row.substance === 'unlisted')!.symbol).toBeNull();
  });

  test('has probabilities in descending order that sum to 1', () => {
    const probabilities = tube.candidates.map(({ probability }) => probability);
    expect(probabilities).toEqual([...probabilities].sort((a, b) => b - a));
    expect(probabilities.reduce((sum, probability) => sum + probability, 0)).toBeCloseTo(1, 12);
  });

  test('explains or leaves unexplained every reading, in every row that was looked at', () => {
    for (const row of tube.candidates.filter(({ symbol }) => symbol !== null)) {
      const indexes = [...row.matches.map(({ index }) => index), ...row.unexplained].sort((a, b) => a - b);
      expect(indexes).toEqual(tube.lines.map(({ index }) => index));
    }
  });

  test('counts on missing lines only where they were likelier seen than not', () => {
    for (const { missing } of tube.candidates)
      for (const { chanceSeen } of missing) {
        expect(chanceSeen).toBeGreaterThanOrEqual(0.5);
        expect(chanceSeen).toBeLessThanOrEqual(1);
      }
  });
});

test('residuals are the differences between the wavelengths of readings and matched lines', () => {
  const { candidates, lines } = tubeWith(neonNm);
  expect(candidates[0]!.matches).toHaveLength(neonNm.length);
  for (const { index, wavelengthNm, residualNm, residualSigma } of candidates[0]!.matches) {
    const line = lines[index]!;
    expect(wavelengthNm).toBeCloseTo(neonNm[index]!, 1);
    expect(residualNm).toBeCloseTo(line.wavelengthNm! - wavelengthNm, 9);
    expect(residualSigma).toBeCloseTo(residualNm / line.standardUncertaintyNm!, 9);
    expect(Math.abs(residualSigma)).toBeLessThan(2.5);
  }
});

describe('verdicts', () => {
  test('a clean tube is identified: at least 99 %, and nothing more to look at', () => {
    for (const [nm, substance] of [
      [neonNm, 'neon'],
      [argonNm, 'argon'],
    ] as const) {
      const { verdict, candidates } = tubeWith(nm);
      expect(verdict).toMatchObject({ kind: 'identified', substance, nextLook: null });
      expect(verdict.sentence).toContain(substance);
      expect(candidates[0]!.probability).toBeGreaterThanOrEqual(0.99);
    }
  });

  test('two lines of neon are not enough to decide', () => {
    const { verdict } = tubeWith(fewNeonNm);
    expect(verdict).toMatchObject({ kind: 'undecided', substance: null });
  });

  test('one line is warned about', () => {
    const tube = tubeWith([585.25]);
    expect(tube.verdict.kind).toBe('undecided');
    expect(tube.warnings).toContainEqual({
      code: 'few-unknown-lines',
      message: expect.stringMatching(/only one line is read, and no other checks it: look for more/),
    });
  });

  test('one line decides nothing, be it that of a tube that shows no other: the list may have just begun', () => {
    const chanceOf = (nm: number, substance: string) =>
      tubeWith([nm]).candidates.find((row) => row.substance === substance && row.with.length === 0)!
        .probability;
    expect(tubeWith([535.05]).verdict.kind).toBe('undecided');
    expect(chanceOf(535.05, 'thallium')).toBeLessThan(0.98);
    // Helium's red line, with which a list of its lines begins, beside lithium's, which is alone.
    expect(chanceOf(667.82, 'helium')).toBeGreaterThan(0.1);
    expect(chanceOf(667.82, 'lithium')).toBeLessThan(0.75);
  });

  test('lines of no tube are unlisted', () => {
    expect(tubeWith(nearNothingNm).verdict).toMatchObject({ kind: 'unlisted', substance: null });
  });

  test('no line at all says nothing', () => {
    const tube = tubeWith([]);
    expect(tube.candidates).toEqual([]);
    expect(tube.verdict.kind).toBe('undecided');
    expect(tube.warnings.map(({ code }) => code)).toContain('no-unknown-lines');
  });

  test('hydrogen, deuterium and water vapour are one row, and the sentence names them all', () => {
    const { verdict, candidates } = tubeWith(hydrogenNm);
    expect(verdict).toMatchObject({ kind: 'identified', substance: 'hydrogen' });
    expect([...candidates[0]!.indistinguishable].sort()).toEqual(['deuterium', 'water vapour']);
    for (const name of ['hydrogen', 'deuterium', 'water vapour']) expect(verdict.sentence).toContain(name);
  });

  test('nitrogen and air are one row', () => {
    const row = tubeWith(neonNm).candidates.find((each) => standsFor(each, 'nitrogen'))!;
    expect(standsFor(row, 'air')).toBe(true);
  });

  test('there are reasons why the runner-up loses', () => {
    const { reasons, candidates } = tubeWith(neonNm);
    const second = candidates.filter(({ symbol }) => symbol !== null)[1]!;
    expect(reasons.length).toBeGreaterThan(0);
    expect(reasons.join(' ')).toContain(second.substance);
  });
});

// Wavelengths in air: NIST SRD 108. A dark-adapted eye sees these of bright lamps (common practice, no source).
describe('lines beyond 720 nm', () => {
  test("potassium's pair at 766 and 770 nm is read, and tells the tube", () => {
    const { verdict, lines } = tubeWith([769.9, 766.49, 693.88, 691.11, 404.41]);
    expect(verdict).toMatchObject({ kind: 'identified', substance: 'potassium' });
    expect(lines.map(({ status }) => status)).toEqual(['used', 'used', 'used', 'used', 'used']);
  });

  test("argon's line at 763.5 nm is no slip", () => {
    const { candidates, lines } = tubeWith([763.51, 750.39, 738.4, 706.72, 696.54, 420.07]);
    expect(candidates[0]).toMatchObject({ substance: 'argon', unexplained: [] });
    expect(lines[0]!.status).toBe('used');
  });
});

describe('the shelf', () => {
  test('is all that is ranked, besides "unlisted"', () => {
    const { candidates, verdict } = tubeWith(neonNm, { shelf: ['neon', 'argon', 'helium'] });
    const single = candidates.filter((row) => row.with.length === 0);
    expect(single.map(({ substance }) => substance).sort()).toEqual(['argon', 'helium', 'neon', 'unlisted']);
    expect(verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
  });

  test('without the tube on it makes the tube unlisted', () => {
    expect(tubeWith(neonNm, { shelf: ['argon', 'helium', 'krypton'] }).verdict.kind).toBe('unlisted');
  });

  test('of one tube still leaves "unlisted" beside it', () => {
    const { candidates } = tubeWith(neonNm, { shelf: ['neon'] });
    expect(candidates.map(({ substance }) => substance).sort()).toEqual(['neon', 'unlisted']);
  });
});

describe('what else a student writes down', () => {
  const plain = tubeWith(fewNeonNm);
  const lines = (colors: readonly string[]) => ({
    lines: fewNeonNm.map((nm, i) => ({ readings: [reader.line(nm)], color: colors[i] })),
  });

  test('"looked, nothing there" at bright lines of neon speaks against neon', () => {
    const looked = tubeWith(fewNeonNm, {
      notSeen: [{ wavelengthNm: 614.31 }, { reading: reader.line(703.24) }],
    });
    expect(probabilityOf(looked, 'neon')).toBeLessThan(0.5 * probabilityOf(plain, 'neon'));
  });

  test('a list said to be complete speaks against tubes of many lines', () => {
    const complete = tubeWith(fewNeonNm, { complete: true });
    expect(probabilityOf(complete, 'neon')).toBeLessThan(0.5 * probabilityOf(plain, 'neon'));
  });

  test('the right colours change little', () => {
    const right = analysedTube(recordOf(reader, { unknown: lines(['red', 'yellow']) }));
    const odds = (tube: typeof plain) => probabilityOf(tube, 'neon') / (1 - probabilityOf(tube, 'neon'));
    expect(odds(right)).toBeGreaterThan(0.5 * odds(plain));
    expect(odds(right)).toBeLessThan(3 * odds(plain));
  });

  test('a colour that does not belong where the reading is speaks for a misreading, one that does against it', () => {
    // The orange line read a degree off, where lines are green.
    const noted = (color?: string) => {
      const readings = neonNm.slice(0, 5).map((nm, i) => ({
        readings: [reader.line(nm, i === 1 ? 60 : 0)],
        ...(i === 1 && color ? { color } : {}),
      }));
      const tube = analysedTube(recordOf(reader, { unknown: { lines: readings } }));
      const slip = tube.doubts.find(({ kind }) => kind === 'slip')?.probability ?? 0;
      return { slip, neon: probabilityOf(tube, 'neon') };
    };
    const [without, orange, green] = [noted(), noted('orange'), noted('green')];
    expect(orange.slip).toBeGreaterThan(without.slip);
    expect(without.slip).toBeGreaterThan(0.7);
    expect(orange.slip).toBeGreaterThan(0.95);
    expect(orange.neon).toBeGreaterThan(without.neon);
    expect(green.slip).toBeLessThan(without.slip);
  });

  test('lines of an impurity come in numbers: each further one speaks less against the tube', () => {
    const heliumNm = [667.82, 587.56, 501.57, 471.31, 447.15];
    const foreignNm = [628.6, 573.4, 551.7, 531, 519.3];
    // Against lines anywhere, which cost nothing that a tube of its own does.
    const against = foreignNm.map((_, k) => {
      const { candidates } = tubeWith([...heliumNm, ...foreignNm.slice(0, k + 1)]);
      const log = (name: string) =>
        candidates.find((row) => row.with.length === 0 && row.substance === name)!.logEvidence;
      return log('unlisted') - log('helium');
    });
    expect(against.at(-1)! - against.at(-2)!).toBeLessThan(against[1]! - against[0]! - 1);
  });

  test('a line that is not to be used is listed and changes nothing', () => {
    const base = neonNm.map((nm) => ({ readings: [reader.line(nm)] }));
    const odd = { readings: [reader.line(447.15)], use: false };
    const aside = analysedTube(recordOf(reader, { unknown: { lines: [...base, odd] } }));
    const without = analysedTube(recordOf(reader, { unknown: { lines: base } }));
    expect(aside.lines).toHaveLength(neonNm.length + 1);
    expect(aside.lines.at(-1)!.message).toMatch(/left out/i);
    expect(aside.candidates.map(({ probability }) => probability)).toEqual(
      without.candidates.map(({ probability }) => probability),
    );
  });
});

describe('a rich tube on a coarse circle, whose lines lie closer than its readings scatter', () => {
  const coarse = new GlassReader({ leastCountArcmin: 5 });
  /** By how much the hand is off, line by line: a count either way, so that neighbours change places. */
  const offArcmin = [0, 5, -5, 0, 5, 0, -5, -5, 5, 0, 0, 5, -5];

  /** The brighter lines first, as far as one sees them apart. */
  function seenApart(substance: string, faintest: number): number[] {
    const seen: number[] = [];
    const bright = tubeNamed(substance)!
      .lines.filter(({ prominence, wavelengthNm: nm }) => prominence > faintest && nm > 395 && nm < 720)
      .sort((a, b) => b.prominence - a.prominence);
    for (const { wavelengthNm: nm } of bright) {
      const isApart = (other: number) =>
        Math.abs(coarse.deviationArcmin(other) - coarse.deviationArcmin(nm)) > 2.5;
      if (seen.every(isApart)) seen.push(nm);
    }
    return seen.sort((a, b) => b - a);
  }

  test.each([
    ['nitrogen', -2.5],
    ['iodine', -4],
    ['argon', -4],
    ['xenon', -4],
  ])('%s is itself rather than no listed tube', (substance, faintest) => {
    const lines = seenApart(substance, faintest).map((nm, i) => ({
      readings: [coarse.line(nm, offArcmin[i % offArcmin.length])],
    }));
    expect(lines.length).toBeGreaterThan(18);
    const tube = analysedTube(recordOf(coarse, { unknown: { lines, complete: true } }, "5'"));
    expect(probabilityOf(tube, substance)).toBeGreaterThan(0.8);
  });
});
