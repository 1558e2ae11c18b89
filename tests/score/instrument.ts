/** The simulated spectrometer: where the telescope really points, and what a person reads off. */
import type { Method, Setting } from '../../src/record/bench.ts';
import {
  deviationAtIncidenceArcmin,
  minimumDeviationArcmin,
  minimumIncidenceDeg,
  type Prism,
} from './prism.ts';
import type { Random } from './random.ts';
import { misread, misreadSomehow, type ReadingAtHand, type SlipKind } from './slips.ts';

export interface Instrument {
  readonly method: Method;
  readonly prismSetting: 'each-line' | 'fixed';
  readonly windows: 1 | 2;
  readonly prism: Prism;
  /** Least count as an angle; on a scale the angle that its smallest step stands for. */
  readonly leastCountArcmin: number;
  readonly divisionArcmin: number;
  /** Standard deviation of setting the cross-hairs. */
  readonly settingScatterArcmin: number;
  /** Chance that the vernier tick beside the coinciding one is read, both sides together. */
  readonly tickChance: number;
  /** Standard deviation of the angle by which the prism is off minimum deviation. */
  readonly missetDeg: number;
  /** Circle angle of the undeviated image. */
  readonly centralDeg: number;
  /** +1: lines at larger circle angles than the central image. */
  readonly side: 1 | -1;
  readonly eccentricityArcmin: number;
  readonly eccentricityPhaseDeg: number;
  /** Angle of incidence when the prism is set once, degrees. */
  readonly fixedIncidenceDeg: number;
  /** Scale units per arc-minute of deviation, with the sign in which the scale runs, and where it starts. */
  readonly scaleGain: number;
  readonly scaleOffset: number;
  /** Chance of a slip in each raw reading. */
  readonly slipChance: number;
}

export interface PlantedSlip {
  readonly kind: SlipKind;
  /** By how much this raw reading is wrong, arc-minutes on the circle. */
  readonly shiftArcmin: number;
}

const wrap = (degrees: number): number => ((degrees % 360) + 360) % 360;

/** Excess over minimum deviation for a misset of one degree (mean of both directions), arc-minutes. */
export function excessPerSquareDegree(instrument: Instrument, wavelengthNm: number): number {
  const { prism } = instrument;
  const best = minimumIncidenceDeg(prism, wavelengthNm);
  const atOneDegree = [best - 1, best + 1].map((deg) => deviationAtIncidenceArcmin(prism, wavelengthNm, deg));
  return (atOneDegree[0]! + atOneDegree[1]!) / 2 - minimumDeviationArcmin(prism, wavelengthNm);
}

/** Deviation at which the image of the slit stands, the prism set as well as this person sets it. */
function deviationAsSet(random: Random, instrument: Instrument, wavelengthNm: number): number {
  const { prism } = instrument;
  const incidence =
    instrument.prismSetting === 'fixed'
      ? instrument.fixedIncidenceDeg
      : minimumIncidenceDeg(prism, wavelengthNm) + random.normal(0, instrument.missetDeg);
  return deviationAtIncidenceArcmin(prism, wavelengthNm, incidence);
}

/** Mean of the deviations that this person would set for a wavelength, arc-minutes. */
export function meanDeviationArcmin(instrument: Instrument, wavelengthNm: number): number {
  if (instrument.prismSetting === 'fixed') {
    return deviationAtIncidenceArcmin(instrument.prism, wavelengthNm, instrument.fixedIncidenceDeg);
  }
  const excess = excessPerSquareDegree(instrument, wavelengthNm) * instrument.missetDeg ** 2;
  return minimumDeviationArcmin(instrument.prism, wavelengthNm) + excess;
}

/** What a perfect eye reads in a window when the telescope points at a circle angle: eccentricity included. */
export function circleShows(instrument: Instrument, pointingDeg: number, window: 0 | 1): number {
  const phase = ((pointingDeg - instrument.eccentricityPhaseDeg) * Math.PI) / 180;
  const eccentricity = (instrument.eccentricityArcmin / 60) * Math.sin(phase);
  return pointingDeg + (window === 0 ? eccentricity : 180 - eccentricity);
}

/** Rounding to the vernier's least count, now and then to the tick beside. */
function readVernier(random: Random, exact: number, leastCount: number, tickChance: number): number {
  const beside = random.chance(tickChance) ? random.sign() : 0;
  return (Math.round(exact / leastCount) + beside) * leastCount;
}

/** A slip to plant for certain in the first raw reading, or none beyond the instrument's own rate. */
export type Planted = SlipKind | null;

/** Every window of one pointing of the telescope, with the slips that were made. */
function readWindows(
  random: Random,
  instrument: Instrument,
  pointingDeg: number,
  otherSideDeg: number | null,
  planted: Planted,
): { windows: number[]; slips: PlantedSlip[] } {
  const { leastCountArcmin, divisionArcmin } = instrument;
  const pointed = pointingDeg + random.normal(0, instrument.settingScatterArcmin) / 60;
  const slips: PlantedSlip[] = [];
  const windows = ([0, 1] as const).slice(0, instrument.windows).map((window) => {
    const exactArcmin = circleShows(instrument, pointed, window) * 60;
    const shownDeg = readVernier(random, exactArcmin, leastCountArcmin, instrument.tickChance) / 60;
    const reading: ReadingAtHand = {
      shownDeg: wrap(shownDeg),
      leastCountArcmin,
      divisionArcmin,
      otherSideDeg: otherSideDeg === null ? null : wrap(otherSideDeg + 180 * window),
    };
    const slip = slipIn(random, reading, instrument.slipChance, window === 0 ? planted : null);
    if (slip === null) return reading.shownDeg;
    slips.push({ kind: slip.kind, shiftArcmin: (slip.shownDeg - reading.shownDeg) * 60 });
    return wrap(slip.shownDeg);
  });
  return { windows, slips };
}

function slipIn(random: Random, reading: ReadingAtHand, chance: number, planted: Planted) {
  if (planted !== null) {
    const shownDeg = misread(random, planted, reading);
    return shownDeg === null ? null : { kind: planted, shownDeg };
  }
  return random.chance(chance) ? misreadSomehow(random, reading) : null;
}

/** The central image, set and read once. */
export function readCentral(
  random: Random,
  instrument: Instrument,
): { setting: Setting; slips: PlantedSlip[] } {
  const { windows, slips } = readWindows(random, instrument, instrument.centralDeg, null, null);
  return { setting: { kind: 'one-side', windows }, slips };
}

/** Scale units at a deviation: an image scale is linear in the tangent, seen from its middle. */
export function scaleAt(instrument: Instrument, deviationArcmin: number): number {
  const middle = deviationAtIncidenceArcmin(instrument.prism, 550, instrument.fixedIncidenceDeg);
  const tangentArcmin = Math.tan(((deviationArcmin - middle) / 60) * (Math.PI / 180)) * (180 / Math.PI) * 60;
  return instrument.scaleOffset + instrument.scaleGain * tangentArcmin;
}

function readScale(random: Random, instrument: Instrument, wavelengthNm: number) {
  const unitsPerArcmin = Math.abs(instrument.scaleGain);
  const leastCount = instrument.leastCountArcmin * unitsPerArcmin;
  const scatter = random.normal(0, instrument.settingScatterArcmin * unitsPerArcmin);
  const exact = scaleAt(instrument, deviationAsSet(random, instrument, wavelengthNm)) + scatter;
  const shown = readVernier(random, exact, leastCount, instrument.tickChance);
  if (!random.chance(instrument.slipChance)) return { windows: [shown], slips: [] };
  // On a scale the usual slip is a numbered mark: ten or a hundred of the smallest steps.
  const shift = random.sign() * random.pick([10, 100]) * leastCount;
  return {
    windows: [shown + shift],
    slips: [{ kind: 'division' as const, shiftArcmin: shift / unitsPerArcmin }],
  };
}

/** One setting on a line, by the method of the bench. */
export function readLine(
  random: Random,
  instrument: Instrument,
  wavelengthNm: number,
  planted: Planted = null,
): { setting: Setting; slips: PlantedSlip[] } {
  const { method, side, centralDeg } = instrument;
  if (method === 'scale') {
    const { windows, slips } = readScale(random, instrument, wavelengthNm);
    return { setting: { kind: 'one-side', windows }, slips };
  }
  const at = (direction: 1 | -1): number =>
    centralDeg + (direction * deviationAsSet(random, instrument, wavelengthNm)) / 60;
  if (method === 'central') {
    const { windows, slips } = readWindows(random, instrument, at(side), at(-side as 1 | -1), planted);
    return { setting: { kind: 'one-side', windows }, slips };
  }
  const left = readWindows(random, instrument, at(side), null, planted);
  const right = readWindows(random, instrument, at(-side as 1 | -1), null, null);
  return {
    setting: { kind: 'both-sides', left: left.windows, right: right.windows },
    slips: [...left.slips, ...right.slips],
  };
}
