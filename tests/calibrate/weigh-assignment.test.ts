/** What an explanation of known lines is worth, and which are none: on an exact bench of catalogue glass. */
import { describe, expect, test } from 'vitest';
import type { LineChoice } from '../../src/calibrate/assign/line-hypotheses.ts';
import { everythingFits, explained } from '../../src/calibrate/assign/weigh-assignment.ts';
import { DOUBTFUL_BEFOREHAND, EVERYTHING_FITS, WORTH_A_DOUBT } from '../../src/calibrate/assumptions.ts';
import { strayRange } from '../../src/calibrate/curve/bench-prior.ts';
import { predicted } from '../../src/calibrate/curve/gaussian-curve.ts';
import { observe } from '../../src/observe/observation.ts';
import { lampOrigin } from '../../src/observe/origin.ts';
import { readingVariance } from '../../src/observe/reading-variance.ts';
import { scatterPrior, usualScatter } from '../../src/observe/setting-scatter.ts';
import { benchOf, GlassReader, heliumNm, knownLamp, recordOf } from './glass-bench.ts';

const reader = new GlassReader();

interface Line {
  readonly nm: number;
  readonly slipArcmin?: number;
  readonly statedNm?: number;
}

/** Helium lines and how each is understood; as stated unless told. */
function task(lines: readonly Line[], choices: (i: number) => Partial<LineChoice> = () => ({})) {
  const bench = benchOf(recordOf(reader, { known: knownLamp(reader, { lamp: 'helium', lines }) }));
  const { central } = lampOrigin(bench);
  const readings = bench.known[0]!.lines.map((line) => ({
    line,
    observation: observe(bench, line.settings, central)!,
  }));
  const scatter = scatterPrior(
    bench,
    readings.map(({ observation }) => observation),
  );
  const understood = lines.map(
    ({ nm, statedNm = nm }, i): LineChoice => ({
      kind: 'as-stated',
      wavelengthNm: statedNm,
      wavelengthVariance: 0,
      slip: null,
      logPrior: -0.5,
      ...choices(i),
    }),
  );
  const proposed = { choices: understood, logPrior: -3, lampTakenFor: [null] };
  return {
    bench,
    readings,
    found: explained(bench, readings, proposed, scatter),
    usual: usualScatter(bench) ** 2,
  };
}
const at = (nms: readonly number[]): Line[] => nms.map((nm) => ({ nm }));
const aside: Partial<LineChoice> = { kind: 'set-aside', wavelengthNm: null };

describe('an explanation', () => {
  test('is worth its prior and its evidence, each line set aside a place anywhere', () => {
    const lines = at(heliumNm);
    const { bench, readings, found } = task(lines, (i) => (i === 2 ? aside : {}));
    expect(found!.log).toBeCloseTo(
      -3 - Math.log(strayRange(bench, readings)) + found!.posterior.logEvidence,
      9,
    );
    expect(found!.points.map(({ wavelengthNm }) => wavelengthNm)).toEqual(heliumNm.filter((_, i) => i !== 2));
    expect(found!.points[0]!.ordinate).toBe(readings[0]!.observation.ordinate);
  });

  test('undoes the slips that it has', () => {
    const slip = { correction: -60 } as LineChoice['slip'];
    const slipped = heliumNm.map((nm, i) => ({ nm, slipArcmin: i === 3 ? 60 : 0 }));
    const { readings, found } = task(slipped, (i) => (i === 3 ? { kind: 'slip', slip } : {}));
    expect(found!.points[3]!.ordinate).toBeCloseTo(readings[3]!.observation.ordinate - 60, 9);
  });

  test('keeps as many lines as it leaves out, at least', () => {
    const leaving = (lines: number, out: number) =>
      task(at(heliumNm.slice(0, lines)), (i) => (i < out ? aside : {})).found;
    expect(leaving(4, 2)).not.toBeNull();
    expect(leaving(5, 3)).toBeNull();
  });

  test('has two lines, not one of them twice', () => {
    expect(task(at([587.56, 501.57])).found).not.toBeNull();
    expect(task([{ nm: 587.56 }, { nm: 587.56, statedNm: 587.57 }]).found).toBeNull();
  });
});

describe('another name for a line', () => {
  /** The line at 501.57 nm, stated so and understood as what it is; others as told. */
  const named = (statedNm: number, logPrior = -5, others: (i: number) => Partial<LineChoice> = () => ({})) =>
    task(
      heliumNm.map((nm) => ({ nm, statedNm: nm === 501.57 ? statedNm : nm })),
      (i) => ({
        wavelengthNm: heliumNm[i]!,
        ...(heliumNm[i] === 501.57 ? { kind: 'neighbour', logPrior } : others(i)),
      }),
    );
  const { found, readings } = named(510);
  const { basis, constants, settingVariance } = found!.posterior;
  const u = Math.sqrt(readingVariance(readings[3]!.observation, settingVariance));
  const ordinate = (nm: number): number => predicted(constants, basis.at(nm)).ordinate;
  /** The wavelength, longer than 501.57 nm, whose place is so many u from it. */
  const apart = (times: number): number => {
    let [near, far] = [501.57, 520];
    while (far - near > 1e-7) {
      const middle = (near + far) / 2;
      if (Math.abs(ordinate(middle) - ordinate(501.57)) < times * u) near = middle;
      else far = middle;
    }
    return near;
  };

  test('is one that the bench can tell from the first', () => {
    expect(named(apart(WORTH_A_DOUBT + 0.02)).found).not.toBeNull();
    expect(named(apart(WORTH_A_DOUBT - 0.02)).found).toBeNull();
  });

  test('or one that was doubtful before any reading', () => {
    const near = apart(WORTH_A_DOUBT - 1);
    expect(named(near, Math.log(DOUBTFUL_BEFOREHAND) + 0.01).found).not.toBeNull();
    expect(named(near, Math.log(DOUBTFUL_BEFOREHAND) - 0.01).found).toBeNull();
  });

  test('or one of a run of wrong names that can be told', () => {
    const near = apart(WORTH_A_DOUBT - 1);
    const far = heliumNm.map((nm) => (nm === 501.57 ? near : nm + 5));
    const alsoAt = (other: number) =>
      task(
        heliumNm.map((nm, i) => ({ nm, statedNm: i === other || nm === 501.57 ? far[i]! : nm })),
        (i) => ({
          wavelengthNm: heliumNm[i]!,
          ...(i === other || heliumNm[i] === 501.57 ? { kind: 'neighbour', logPrior: -5 } : {}),
        }),
      ).found;
    // 501.57 nm is the fourth: beside it on the circle are the third and the fifth.
    expect([1, 2, 4, 5].map((other) => alsoAt(other) !== null)).toEqual([false, true, true, false]);
  });
});

describe('everything fits', () => {
  const fits = (lines: readonly Line[]) => {
    const { readings, found, usual } = task(lines);
    return everythingFits(readings, found!, usual);
  };

  test('of five lines on, all of them in use', () => {
    expect(fits(at(heliumNm.slice(0, 5)))).toBe(true);
    expect(fits(at(heliumNm.slice(0, 4)))).toBe(false);
    const { readings, found, usual } = task(at(heliumNm), (i) => (i === 2 ? aside : {}));
    expect(everythingFits(readings, found!, usual)).toBe(false);
  });

  test('as long as each is within 2.2 of what is left of its uncertainty', () => {
    for (let slipArcmin = 1; slipArcmin < 12; slipArcmin += 1) {
      const { readings, found, usual } = task(
        heliumNm.map((nm, i) => ({ nm, slipArcmin: i === 4 ? slipArcmin : 0 })),
      );
      const { basis, constants } = found!.posterior;
      const worst = Math.max(
        ...found!.points.map((point) => {
          const { ordinate, variance } = predicted(constants, basis.at(point.wavelengthNm));
          const own = readingVariance(point, usual);
          return Math.abs(point.ordinate - ordinate) / Math.sqrt(Math.max(own - variance, 0.1 * own));
        }),
      );
      expect(everythingFits(readings, found!, usual)).toBe(worst < EVERYTHING_FITS.sigmas);
    }
    expect(fits(heliumNm.map((nm, i) => ({ nm, slipArcmin: i === 4 ? 30 : 0 })))).toBe(false);
  });
});
