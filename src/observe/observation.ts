import { repeatToleranceArcmin } from '../angle/least-count.ts';
import { wrapDegrees } from '../angle/wrap.ts';
import type { Bench, Setting } from '../record/bench.ts';

/**
 * One line as measured: the ordinate of the calibration curve with what is known of its errors.
 * Unit: arc-minutes of deviation, or scale units.
 */
export interface Observation {
  /** Deviation, positive; or scale reading. Mean of the repeats. */
  readonly ordinate: number;
  /** +1 or -1: side of the central image on which the line lies; 0: read on both alike, or there is none. */
  readonly side: -1 | 0 | 1;
  /** Variance from the resolution of vernier or scale. */
  readonly resolutionVariance: number;
  /** The variance of one setting of the cross-hairs counts this many times. */
  readonly settingShare: number;
  /** Every raw number behind the ordinate, with its weight in it. */
  readonly parts: readonly ReadingPart[];
  /** Each repeat's own ordinate. */
  readonly repeats: readonly number[];
}

/** A single raw reading: one repeat, one side, one window. */
export interface ReadingPart {
  readonly repeat: number;
  readonly side: 'left' | 'right' | null;
  readonly window: number;
  /** Degrees or scale units, as read. */
  readonly reading: number;
  /** Change of the ordinate per unit change of this reading (per arc-minute for a circle), sign included. */
  readonly weight: number;
}

/** Half a count of rounding either way is certain; a whole tick more is what one reading in fifty shows (common practice, no source). */
export const NEXT_TICK_CHANCE = 0.02;

/** Variance of one reading of a vernier or scale: rectangular, with the next tick as a small wide part (GUM 4.3.7). */
export function resolutionVariance(leastCount: number): number {
  return leastCount ** 2 * (1 / 12 + NEXT_TICK_CHANCE);
}

/** Mean direction of the central image, degrees, and its standing in the budget; null when it was not read. */
export interface CentralImage {
  /** Mean direction, degrees, for each window. */
  readonly windowsDeg: readonly number[];
  /** As in an Observation, arc-minutes². */
  readonly resolutionVariance: number;
  readonly settingShare: number;
}

/**
 * Central readings without those that lie apart from most of three or more: they are misread, and no part of a mean.
 * Readings belong together where each is within the usual tolerance of repeats of another.
 */
export function agreeingCentrals(bench: Bench, settings: readonly Setting[]): readonly Setting[] {
  const takes = settings.filter((setting) => setting.kind === 'one-side');
  if (takes.length < 3) return settings;
  const tolerance = repeatToleranceArcmin(bench.leastCount) + ROUNDING_ARCMIN;
  const areNear = (one: readonly number[], other: readonly number[]): boolean =>
    one.every(
      (reading, window) => Math.abs(60 * wrapDegrees(reading - (other[window] ?? reading))) <= tolerance,
    );
  const together = new Set<Setting>();
  const left = new Set<OneSide>(takes);
  for (const start of takes) {
    if (!left.delete(start)) continue;
    const group = [start];
    for (const member of group) {
      for (const other of left) {
        if (!areNear(member.windows, other.windows)) continue;
        left.delete(other);
        group.push(other);
      }
    }
    if (group.length > takes.length / 2) for (const member of group) together.add(member);
  }
  return together.size > 0 ? settings.filter((setting) => together.has(setting)) : settings;
}

type OneSide = Extract<Setting, { kind: 'one-side' }>;

/** Whole minutes of arc in degrees are no exact numbers. */
const ROUNDING_ARCMIN = 1e-6;

/** The central image's direction from its repeats (circular mean of angles that lie close together). */
export function centralImage(bench: Bench, settings: readonly Setting[]): CentralImage | null {
  const takes = agreeingCentrals(bench, settings).filter((setting) => setting.kind === 'one-side');
  const first = takes[0];
  if (!first) return null;
  const windowsDeg = first.windows.map((origin, window) => {
    const offsets = takes.map((take) => wrapDegrees((take.windows[window] ?? origin) - origin));
    return origin + offsets.reduce((sum, offset) => sum + offset, 0) / offsets.length;
  });
  const spread = spreadOf(
    takes.map((take) => 60 * wrapDegrees((take.windows[0] ?? 0) - (first.windows[0] ?? 0))),
  );
  return {
    windowsDeg,
    resolutionVariance: meanResolution(bench.leastCount, takes.length, spread) / windowsDeg.length,
    settingShare: 1 / takes.length,
  };
}

function spreadOf(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}

/**
 * Part of the scatter of setting that repeats and the second side do not average out: the prism is turned to
 * minimum deviation, and the middle of the line judged, once for the line (common practice, no source; the
 * measured benches in tests/reference scatter by more than their repeats do).
 */
export const SETTING_OF_THE_LINE = 0.4;

function settingShare(settings: number): number {
  return SETTING_OF_THE_LINE + (1 - SETTING_OF_THE_LINE) / settings;
}

/** Repeats that agree within a count share the same rounding error (GUM F.2.2.1); scattered ones average it out. */
function meanResolution(leastCount: number, repeats: number, spread: number): number {
  const single = resolutionVariance(leastCount);
  return spread > leastCount * 1.001 ? single / repeats : single;
}

/**
 * Turns the settings of one line into an observation. Null when the settings cannot give one: a
 * central-method bench without a central reading.
 */
export function observe(
  bench: Bench,
  settings: readonly Setting[],
  central: CentralImage | null,
): Observation | null {
  if (bench.method === 'scale') return scaleObservation(bench, settings);
  if (bench.method === 'both-sides') return bothSidesObservation(bench, settings);
  return central ? centralObservation(bench, settings, central) : null;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function scaleObservation(bench: Bench, settings: readonly Setting[]): Observation | null {
  const repeats = settings.flatMap((setting) =>
    setting.kind === 'one-side' ? setting.windows.slice(0, 1) : [],
  );
  if (repeats.length === 0) return null;
  return {
    ordinate: mean(repeats),
    side: 0,
    resolutionVariance: meanResolution(bench.leastCount, repeats.length, spreadOf(repeats)),
    settingShare: settingShare(repeats.length),
    parts: repeats.map((reading, repeat) => ({
      repeat,
      side: null,
      window: 0,
      reading,
      weight: 1 / repeats.length,
    })),
    repeats,
  };
}

function centralObservation(
  bench: Bench,
  settings: readonly Setting[],
  central: CentralImage,
): Observation | null {
  const takes = settings.filter((setting) => setting.kind === 'one-side');
  if (takes.length === 0) return null;
  const signed = takes.map((take) =>
    mean(
      take.windows.map(
        (reading, window) => 60 * wrapDegrees(reading - (central.windowsDeg[window] ?? Number.NaN)),
      ),
    ),
  );
  // Each repeat may lie on a side of its own: distances from the central image are what they have in common.
  const sides = signed.map((deviation) => (deviation < 0 ? -1 : 1));
  const repeats = signed.map(Math.abs);
  const windows = takes[0]!.windows.length;
  return {
    ordinate: mean(repeats),
    side: Math.sign(mean(sides)) as Observation['side'],
    resolutionVariance: meanResolution(bench.leastCount, takes.length, spreadOf(repeats)) / windows,
    settingShare: settingShare(takes.length),
    parts: takes.flatMap((take, repeat) =>
      take.windows.map((reading, window) => ({
        repeat,
        side: null,
        window,
        reading,
        weight: sides[repeat]! / (takes.length * windows),
      })),
    ),
    repeats,
  };
}

function bothSidesObservation(bench: Bench, settings: readonly Setting[]): Observation | null {
  const takes = settings.filter((setting) => setting.kind === 'both-sides');
  const first = takes[0];
  if (!first) return null;
  const windows = first.left.length;
  // Half of the smaller arc between the two sides, which may run either way round.
  const signed = takes.map((take) =>
    take.left.map((left, window) => 30 * wrapDegrees(left - (take.right[window] ?? Number.NaN))),
  );
  const repeats = signed.map((arcs) => mean(arcs.map(Math.abs)));
  const share = 1 / (2 * takes.length * windows);
  const parts = takes.flatMap((take, repeat) => {
    const ofSide = (side: 'left' | 'right', weight: number) =>
      take[side].map((reading, window) => ({
        repeat,
        side,
        window,
        reading,
        weight: (signed[repeat]![window]! < 0 ? -1 : 1) * weight,
      }));
    return [...ofSide('left', share), ...ofSide('right', -share)];
  });
  return {
    ordinate: mean(repeats),
    side: 0,
    resolutionVariance: meanResolution(bench.leastCount, takes.length, spreadOf(repeats)) / (2 * windows),
    settingShare: settingShare(2 * takes.length),
    parts,
    repeats,
  };
}
