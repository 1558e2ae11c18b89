import { wrapDegrees } from '../angle/wrap.ts';
import { mean } from '../numeric/sum.ts';
import type { Bench, Setting } from '../record/bench.ts';
import type { CentralImage } from './central-image.ts';
import { stepOf } from './reading-step.ts';
import { type ErrorShares, errorShares } from './reading-variance.ts';

/**
 * One line as measured: the ordinate of the calibration curve with what is known of its errors.
 * Unit: arc-minutes of deviation, or scale units.
 */
export interface Observation extends ErrorShares {
  /** Deviation, positive; or scale reading. Mean of the repeats. */
  readonly ordinate: number;
  /** +1 or -1: side of the central image on which the line lies; 0: read on both alike, or there is none. */
  readonly side: -1 | 0 | 1;
  /** Every raw number behind the ordinate, with its weight in it. */
  readonly parts: readonly ReadingPart[];
  /** Each repeat's own ordinate. */
  readonly repeats: readonly number[];
  /** To what the coarsest of its readings was written down, arc-minutes or scale units: the least count if not rounded. */
  readonly step: number;
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

/** The mean of some repeats: each one's own ordinate, and the raw numbers behind them. */
function meanOf(
  bench: Bench,
  settings: readonly Setting[],
  repeats: readonly number[],
  side: Observation['side'],
  parts: readonly ReadingPart[],
): Observation {
  const spread = Math.max(...repeats) - Math.min(...repeats);
  const step = stepOf(bench, settings);
  const shares = errorShares(bench, repeats.length, spread, step);
  return { ordinate: mean(repeats), side, ...shares, parts, repeats, step };
}

function scaleObservation(bench: Bench, settings: readonly Setting[]): Observation | null {
  const repeats = settings.flatMap((setting) =>
    setting.kind === 'one-side' ? setting.windows.slice(0, 1) : [],
  );
  if (repeats.length === 0) return null;
  const weight = 1 / repeats.length;
  const parts = repeats.map((reading, repeat) => ({ repeat, side: null, window: 0, reading, weight }));
  return meanOf(bench, settings, repeats, 0, parts);
}

function centralObservation(
  bench: Bench,
  settings: readonly Setting[],
  central: CentralImage,
): Observation | null {
  const takes = settings.filter((setting) => setting.kind === 'one-side');
  if (takes.length === 0) return null;
  const offCentral = (reading: number, window: number): number =>
    60 * wrapDegrees(reading - (central.windowsDeg[window] ?? Number.NaN));
  const signed = takes.map((take) => mean(take.windows.map(offCentral)));
  // Each repeat may lie on a side of its own: distances from the central image are what they have in common.
  const sides = signed.map((deviation) => (deviation < 0 ? -1 : 1));
  const readings = takes.length * takes[0]!.windows.length;
  const parts = takes.flatMap(({ windows }, repeat) => {
    const weight = sides[repeat]! / readings;
    return windows.map((reading, window) => ({ repeat, side: null, window, reading, weight }));
  });
  return meanOf(bench, settings, signed.map(Math.abs), Math.sign(mean(sides)) as Observation['side'], parts);
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
  return meanOf(bench, settings, repeats, 0, parts);
}
