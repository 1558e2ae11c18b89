/** For each line: what its reading may have been, if one raw reading behind it was misread. */
import { wrapDegrees } from '../angle/wrap.ts';
import { logAdd } from '../numeric/log-sum.ts';
import { logNormalDensity } from '../numeric/normal.ts';
import { mean, sumOf } from '../numeric/sum.ts';
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
  const line = { settings, observation, constants, settingVariance };
  const asRead = consistency(line, null);
  const alternatives = observation.parts.flatMap((part) =>
    possibleSlips(bench, part.reading, observation.step).flatMap(({ cause, correction, chance }) => {
      const logOdds = Math.log(chance) + consistency(line, { part, correction }) - asRead;
      return logOdds < LOWEST_LOG_ODDS ? [] : [alternative(cause, part, correction, logOdds)];
    }),
  );
  return [...alternatives, ...ofOneSide(line)];
}

/** One line with all that bears on how it was read. */
interface LineOnBench {
  readonly settings: readonly Setting[];
  readonly observation: Observation;
  readonly constants: BenchConstants;
  readonly settingVariance: number;
}

function alternative(
  cause: SlipCause,
  part: ReadingPart,
  readingCorrection: number,
  logOdds: number,
): ReadingAlternative {
  return { cause, part, readingCorrection, correction: readingCorrection * part.weight, logOdds };
}

/**
 * Two sides whose middle is not that of the other lines: one of the two readings is wrong by any amount, or neither is
 * and the middle moved for once; all three alike.
 */
function ofOneSide(line: LineOnBench): ReadingAlternative[] {
  return line.settings.flatMap((setting, repeat) => {
    const off = offMidpoint(setting, line.constants);
    if (off === null) return [];
    const logOdds =
      Math.log(UNNAMED_FAULT.chance / UNNAMED_FAULT.widthArcmin) -
      tolerantDensity(off, midpointVariance(line));
    if (logOdds < Math.log(DISAGREEMENT_ODDS)) return [];
    return line.observation.parts
      .filter((part) => part.repeat === repeat && part.window === 0)
      .map((part) => alternative({ kind: 'one-side' }, part, -2 * off, logOdds));
  });
}

/** By how much the middle between its two sides is off that of all lines, arc-minutes; null where there is no such middle. */
function offMidpoint(setting: Setting, constants: BenchConstants): number | null {
  if (setting.kind !== 'both-sides' || constants.midpointDeg === null) return null;
  return 60 * wrapDegrees(midpointDeg(setting) - constants.midpointDeg);
}

/** Of the middle between the two sides of a line about that of all lines, arc-minutes². */
function midpointVariance({ observation, constants, settingVariance }: LineOnBench): number {
  const single = roundingVariance(observation.step);
  return Math.max(settingVariance / 2 + single, constants.midpointSpreadArcmin ** 2);
}

interface Corrected {
  readonly part: ReadingPart;
  readonly correction: number;
}

/** ln likelihood of the differences among the raw readings of one line, with one of them corrected. */
function consistency(line: LineOnBench, corrected: Corrected | null): number {
  const { settings, observation, constants, settingVariance } = line;
  // The next tick, and all that is further off, is in the wide part of the density.
  const single = roundingVariance(observation.step);
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
    const off = offMidpoint(setting, constants);
    if (off !== null) {
      const change =
        (shift({ repeat, side: 'left', window: 0 }) + shift({ repeat, side: 'right', window: 0 })) / 2;
      log += tolerantDensity(off + change, midpointVariance(line));
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
