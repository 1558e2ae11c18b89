/** The lines of lamps and tubes at a station before anybody has read one there. */
import { glasses } from '../calibrate/curve/glasses.ts';
import type { CalibrationCurve } from '../calibrate/types.ts';
import { findLamp } from '../lines/names.ts';
import { lampSpectrum } from '../lines/table.ts';
import { isWellSeen } from '../lines/visible.ts';
import type { Bench } from '../record/bench.ts';
import { MOST_OF_A_LAMP } from './assumptions.ts';
import { cribLines, partedBy } from './crib-lines.ts';
import {
  type CountedFrom,
  type GlassStation,
  glassDeviationDeg,
  NOWHERE,
  type PredictedLine,
  predictForGlass,
  predictOnCurve,
  type WantedLine,
  wantedOf,
} from './predict.ts';
import type { ReadingFrame } from './reading-frame.ts';

/** What is known of the prism at a station: its own calibration of another day, its glass, or nothing. */
export type StationOptics =
  /**
   * `bench`: where the readings count from, with circle and method of the station. `readable`: false where the
   * calibration was read otherwise than the station is, or no central image is known, so that there are deviations only.
   */
  | ({
      readonly kind: 'calibrated';
      readonly bench: Bench;
      readonly curve: CalibrationCurve;
      readonly readable: boolean;
    } & CountedFrom)
  | { readonly kind: 'glass'; readonly glass: GlassStation; readonly readable: boolean }
  | { readonly kind: 'unknown' };

/** A prism and a circle as most laboratories have: lines that it shows as one are one where nothing is known of the station's. */
const usualPrism = { glass: glasses.find(({ name }) => name === 'F2')!, apexAngleDeg: 60 };

/** Lines that the station shows as one made one. */
export function partedLines(optics: StationOptics, wanted: readonly WantedLine[]): WantedLine[] {
  if (optics.kind === 'calibrated') return cribLines(wanted, optics.curve.ordinateAt, partedBy(optics.bench));
  const prism = optics.kind === 'glass' ? optics.glass : usualPrism;
  const circle = {
    method: 'central',
    leastCount: optics.kind === 'glass' ? optics.glass.leastCountArcmin : 1,
  } as const;
  return cribLines(wanted, (nm) => glassDeviationDeg(prism, nm) * 60, partedBy(circle));
}

/** A crib sheet for a calibrated bench: the lines that it shows as one made one, and their places; without a curve none. */
export function cribOnBench(
  { curve, ...frame }: ReadingFrame,
  wanted: readonly WantedLine[],
): PredictedLine[] {
  return curve === null
    ? placesAt({ kind: 'unknown' }, wanted)
    : cribAt({ kind: 'calibrated', curve, readable: true, ...frame }, wanted);
}

/** A crib sheet for a station: rows of `partedLines` and where they should be found. */
export function cribAt(optics: StationOptics, wanted: readonly WantedLine[]): PredictedLine[] {
  return placesAt(optics, partedLines(optics, wanted));
}

/** Where rows of `partedLines` should be found there; places are null where nothing tells them. */
export function placesAt(optics: StationOptics, rows: readonly WantedLine[]): PredictedLine[] {
  switch (optics.kind) {
    case 'calibrated':
      return asReadable(predictOnCurve(optics.bench, optics.curve, rows, optics), optics);
    case 'glass':
      return asReadable(predictForGlass(optics.glass, rows), optics);
    case 'unknown':
      return rows.map((line) => ({ ...line, ...NOWHERE }));
  }
}

const asReadable = (lines: PredictedLine[], { readable }: { readonly readable: boolean }): PredictedLine[] =>
  readable ? lines : lines.map((line) => ({ ...line, reading: null }));

/** The lines of a known lamp that can be found at a station, in the order in which they are met from the central image. */
export function lampLinesAt(optics: StationOptics, lamp: string): WantedLine[] {
  const found = findLamp(lamp);
  if (!('substances' in found)) return [];
  const spectrum = lampSpectrum(found.substances);
  const lines = spectrum.lines.filter(
    ({ kind, expected, wavelengthNm }) => kind === 'line' && expected && isWellSeen(wavelengthNm),
  );
  return spreadLines(partedLines(optics, wantedOf({ ...spectrum, lines })), MOST_OF_A_LAMP);
}

/**
 * At most `most` of the lines, in their order: the outermost at both ends, the strong ones, and then those that fill
 * the widest gaps, since a curve is bound by lines all along it; of two in one gap the one that is seen better.
 */
export function spreadLines(rows: readonly WantedLine[], most: number): WantedLine[] {
  if (rows.length <= most) return [...rows];
  const ends = [rows[0]!, rows.at(-1)!];
  const strong = rows
    .filter((line) => line.brightness === 'strong' && !ends.includes(line))
    .sort((a, b) => (b.prominence ?? 0) - (a.prominence ?? 0));
  const chosen = [...ends, ...strong].slice(0, most);
  const left = rows.filter((line) => !chosen.includes(line));
  // A line counts by the root of its prominence: a weak one has to fill twice the gap of a medium one.
  const gain = ({ wavelengthNm, prominence = 0 }: WantedLine): number =>
    Math.min(...chosen.map((line) => Math.abs(line.wavelengthNm - wavelengthNm))) * Math.exp(prominence / 2);
  while (chosen.length < most) {
    const next = left.reduce((best, line) => (gain(line) > gain(best) ? line : best));
    chosen.push(...left.splice(left.indexOf(next), 1));
  }
  return rows.filter((line) => chosen.includes(line));
}
