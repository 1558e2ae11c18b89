/**
 * What the readings of the central image may have been. The calibration rests on its own, a tube perhaps on others:
 * an error of either shifts all readings of the tube against the curve, and nothing else betrays it.
 */
import { wrapDegrees } from '../angle/wrap.ts';
import { logSum, normalised } from '../numeric/log-sum.ts';
import { logNormalDensity } from '../numeric/normal.ts';
import type { Bench, Setting } from '../record/bench.ts';
import { centralImage, resolutionVariance } from './observation.ts';
import { possibleSlips } from './slips.ts';

/** A reading of the central image that is taken for misread. */
export interface MisreadCentral {
  readonly readBy: 'calibration' | 'tube';
  /** The reading as written, degrees. */
  readonly readingDeg: number;
  /** The reading as it should be, degrees, and what happened; null where no usual slip explains it. */
  readonly mended: { readonly readingDeg: number; readonly words: string } | null;
}

export interface CentralStory {
  /** Add to the direction of the tube's central image, as against the calibration's: arc-minutes on the circle. */
  readonly shiftArcmin: number;
  readonly probability: number;
  /** Empty: all of them are right, whether the bench was moved or not. */
  readonly misread: readonly MisreadCentral[];
}

/** A reading that is wrong for no reason that has a name: how often, and over how many arc-minutes. */
const UNNAMED = { chance: 0.004, widthArcmin: 240 };
/** A central image is read anew because something may have moved: how often it has, and by how much. */
const MOVED = { chance: 0.04, sdArcmin: 12, turned: { chance: 0.01, widthArcmin: 600 } };
const ALIKE_ARCMIN = 0.5;
const MOST_MISREAD = 3;
/** Of one list, beside that as written. */
const MOST_VERSIONS = 16;
const NEGLIGIBLE = 0.02;
/** As written a story is kept down to here: the readings of the tube may know better that the bench was moved. */
const IMPOSSIBLE = 1e-9;

const WRITTEN: readonly CentralStory[] = [{ shiftArcmin: 0, probability: 1, misread: [] }];

/**
 * Stories of a tube's own central readings beside the calibration's, likeliest first; probabilities sum to 1.
 * `settingVariance`: of one setting, arcmin²; `day`: were both read on one day?
 */
export function centralStories(
  bench: Bench,
  settingVariance: number,
  tubeCentral: readonly Setting[] | null,
  day: 'same' | 'another',
): readonly CentralStory[] {
  if (bench.method !== 'central' || tubeCentral === null) return WRITTEN;
  const before = versionsOf(bench, bench.central, 'calibration', settingVariance);
  const after = versionsOf(bench, tubeCentral, 'tube', settingVariance);
  if (before.length === 0 || after.length === 0) return WRITTEN;
  const told = before.flatMap((old) =>
    after.map((anew) => {
      const apart = 60 * wrapDegrees(anew.directionDeg - old.directionDeg);
      // Readings that are all wrong for no known reason may stand for any direction: that of the others is taken.
      const isLost = old.isLost || anew.isLost;
      const agreement =
        day === 'another' ? 0 : agreementLog(isLost ? 0 : apart, old.variance + anew.variance);
      return {
        log: old.log + anew.log + (isLost ? 0 : agreement),
        shiftArcmin: anew.correctionArcmin - old.correctionArcmin - (isLost ? apart : 0),
        misread: [...old.misread, ...anew.misread],
      };
    }),
  );
  const probabilities = normalised(told.map(({ log }) => log));
  return likeliest(
    told.map(({ shiftArcmin, misread }, i) => ({ shiftArcmin, misread, probability: probabilities[i]! })),
  );
}

/** One way to understand one list of central readings. */
interface Version {
  /** ln of its chance, with the density of the readings about their common direction. */
  readonly log: number;
  readonly directionDeg: number;
  /** Added to the mean as written. */
  readonly correctionArcmin: number;
  readonly variance: number;
  readonly misread: readonly MisreadCentral[];
  /** Not one of the readings says where the image is. */
  readonly isLost: boolean;
}

/** What one setting may have been: as read, with a slip mended, or (null) nobody knows what. */
interface Meant {
  readonly offArcmin: number | null;
  readonly logChance: number;
  readonly misread: MisreadCentral | null;
}

/** As written, and for each direction that any reading may stand for, all of them as they fit it best. */
function versionsOf(
  bench: Bench,
  settings: readonly Setting[],
  readBy: MisreadCentral['readBy'],
  settingVariance: number,
): Version[] {
  const image = centralImage(bench, settings);
  if (!image) return [];
  const variance = (settingVariance + resolutionVariance(bench.leastCount)) / image.windowsDeg.length;
  const takes = settings.flatMap((setting) =>
    setting.kind === 'one-side' ? [meantBy(bench, setting.windows, image.windowsDeg, readBy)] : [],
  );
  const each = takes.flatMap((meant) => meant.flatMap(({ offArcmin }) => offArcmin ?? []));
  const understood = apart(each, Math.sqrt(variance)).map((direction) =>
    takes.map((meant) =>
      meant.reduce((best, one) =>
        fitLog(one, direction, variance) > fitLog(best, direction, variance) ? one : best,
      ),
    ),
  );
  const written = takes.map((meant) => meant[0]!);
  const lost = takes.map((meant) => meant.find(({ offArcmin }) => offArcmin === null)!);
  const different = new Map(
    [written, ...understood, lost].map((all) => [
      all.map(({ offArcmin }) => offArcmin?.toFixed(3)).join(),
      all,
    ]),
  );
  const [asWritten, ...others] = [...different.values()].map((all) =>
    versionOf(all, image.windowsDeg[0]!, variance),
  );
  return [asWritten!, ...others.sort((a, b) => b.log - a.log).slice(0, MOST_VERSIONS)];
}

/** Directions that differ by less than this are one. */
function apart(directions: readonly number[], least: number): number[] {
  return [...new Map(directions.map((direction) => [Math.round(direction / least), direction])).values()];
}

function meantBy(
  bench: Bench,
  windows: readonly number[],
  meanDeg: readonly number[],
  readBy: MisreadCentral['readBy'],
): Meant[] {
  const offs = windows.map((reading, window) => 60 * wrapDegrees(reading - meanDeg[window]!));
  const off = offs.reduce((sum, each) => sum + each, 0) / offs.length;
  const slips = windows.flatMap((readingDeg) =>
    possibleSlips(bench, readingDeg).map(({ words, correction, chance }): Meant => {
      const mended = { readingDeg: readingDeg + correction / 60, words };
      return {
        offArcmin: off + correction / windows.length,
        logChance: Math.log(chance),
        misread: { readBy, readingDeg, mended },
      };
    }),
  );
  const unnamed = {
    offArcmin: null,
    logChance: Math.log(UNNAMED.chance / UNNAMED.widthArcmin),
    misread: { readBy, readingDeg: windows[0]!, mended: null },
  };
  return [{ offArcmin: off, logChance: 0, misread: null }, ...slips, unnamed];
}

function fitLog({ offArcmin, logChance }: Meant, direction: number, variance: number): number {
  return logChance + (offArcmin === null ? 0 : logNormalDensity(offArcmin - direction, variance));
}

function versionOf(all: readonly Meant[], originDeg: number, variance: number): Version {
  const offs = all.flatMap(({ offArcmin }) => offArcmin ?? []);
  const count = Math.max(1, offs.length);
  const mean = offs.reduce((sum, off) => sum + off, 0) / count;
  const chance = all.reduce((sum, { logChance }) => sum + logChance, 0);
  const scatter = offs.reduce((sum, off) => sum + logNormalDensity(off - mean, variance), 0);
  // The direction is unknown: averaged over with an even density.
  const averaged = offs.length === 0 ? 0 : 0.5 * Math.log((2 * Math.PI * variance) / count);
  return {
    log: chance + scatter + averaged,
    directionDeg: originDeg + mean / 60,
    correctionArcmin: mean,
    variance: variance / count,
    misread: all.flatMap(({ misread }) => misread ?? []),
    isLost: offs.length === 0,
  };
}

/** ln density of the difference of two directions that are the same unless something was moved. */
function agreementLog(apartArcmin: number, variance: number): number {
  const { chance, sdArcmin, turned } = MOVED;
  return logSum([
    Math.log(1 - chance - turned.chance) + logNormalDensity(apartArcmin, variance),
    Math.log(chance) + logNormalDensity(apartArcmin, variance + sdArcmin ** 2),
    Math.log(turned.chance / turned.widthArcmin),
  ]);
}

const byProbability = (a: CentralStory, b: CentralStory): number => b.probability - a.probability;

/** Stories of one shift are one, told as the likeliest of them. */
function likeliest(stories: readonly CentralStory[]): readonly CentralStory[] {
  const grouped: CentralStory[] = [];
  for (const story of [...stories].sort(byProbability)) {
    const same = grouped.findIndex((one) => Math.abs(one.shiftArcmin - story.shiftArcmin) < ALIKE_ARCMIN);
    const known = grouped[same];
    if (known) grouped[same] = { ...known, probability: known.probability + story.probability };
    else grouped.push(story);
  }
  const likely = grouped.sort(byProbability).filter(({ misread, probability }, rank) => {
    if (rank === 0) return true;
    return misread.length === 0 ? probability > IMPOSSIBLE : rank <= MOST_MISREAD && probability > NEGLIGIBLE;
  });
  const total = likely.reduce((sum, { probability }) => sum + probability, 0);
  return likely.map((story) => ({ ...story, probability: story.probability / total }));
}
