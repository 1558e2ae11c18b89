/**
 * A plain ranking to hold the program against: the evidence of all readings for each tube, summed over every
 * order-preserving alignment, for a curve and a reading error that are given. With the true curve and the true
 * error it is the oracle: what nobody at the bench can beat by much.
 */
import type { TubeSpectrum } from '../../src/lines/spectrum.ts';

export interface AlignmentModel {
  /** Deviation at a wavelength, arc-minutes. */
  readonly deviationAt: (wavelengthNm: number) => number;
  /** Density per arc-minute of a reading of a line, by its error and the line's wavelength. */
  readonly errorDensity: (errorArcmin: number, wavelengthNm: number) => number;
  /** Spread of brightness from tube to tube, logarithmic. */
  readonly prominenceScatter: number;
  readonly strayRate: number;
}

interface Group {
  readonly deviationArcmin: number;
  readonly wavelengthNm: number;
  readonly prominence: number;
  /** Width over which the sighted place may wander within the group or the band, arc-minutes. */
  readonly halfWidthArcmin: number;
}

const faintnessLimits = [-2.8, -2.3, -1.8, -1.3, -0.8];
const resolutionsArcmin = [1, 1.7, 2.9];
/** Lines fainter than the faintest limit by this much are left out. */
const marginBelowLimit = 1.5;
/** Logarithm added to a spectrum of lines that a tube may lack. */
const unexpectedPenalty = 0.5;

/** Neighbouring lines that this resolution does not split, as one. */
function groupLines(tube: TubeSpectrum, model: AlignmentModel, resolutionArcmin: number): Group[] {
  const groups: Group[] = [];
  for (const line of tube.lines) {
    const prominence = line.prominence - (line.expected ? 0 : unexpectedPenalty);
    if (prominence < faintnessLimits[0]! - marginBelowLimit) continue;
    // The shaded side of a head, on average half a nanometre from it.
    const shade = line.degraded === 'violet' ? -0.5 : line.degraded === 'red' ? 0.5 : 0;
    const wavelengthNm = line.wavelengthNm + shade;
    const deviationArcmin = model.deviationAt(wavelengthNm);
    const bandWidth =
      line.kind === 'band-head' ? 0.5 * Math.abs(deviationArcmin - model.deviationAt(wavelengthNm + 1)) : 0;
    const before = groups.at(-1);
    const gap = before === undefined ? Number.POSITIVE_INFINITY : before.deviationArcmin - deviationArcmin;
    if (before === undefined || gap > resolutionArcmin) {
      groups.push({ deviationArcmin, wavelengthNm, prominence, halfWidthArcmin: bandWidth });
      continue;
    }
    const share = 1 / (1 + Math.exp(before.prominence - prominence));
    groups[groups.length - 1] = {
      deviationArcmin: before.deviationArcmin - share * gap,
      wavelengthNm: before.wavelengthNm + share * (wavelengthNm - before.wavelengthNm),
      prominence: Math.log(Math.exp(before.prominence) + Math.exp(prominence)),
      halfWidthArcmin: Math.max(bandWidth, before.halfWidthArcmin, gap * Math.min(share, 1 - share)),
    };
  }
  return groups;
}

const logistic = (x: number): number => 1 / (1 + Math.exp(-x));

/** Density of a reading for a group: the error's density, smeared over the group's width at three points. */
function readingDensity(model: AlignmentModel, group: Group, deviationArcmin: number): number {
  const error = deviationArcmin - group.deviationArcmin;
  if (group.halfWidthArcmin < 0.05) return model.errorDensity(error, group.wavelengthNm);
  const offsets = [-group.halfWidthArcmin, 0, group.halfWidthArcmin];
  return offsets.reduce((sum, d) => sum + model.errorDensity(error - d, group.wavelengthNm) / 3, 0);
}

/** Chance that a line seen is written down, and how likely such a writer is: some write few of what they see. */
const writers = [
  { chance: 0.95, weight: 0.6 },
  { chance: 0.5, weight: 0.4 },
];

/**
 * Forward recursion over the groups, both in the order of deviation; `sums[i]` is the evidence of the first i
 * readings with the groups so far. Strays follow the start or a match directly, so that each is counted once.
 */
function evidence(
  densities: readonly (readonly number[])[],
  seenChances: readonly number[],
  readings: number,
  strayDensity: number,
): number {
  const followedByStrays = (sums: number[]): number[] => {
    for (let i = 1; i <= readings; i++) sums[i]! += sums[i - 1]! * strayDensity;
    return sums;
  };
  let sums = followedByStrays([1, ...new Array<number>(readings).fill(0)]);
  seenChances.forEach((seen, group) => {
    const matched = sums.map((_, i) => (i === 0 ? 0 : sums[i - 1]! * seen * densities[group]![i - 1]!));
    followedByStrays(matched);
    sums = sums.map((sum, i) => sum * (1 - seen) + matched[i]!);
  });
  return sums[readings]!;
}

/** The lines of a tube under one resolution, and under each way of looking how likely each is written down. */
export interface Scenes {
  readonly weight: number;
  readonly groups: readonly { densityAt(deviationArcmin: number): number }[];
  readonly scenes: readonly { readonly weight: number; readonly seenChances: readonly number[] }[];
}

/** Every resolution with every way of looking; groups in the order of deviation. */
export function scenesOf(tube: TubeSpectrum, model: AlignmentModel): Scenes[] {
  return resolutionsArcmin.map((resolution): Scenes => {
    const groups = groupLines(tube, model, resolution).reverse();
    const scenes = faintnessLimits.flatMap((limit) => {
      const visible = groups.map((g) => logistic((1.7 / model.prominenceScatter) * (g.prominence - limit)));
      return writers.map(({ chance, weight }) => ({
        weight: weight / faintnessLimits.length,
        seenChances: visible.map((share) => share * chance),
      }));
    });
    const densities = groups.map((group) => ({
      densityAt: (deviationArcmin: number) => readingDensity(model, group, deviationArcmin),
    }));
    return { weight: 1 / resolutionsArcmin.length, groups: densities, scenes };
  });
}

/** Natural logarithm of the evidence of readings (deviations in arc-minutes) for one tube. */
export function alignmentEvidence(
  tube: TubeSpectrum,
  deviationsArcmin: readonly number[],
  model: AlignmentModel,
): number {
  const readings = [...deviationsArcmin].sort((a, b) => a - b);
  const strayDensity = model.strayRate / Math.abs(model.deviationAt(400) - model.deviationAt(700));
  let sum = 0;
  for (const { weight, groups, scenes } of scenesOf(tube, model)) {
    const densities = groups.map((group) => readings.map((reading) => group.densityAt(reading)));
    for (const scene of scenes) {
      sum += weight * scene.weight * evidence(densities, scene.seenChances, readings.length, strayDensity);
    }
  }
  return Math.log(sum + Number.MIN_VALUE);
}
