/**
 * What the readings of the central image may have been. The calibration rests on its own, a tube perhaps on others:
 * an error of either shifts all readings of the tube against the curve, and nothing else betrays it.
 */

import { repeatToleranceArcmin } from '../angle/least-count.ts';
import { logSum, normalised } from '../numeric/log-sum.ts';
import { logNormalDensity } from '../numeric/normal.ts';
import type { Bench, Setting } from '../record/bench.ts';
import {
  ALIKE_SHIFTS_ARCMIN,
  BETWEEN_CENTRALS,
  IMPOSSIBLE_AS_WRITTEN,
  MISREAD_SHIFTS,
} from './assumptions.ts';
import { apartArcmin } from './central-image.ts';
import { type CentralKnowledge, type MisreadCentral, versionsOf } from './central-list.ts';

/** One way to say which readings are misread. */
export interface Telling {
  readonly misread: readonly MisreadCentral[];
  readonly probability: number;
}

export interface CentralStory {
  /** What it adds to every ordinate of the tube as against the curve, arc-minutes; 0 where all of them are right. */
  readonly shiftArcmin: number;
  readonly probability: number;
  /** How the story may be told, likeliest first; of one reading each, either may be wrong. */
  readonly tellings: readonly Telling[];
  /** By how much the two directions still differ, arc-minutes: has the bench been moved? */
  readonly apartArcmin: number;
}

/** The readings of both lists, and on which side of the central image (+1 or -1) their lines lie. */
export interface CentralLists {
  readonly calibration: { readonly settings: readonly Setting[]; readonly side: number };
  readonly tube: { readonly settings: readonly Setting[]; readonly side: number };
  /** Were both read on one day? */
  readonly day: 'same' | 'another';
}

/** From one day to the next the circle may be anywhere. */
const FULL_CIRCLE_ARCMIN = 21_600;

/** Stories of a tube's own central readings beside the calibration's, likeliest first; probabilities sum to 1. */
export function centralStories(
  bench: Bench,
  { calibration, tube, day }: CentralLists,
  knowledge: CentralKnowledge,
): readonly CentralStory[] {
  const before = versionsOf(bench, calibration.settings, 'calibration', knowledge);
  const after = versionsOf(bench, tube.settings, 'tube', knowledge);
  const tolerance = repeatToleranceArcmin(bench.leastCount);
  const told = before.flatMap((old) =>
    after.flatMap((anew) => {
      // Readings that are all wrong for no known reason may stand for any direction: that of the others is taken.
      const isLost = old.isLost || anew.isLost;
      // Those of another day are no help there.
      if (isLost && day === 'another') return [];
      const apart = apartArcmin(old.windowsDeg, anew.windowsDeg);
      // What is no further off than repeats are is scatter.
      if (isLost && Math.abs(apart) <= tolerance) return [];
      const agreement = isLost ? 0 : agreementLog(apart, old.variance + anew.variance, day);
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
    told.map(({ misread, shiftArcmin, apartArcmin: left }, i): CentralStory => {
      const probability = probabilities[i]!;
      return { shiftArcmin, probability, tellings: [{ misread, probability }], apartArcmin: left };
    }),
  );
}

/** ln density of the difference of two directions that are the same unless something was moved. */
function agreementLog(apart: number, variance: number, day: CentralLists['day']): number {
  if (day === 'another') return -Math.log(FULL_CIRCLE_ARCMIN);
  const { moved, sdArcmin, turned, widthArcmin } = BETWEEN_CENTRALS;
  return logSum([
    Math.log(1 - moved - turned) + logNormalDensity(apart, variance),
    Math.log(moved) + logNormalDensity(apart, variance + sdArcmin ** 2),
    Math.log(turned / widthArcmin),
  ]);
}

/**
 * Probability that something was moved between two readings of the same thing that differ by `apart` (arc-minutes, or
 * scale units) with this variance: the same mixture, without the part in which nothing was.
 */
export function movedProbability(bench: Bench, apart: number, variance: number): number {
  const { moved, sdArcmin, turned, widthArcmin } = BETWEEN_CENTRALS;
  // On a scale a bench is moved by as many counts as minutes on the usual circle of 1'.
  const size = bench.method === 'scale' ? bench.leastCount : 1;
  const still = Math.log(1 - moved - turned) + logNormalDensity(apart, variance);
  const isMoved = [
    Math.log(moved) + logNormalDensity(apart, variance + (size * sdArcmin) ** 2),
    Math.log(turned / (size * widthArcmin)),
  ];
  return 1 - Math.exp(still - logSum([still, ...isMoved]));
}

const byProbability = (a: { probability: number }, b: { probability: number }): number =>
  b.probability - a.probability;

/** Stories of one shift are one, however they are told. */
function likeliest(stories: readonly CentralStory[]): readonly CentralStory[] {
  const grouped: CentralStory[] = [];
  for (const story of [...stories].sort(byProbability)) {
    const same = grouped.findIndex(
      (one) => Math.abs(one.shiftArcmin - story.shiftArcmin) < ALIKE_SHIFTS_ARCMIN,
    );
    const known = grouped[same];
    if (known)
      grouped[same] = {
        ...known,
        probability: known.probability + story.probability,
        tellings: [...known.tellings, ...story.tellings],
      };
    else grouped.push(story);
  }
  const kept = grouped.sort(byProbability).filter((story, rank) => {
    if (rank === 0) return true;
    return isWritten(story)
      ? story.probability > IMPOSSIBLE_AS_WRITTEN
      : rank <= MISREAD_SHIFTS.most && story.probability > MISREAD_SHIFTS.negligible;
  });
  const total = kept.reduce((sum, { probability }) => sum + probability, 0);
  return kept.map((story) => ({
    ...story,
    probability: story.probability / total,
    tellings: [...story.tellings].sort(byProbability),
  }));
}

/** Is the likeliest telling that none of them is misread? */
export const isWritten = ({ tellings }: CentralStory): boolean => tellings[0]!.misread.length === 0;
