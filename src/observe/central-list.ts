/** What the readings of the central image in one list may have been, which direction they then mean, and whether they agree. */
import { repeatToleranceArcmin } from '../angle/least-count.ts';
import { wrapDegrees } from '../angle/wrap.ts';
import { logAdd, logSum } from '../numeric/log-sum.ts';
import { logNormalDensity } from '../numeric/normal.ts';
import { mean, sumOf } from '../numeric/sum.ts';
import type { Bench, Setting } from '../record/bench.ts';
import * as assumed from './assumptions.ts';
import { type BenchConstants, windowDifference } from './bench-constants.ts';
import { agreeingCentrals, type CentralImage, centralImage } from './central-image.ts';
import { stepOf } from './reading-step.ts';
import { resolutionVariance } from './reading-variance.ts';
import { usualScatter } from './setting-scatter.ts';
import { possibleSlips, type SlipCause } from './slips.ts';

/** A reading of the central image that is taken for misread. */
export interface MisreadCentral {
  readonly readBy: 'calibration' | 'tube';
  /** The reading as written, degrees. */
  readonly readingDeg: number;
  /** The reading as it should be, degrees, and what happened; null where no usual slip explains it. */
  readonly corrected: { readonly readingDeg: number; readonly cause: SlipCause } | null;
}

export interface CentralKnowledge {
  readonly constants: BenchConstants;
  /** Of one setting, arcmin². */
  readonly settingVariance: number;
}

/** One way to understand one list of central readings. */
export interface Version {
  /** ln of its chance, with the density of the readings about their common direction. */
  readonly log: number;
  /** Of each window. */
  readonly windowsDeg: readonly number[];
  /** Added to the mean as it was taken. */
  readonly correctionArcmin: number;
  readonly variance: number;
  readonly misread: readonly MisreadCentral[];
  /** Not one of the readings says where the image is. */
  readonly isLost: boolean;
}

/** What one setting may have been: as read, with a slip corrected, or (null) nobody knows what. */
interface Meant {
  /** From the mean as it was taken. */
  readonly offArcmin: number | null;
  /** ln of its chance, with what two windows say of each other. */
  readonly logChance: number;
  readonly misread: MisreadCentral | null;
}

/** As the mean was taken, and for each direction that any reading may stand for, all of them as they fit it best. */
export function versionsOf(
  bench: Bench,
  settings: readonly Setting[],
  readBy: MisreadCentral['readBy'],
  knowledge: CentralKnowledge,
): Version[] {
  const found = understandings(bench, settings, readBy, knowledge);
  if (found === null) return [];
  const versions = found.others
    .map(found.versionOf)
    .filter(({ misread }) => misread.length > 0)
    .sort((a, b) => b.log - a.log);
  return [found.versionOf(found.taken), ...versions.slice(0, assumed.MOST_VERSIONS)];
}

/** Probability that at least one reading of a list is misread, in it or left out of the mean; 0 without readings. */
export function chanceOfMisread(
  bench: Bench,
  settings: readonly Setting[],
  knowledge: CentralKnowledge,
): number {
  const found = understandings(bench, settings, 'calibration', knowledge);
  if (found === null) return 0;
  const { asRead, taken, others } = found;
  const logOf = (all: readonly Understood[]): number => found.versionOf(all).log;
  const different = [taken, ...others].filter((all) => all.some(({ misread }) => misread !== null));
  const sound = logOf(asRead);
  return 1 - Math.exp(sound - logSum([sound, ...different.map(logOf)]));
}

interface Understandings {
  versionOf(all: readonly Understood[]): Version;
  /** Every reading as it stands. */
  readonly asRead: readonly Understood[];
  /** Those in the mean as they stand, the others as they fit it best. */
  readonly taken: readonly Understood[];
  readonly others: readonly (readonly Understood[])[];
}

function understandings(
  bench: Bench,
  settings: readonly Setting[],
  readBy: MisreadCentral['readBy'],
  knowledge: CentralKnowledge,
): Understandings | null {
  const image = centralImage(bench, settings);
  if (!image) return null;
  const meanDeg = image.windowsDeg;
  const spread = spreadOf(image, knowledge);
  const kept = new Set(agreeingCentrals(bench, settings));
  const takes = settings.flatMap((setting): Take[] =>
    setting.kind === 'one-side'
      ? [{ isKept: kept.has(setting), meant: meantBy(bench, setting, meanDeg, readBy, knowledge) }]
      : [],
  );
  const asRead = takes.map(({ isKept, meant }): Understood => ({ isKept, ...meant[0]! }));
  const understoodAt = (direction: number): Understood[] =>
    takes.map(({ isKept, meant }) => {
      const logOf = (one: Meant): number => fitLog(one, direction, spread);
      return { isKept, ...meant.reduce((best, one) => (logOf(one) > logOf(best) ? one : best)) };
    });
  const taken = understoodAt(0).map((one, i): Understood => (one.isKept ? asRead[i]! : one));
  const known = { versionOf: (all: readonly Understood[]) => versionOf(all, meanDeg, spread), asRead, taken };
  if (takes.length > assumed.MOST_CENTRALS) return { ...known, others: [] };
  const each = takes.flatMap(({ meant }) => meant.flatMap(({ offArcmin }) => offArcmin ?? []));
  const understood = oneOfEach(each, Math.sqrt(spread.variance)).map(understoodAt);
  const lost = takes.map(
    ({ isKept, meant }): Understood => ({ isKept, ...meant.find(({ offArcmin }) => offArcmin === null)! }),
  );
  const oneLost = taken.map((_, i) => taken.with(i, lost[i]!));
  const others = [...new Map([...understood, ...oneLost, lost].map((all) => [nameOf(all), all])).values()];
  return { ...known, others };
}

/** One setting with all that it may have been, the first as read; `isKept`: it is part of the mean. */
interface Take {
  readonly isKept: boolean;
  readonly meant: readonly Meant[];
}

interface Understood extends Meant {
  readonly isKept: boolean;
}

const nameOf = (all: readonly Meant[]): string =>
  all.map(({ misread }) => (misread ? `${misread.readingDeg}>${misread.corrected?.readingDeg}` : '')).join();

/** Of directions that lie in one step only one. */
function oneOfEach(directions: readonly number[], step: number): number[] {
  return [...new Map(directions.map((direction) => [Math.round(direction / step), direction])).values()];
}

function meantBy(
  bench: Bench,
  setting: Extract<Setting, { kind: 'one-side' }>,
  meanDeg: readonly number[],
  readBy: MisreadCentral['readBy'],
  { constants }: CentralKnowledge,
): Meant[] {
  const { windows } = setting;
  const step = stepOf(bench, [setting]);
  const offs = windows.map((reading, window) => 60 * wrapDegrees(reading - meanDeg[window]!));
  const off = mean(offs);
  const difference = windowDifference(windows);
  const usual = constants.windowDifferenceArcmin;
  const windowsAgree = (changed: number): number =>
    difference === null || usual === null
      ? 0
      : logNormalDensity(difference + changed - usual, 4 * resolutionVariance(step));
  const slips = windows.flatMap((readingDeg, window) =>
    possibleSlips(bench, readingDeg, step).map(({ cause, correction, chance }): Meant => {
      const corrected = { readingDeg: readingDeg + correction / 60, cause };
      return {
        offArcmin: off + correction / windows.length,
        logChance: Math.log(chance) + windowsAgree(window === 0 ? -correction : correction),
        misread: { readBy, readingDeg, corrected },
      };
    }),
  );
  const unnamed = {
    offArcmin: null,
    logChance: Math.log(assumed.UNNAMED_CENTRAL_FAULT.chance / assumed.UNNAMED_CENTRAL_FAULT.widthArcmin),
    misread: { readBy, readingDeg: windows[0]!, corrected: null },
  };
  return [{ offArcmin: off, logChance: windowsAgree(0), misread: null }, ...slips, unnamed];
}

/** How readings of one direction scatter: as settings do, and now and then as far as repeats lie apart at the most. */
interface Spread {
  readonly variance: number;
  readonly wideVariance: number;
}

function spreadOf({ windowsDeg, step }: CentralImage, { settingVariance }: CentralKnowledge): Spread {
  const variance = (settingVariance + resolutionVariance(step)) / windowsDeg.length;
  return { variance, wideVariance: variance + (repeatToleranceArcmin(step) / 2) ** 2 };
}

/** ln densities of a reading that lies so far off: if it scatters as settings do, and widely. */
function scatterLogs(off: number, { variance, wideVariance }: Spread): readonly [number, number] {
  return [
    Math.log(1 - assumed.WIDE_SCATTER_CHANCE) + logNormalDensity(off, variance),
    Math.log(assumed.WIDE_SCATTER_CHANCE) + logNormalDensity(off, wideVariance),
  ];
}

const scatterLog = (off: number, spread: Spread): number => logAdd(...scatterLogs(off, spread));

/** Variance of a reading that lies so far off, averaged over whether it scatters as settings do or widely. */
function varianceOf(off: number, spread: Spread): number {
  const [narrow, wide] = scatterLogs(off, spread);
  const isWide = 1 / (1 + Math.exp(narrow - wide));
  return (1 - isWide) * spread.variance + isWide * spread.wideVariance;
}

function fitLog({ offArcmin, logChance }: Meant, direction: number, spread: Spread): number {
  return logChance + (offArcmin === null ? 0 : scatterLog(offArcmin - direction, spread));
}

function versionOf(all: readonly Understood[], meanDeg: readonly number[], spread: Spread): Version {
  const offs = all.flatMap(({ offArcmin }) => offArcmin ?? []);
  const count = Math.max(1, offs.length);
  const middle = offs.length === 0 ? 0 : mean(offs);
  const variance = sumOf(offs, (off) => varianceOf(off - middle, spread)) / count ** 2 || spread.variance;
  const chance = sumOf(all, ({ logChance }) => logChance);
  const scatter = sumOf(offs, (off) => scatterLog(off - middle, spread));
  // The direction is unknown: averaged over with an even density.
  const averaged = offs.length === 0 ? 0 : 0.5 * Math.log(2 * Math.PI * variance);
  return {
    log: chance + scatter + averaged,
    windowsDeg: meanDeg.map((direction) => direction + middle / 60),
    correctionArcmin: middle,
    variance,
    // What is no part of the mean is said elsewhere.
    misread: all.flatMap(({ isKept, misread }) => (isKept && misread ? [misread] : [])),
    isLost: offs.length === 0,
  };
}

/** What a list of readings that lie apart says by itself of the one that is misread; null where it does not tell. */
export function misreadOfOneList(
  bench: Bench,
  settings: readonly Setting[],
  knowledge: CentralKnowledge,
): MisreadCentral | null {
  const apart = settings.filter((setting) => !agreeingCentrals(bench, settings).includes(setting));
  const [setting, ...more] = apart;
  const image = centralImage(bench, settings);
  if (!image || setting?.kind !== 'one-side' || more.length > 0) return null;
  const spread = spreadOf(image, knowledge);
  const meant = meantBy(bench, setting, image.windowsDeg, 'calibration', knowledge).filter(
    ({ misread }) => misread !== null,
  );
  const logOf = (one: Meant): number => fitLog(one, 0, spread);
  const { misread } = meant.reduce((best, one) => (logOf(one) > logOf(best) ? one : best));
  // Of two windows nothing says which, where no usual slip does.
  return misread!.corrected === null && setting.windows.length > 1 ? null : misread;
}

export interface CentralApart {
  readonly settings: readonly Setting[];
  /** Largest difference, arc-minutes. */
  readonly spreadArcmin: number;
  /** That at least one of them is misread. */
  readonly probability: number;
  /** The one that is, where the list tells. */
  readonly misread: MisreadCentral | null;
  /** Those that are no part of the mean. */
  readonly leftOut: readonly Setting[];
}

/** Null where the readings agree as repeats do. */
export function centralApart(
  bench: Bench,
  settings: readonly Setting[],
  knowledge: CentralKnowledge,
): CentralApart | null {
  const agreeing = agreeingCentrals(bench, settings);
  const leftOut = settings.filter((setting) => !agreeing.includes(setting));
  const spreadArcmin = largestDifference(settings);
  const step = stepOf(bench, settings);
  // Be the lines set ever so finely: the image of the slit is set as hands usually set.
  const settingVariance = Math.max(knowledge.settingVariance, usualScatter(bench) ** 2);
  const u = Math.sqrt(2 * (resolutionVariance(step) + settingVariance));
  const isApart = spreadArcmin >= assumed.NOTICED * u;
  if (!isApart && leftOut.length === 0) return null;
  return {
    settings,
    spreadArcmin,
    probability: chanceOfMisread(bench, settings, knowledge),
    misread: misreadOfOneList(bench, settings, knowledge),
    leftOut,
  };
}

function largestDifference(settings: readonly Setting[]): number {
  const [first, ...others] = settings.flatMap((setting) =>
    setting.kind === 'one-side' ? [setting.windows] : [],
  );
  if (first === undefined) return 0;
  const spreads = first.map((origin, window) => {
    const offs = others.map((windows) => 60 * wrapDegrees((windows[window] ?? origin) - origin));
    return Math.max(0, ...offs) - Math.min(0, ...offs);
  });
  return Math.max(...spreads);
}
