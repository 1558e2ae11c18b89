/** For each line: what its reading may have been, if one raw reading behind it was misread. */

import { wrapDegrees } from '../angle/wrap.ts';
import { logAdd } from '../numeric/log-sum.ts';
import { mean } from '../numeric/mean.ts';
import { logNormalDensity } from '../numeric/normal.ts';
import { sumOf } from '../numeric/sum.ts';
import type { Bench, Setting } from '../record/bench.ts';
import { DISAGREEMENT_ODDS, LOWEST_LOG_ODDS, UNNAMED_FAULT } from './assumptions.ts';
import { type BenchConstants, midpointDeg, sidesOf, windowDifference } from './bench-constants.ts';
import type { Observation, ReadingPart } from './observation.ts';
import { roundingVariance } from './reading-variance.ts';
import { possibleSlips, type SlipCause } from './slips.ts';

export interface ReadingAlternative {
  readonly cause: SlipCause;
  readonly part: ReadingPart;
  /** Add to the raw reading: arc-minutes or scale units. */
  readonly readingCorrection: number;
  /** Add to the ordinate. */
  readonly correction: number;
  /** ln of (chance of this slip) / (chance of none), with what repeats, sides and windows say. */
  readonly logOdds: number;
}

/** `settingVariance`: of one setting of the cross-hairs, in the ordinate's unit squared. */
export function readingAlternatives(
  bench: Bench,
  settings: readonly Setting[],
  observation: Observation,
  constants: BenchConstants,
  settingVariance: number,
): ReadingAlternative[] {
  const asRead = consistency(bench, settings, observation, constants, settingVariance, null);
  const alternatives: ReadingAlternative[] = [];
  for (const part of observation.parts) {
    for (const slip of possibleSlips(bench, part.reading)) {
      const corrected = { part, correction: slip.correction };
      const gain = consistency(bench, settings, observation, constants, settingVariance, corrected) - asRead;
      const logOdds = Math.log(slip.chance) + gain;
      if (logOdds < LOWEST_LOG_ODDS) continue;
      alternatives.push({
        cause: slip.cause,
        part,
        readingCorrection: slip.correction,
        correction: slip.correction * part.weight,
        logOdds,
      });
    }
  }
  return [...alternatives, ...ofOneSide(bench, settings, observation, constants, settingVariance)];
}

/**
 * Two sides whose middle is not that of the other lines: one of the two readings is wrong by any amount, or neither is
 * and the middle moved for once; all three alike.
 */
function ofOneSide(
  bench: Bench,
  settings: readonly Setting[],
  { parts }: Observation,
  constants: BenchConstants,
  settingVariance: number,
): ReadingAlternative[] {
  if (constants.midpointDeg === null) return [];
  return settings.flatMap((setting, repeat) => {
    if (setting.kind !== 'both-sides') return [];
    const off = 60 * wrapDegrees(midpointDeg(setting) - constants.midpointDeg!);
    const variance = midpointVariance(bench, constants, settingVariance);
    const logOdds =
      Math.log(UNNAMED_FAULT.chance / UNNAMED_FAULT.widthArcmin) - tolerantDensity(off, variance);
    if (logOdds < Math.log(DISAGREEMENT_ODDS)) return [];
    return parts
      .filter((part) => part.repeat === repeat && part.window === 0)
      .map((part) => ({
        cause: { kind: 'one-side' as const },
        part,
        readingCorrection: -2 * off,
        correction: -2 * off * part.weight,
        logOdds,
      }));
  });
}

/** Of the middle between the two sides of a line about that of all lines, arc-minutes². */
function midpointVariance(
  { leastCount }: Bench,
  { midpointSpreadArcmin }: BenchConstants,
  settingVariance: number,
): number {
  const single = roundingVariance(leastCount);
  return Math.max(settingVariance / 2 + single, midpointSpreadArcmin ** 2);
}

interface Corrected {
  readonly part: ReadingPart;
  readonly correction: number;
}

/** ln likelihood of the differences among the raw readings of one line, with one of them corrected. */
function consistency(
  bench: Bench,
  settings: readonly Setting[],
  observation: Observation,
  constants: BenchConstants,
  settingVariance: number,
  corrected: Corrected | null,
): number {
  // The next tick, and all that is further off, is in the wide part of the density.
  const single = roundingVariance(bench.leastCount);
  const scatter = settingVariance + single;
  const shift = (part: { repeat: number; side: 'left' | 'right' | null; window: number }): number =>
    corrected &&
    corrected.part.repeat === part.repeat &&
    corrected.part.side === part.side &&
    corrected.part.window === part.window
      ? corrected.correction
      : 0;
  let log = repeatsLikelihood(observation, corrected, scatter);
  settings.forEach((setting, repeat) => {
    if (setting.kind === 'both-sides' && constants.midpointDeg !== null) {
      const off = 60 * wrapDegrees(midpointDeg(setting) - constants.midpointDeg);
      const change =
        (shift({ repeat, side: 'left', window: 0 }) + shift({ repeat, side: 'right', window: 0 })) / 2;
      log += tolerantDensity(off + change, midpointVariance(bench, constants, settingVariance));
    }
    sidesOf(setting).forEach((windows, index) => {
      const difference = windowDifference(windows);
      if (difference === null || constants.windowDifferenceArcmin === null) return;
      const side = setting.kind === 'both-sides' ? (index === 0 ? 'left' : 'right') : null;
      const change = shift({ repeat, side, window: 1 }) - shift({ repeat, side, window: 0 });
      log += tolerantDensity(difference + change - constants.windowDifferenceArcmin, 4 * single);
    });
  });
  return log;
}

function repeatsLikelihood(observation: Observation, corrected: Corrected | null, scatter: number): number {
  const count = observation.repeats.length;
  if (count < 2) return 0;
  const values = observation.repeats.map((value, repeat) =>
    corrected?.part.repeat === repeat ? value + corrected.correction * corrected.part.weight * count : value,
  );
  const middle = mean(values);
  // n values about their mean: n - 1 free differences, here taken one by one.
  return sumOf(values, (value) => ((count - 1) / count) * tolerantDensity(value - middle, scatter));
}

function tolerantDensity(off: number, variance: number): number {
  return logAdd(
    Math.log(1 - UNNAMED_FAULT.chance) + logNormalDensity(off, variance),
    Math.log(UNNAMED_FAULT.chance / UNNAMED_FAULT.widthArcmin),
  );
}
