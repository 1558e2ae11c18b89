/**
 * What the readings of the central image may have been. The calibration rests on its own, a tube perhaps on others:
 * an error of either shifts all readings of the tube against the curve, and nothing else betrays it.
 */
import { repeatToleranceArcmin } from '../angle/least-count.ts';
import { logSum, normalised } from '../numeric/log-sum.ts';
import { logNormalDensity } from '../numeric/normal.ts';
import { sumOf } from '../numeric/sum.ts';
import type { Bench, Setting } from '../record/bench.ts';
import { ALIKE_SHIFTS_ARCMIN, IMPOSSIBLE_AS_WRITTEN, MISREAD_SHIFTS, PUT_BACK } from './assumptions.ts';
import { moveLogs, moveSize } from './bench-move.ts';
import { apartArcmin } from './central-image.ts';
import { type CentralKnowledge, type MisreadCentral, versionsOf } from './central-list.ts';
import type { Origin } from './origin.ts';
import { stepOf } from './reading-step.ts';

/** One set of readings that may be misread. */
export interface MisreadAlternative {
  readonly misread: readonly MisreadCentral[];
  readonly probability: number;
}

export interface CentralHypothesis {
  /** What it adds to every ordinate of the tube as against the curve, arc-minutes; 0 where all of them are right. */
  readonly shiftArcmin: number;
  readonly probability: number;
  /** The readings that may be misread for it, likeliest first; of one reading each, either may be wrong. */
  readonly alternatives: readonly MisreadAlternative[];
  /** By how much the two directions still differ, arc-minutes: has the bench been moved? */
  readonly apartArcmin: number;
}

/** The readings of both lists, and on which side of the central image (+1 or -1) their lines lie. */
export interface CentralLists {
  readonly calibration: {
    readonly settings: readonly Setting[];
    readonly side: number;
    /** By how much the bench is known to have been moved after those were read. */
    readonly carried?: Origin['carried'];
  };
  readonly tube: { readonly settings: readonly Setting[]; readonly side: number };
  /** Were both read on one day? */
  readonly day: 'same' | 'another';
}

/** From one day to the next the circle may be anywhere. */
const FULL_CIRCLE_ARCMIN = 21_600;

/** Hypotheses of a tube's own central readings beside the calibration's, likeliest first; probabilities sum to 1. */
export function centralHypotheses(
  bench: Bench,
  { calibration, tube, day }: CentralLists,
  knowledge: CentralKnowledge,
): readonly CentralHypothesis[] {
  const before = versionsOf(bench, calibration.settings, 'calibration', knowledge);
  const after = versionsOf(bench, tube.settings, 'tube', knowledge);
  const tolerance = repeatToleranceArcmin(stepOf(bench, [...calibration.settings, ...tube.settings]));
  const carriedVariance = (calibration.carried?.u ?? 0) ** 2;
  const told = before.flatMap((old) =>
    after.flatMap((anew) => {
      // Readings that are all wrong for no known reason may stand for any direction: that of the others is taken.
      const isLost = old.isLost || anew.isLost;
      // Those of another day are no help there.
      if (isLost && day === 'another') return [];
      const asTheyStand = apartArcmin(old.windowsDeg, anew.windowsDeg);
      const apart = asTheyStand - (calibration.carried?.arcmin ?? 0);
      // What is no further off than repeats are is scatter.
      if (isLost && Math.abs(apart) <= tolerance) return [];
      const variance = old.variance + anew.variance;
      const again = agreementLog(apart, variance + carriedVariance, bench, day);
      // Of a bench that was put back the two agree as they stand.
      const putBack =
        (calibration.carried?.arcmin ?? 0) === 0
          ? []
          : [Math.log(PUT_BACK) + logNormalDensity(asTheyStand, variance)];
      const agreement = isLost ? 0 : day === 'another' ? again : logSum([again, ...putBack]);
      const anewArcmin = anew.correctionArcmin - (isLost ? apart : 0);
      const misread = [...old.misread, ...anew.misread];
      const shiftArcmin = tube.side * anewArcmin - calibration.side * old.correctionArcmin;
      return {
        log: old.log + anew.log + agreement,
        shiftArcmin: misread.length === 0 ? 0 : shiftArcmin,
        misread,
        apartArcmin: isLost ? 0 : apart,
      };
    }),
  );
  if (told.length === 0) return [];
  const probabilities = normalised(told.map(({ log }) => log));
  return likeliest(
    told.map(({ misread, shiftArcmin, apartArcmin: left }, i): CentralHypothesis => {
      const probability = probabilities[i]!;
      return { shiftArcmin, probability, alternatives: [{ misread, probability }], apartArcmin: left };
    }),
  );
}

/** ln density of the difference of two directions that are the same unless something was moved. */
function agreementLog(apart: number, variance: number, bench: Bench, day: CentralLists['day']): number {
  if (day === 'another') return -Math.log(FULL_CIRCLE_ARCMIN);
  // A circle: no length of a spectrum is asked for.
  const { still, moved } = moveLogs(apart, variance, moveSize(bench, 0));
  return logSum([still, moved]);
}

const byProbability = (a: { probability: number }, b: { probability: number }): number =>
  b.probability - a.probability;

/** Hypotheses of one shift are one, whichever readings are misread for it. */
function likeliest(hypotheses: readonly CentralHypothesis[]): readonly CentralHypothesis[] {
  const grouped: CentralHypothesis[] = [];
  for (const hypothesis of [...hypotheses].sort(byProbability)) {
    const same = grouped.findIndex(
      (one) => Math.abs(one.shiftArcmin - hypothesis.shiftArcmin) < ALIKE_SHIFTS_ARCMIN,
    );
    const known = grouped[same];
    if (known)
      grouped[same] = {
        ...known,
        probability: known.probability + hypothesis.probability,
        alternatives: [...known.alternatives, ...hypothesis.alternatives],
      };
    else grouped.push(hypothesis);
  }
  const kept = grouped.sort(byProbability).filter((hypothesis, rank) => {
    if (rank === 0) return true;
    return isWritten(hypothesis)
      ? hypothesis.probability > IMPOSSIBLE_AS_WRITTEN
      : rank <= MISREAD_SHIFTS.most && hypothesis.probability > MISREAD_SHIFTS.negligible;
  });
  const total = sumOf(kept, ({ probability }) => probability);
  return kept.map((hypothesis) => ({
    ...hypothesis,
    probability: hypothesis.probability / total,
    alternatives: [...hypothesis.alternatives].sort(byProbability),
  }));
}

/** Is the likeliest alternative that none of them is misread? */
export const isWritten = ({ alternatives }: CentralHypothesis): boolean =>
  alternatives[0]!.misread.length === 0;
