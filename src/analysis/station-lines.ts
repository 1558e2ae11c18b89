/** The lines of lamps and tubes at a station before anybody has read one there. */

import { glasses } from '../calibrate/curve/glasses.ts';
import type { CalibrationCurve } from '../calibrate/types.ts';
import { findLamp } from '../lines/names.ts';
import { lampSpectrum } from '../lines/table.ts';
import type { Bench } from '../record/bench.ts';
import { cribLines, partedBy } from './crib-lines.ts';
import {
  type GlassStation,
  glassDeviationDeg,
  type PredictedLine,
  predictForGlass,
  predictOnCurve,
  type WantedLine,
  wantedOf,
} from './predict.ts';

/** What is known of the prism at a station: its own calibration of another day, its glass, or nothing. */
export type StationOptics =
  | { readonly kind: 'calibrated'; readonly bench: Bench; readonly curve: CalibrationCurve }
  /** `readable`: false where no central image is known, so that there are deviations only. */
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

/** Where they should be found there; places are null where nothing tells them. */
export function placesAt(optics: StationOptics, wanted: readonly WantedLine[]): PredictedLine[] {
  const rows = partedLines(optics, wanted);
  switch (optics.kind) {
    case 'calibrated':
      return predictOnCurve(optics.bench, optics.curve, rows);
    case 'glass':
      return predictForGlass(optics.glass, rows).map((line) =>
        optics.readable ? line : { ...line, reading: null },
      );
    case 'unknown':
      return rows.map((line) => ({
        ...line,
        reading: null,
        deviationDeg: null,
        standardUncertainty: null,
        extrapolated: false,
      }));
  }
}

/** Of more lines than this the brightest are looked for. */
const mostOfALamp = 14;
/** Ends of what an eye sees without effort, nm. */
const visibleNm = [395, 715] as const;

/** The lines of a known lamp that can be found at a station, in the order in which they are met from the central image. */
export function lampLinesAt(optics: StationOptics, lamp: string): WantedLine[] {
  const found = findLamp(lamp);
  if (!('substances' in found)) return [];
  const spectrum = lampSpectrum(found.substances);
  const lines = spectrum.lines.filter(
    ({ kind, expected, wavelengthNm }) =>
      kind === 'line' && expected && wavelengthNm >= visibleNm[0] && wavelengthNm <= visibleNm[1],
  );
  const rows = partedLines(optics, wantedOf({ ...spectrum, lines }));
  const chosen = rows.filter(({ brightness }) => brightness !== 'weak').slice(0, mostOfALamp);
  const faint = rows.filter((line) => !chosen.includes(line));
  // Faint ones where the bright ones leave the widest gaps: a curve is bound by lines all along it.
  while (chosen.length < mostOfALamp && faint.length > 0) {
    const room = ({ wavelengthNm }: WantedLine): number =>
      Math.min(...chosen.map((line) => Math.abs(line.wavelengthNm - wavelengthNm)));
    const next = faint.reduce((best, line) => (room(line) > room(best) ? line : best));
    chosen.push(...faint.splice(faint.indexOf(next), 1));
  }
  return rows.filter((line) => chosen.includes(line));
}
