/** A tube's lines as a bench shows them: in its ordinate, close ones merged. */
import type { CalibrationCurve } from '../../calibrate/types.ts';
import type { TubeLine, TubeSpectrum } from '../../lines/spectrum.ts';
import { sum, sumOf } from '../../numeric/sum.ts';
import { COULD_BE, FAINTEST_PROMINENCE, HEAD_BIAS, PROMINENCE_SD_FACTOR } from '../assumptions.ts';
import { type BenchView, modeAt, residualVarianceAt } from '../bench/bench-hypothesis.ts';
import { varianceClass } from '../evidence/density-table.ts';

/** A line of the table at its place on the bench. */
export interface Member {
  /** Tube whose line it is. */
  readonly substance: string;
  readonly wavelengthNm: number;
  readonly ordinate: number;
  readonly prominence: number;
  readonly component: number;
}

export interface ModelLine {
  /** Of the most prominent member. */
  readonly wavelengthNm: number;
  /** The lines of the table behind it: one, or several that are read as one. */
  readonly members: readonly Member[];
  readonly ordinate: number;
  /** Variance of its place apart from the reading's: what the common modes leave, line width, band head. */
  readonly variance: number;
  /** Lines of one class share a density table. */
  readonly varianceClass: number;
  readonly prominence: number;
  /** Standard deviation of that from tube to tube, `PROMINENCE_SD_FACTOR` included. */
  readonly prominenceSd: number;
  /** Standard deviation of its component's strength; 0 where the others are measured against it. */
  readonly strengthSd: number;
  /** Its place among the components of the tube: of the most prominent member. */
  readonly component: number;
  readonly expected: boolean;
  /** Shift per standard deviation of each common mode. */
  readonly modes: readonly number[];
}

/** A line of the table on a curve, as every view of the bench through that curve has it. */
export interface LineOnCurve {
  readonly line: TubeLine;
  /** Where it is read: the head of a band a little to its shaded side, nm. */
  readonly readAtNm: number;
  readonly ordinate: number;
  /** Variance of its place on the curve, unit² of the ordinate. */
  readonly ownVariance: number;
  /** Its place among the components of the tube, and the standard deviation of that one's strength. */
  readonly component: number;
  readonly strengthSd: number;
}

/** Every line of a tube that could ever be seen, ascending in ordinate. */
export function linesOnCurve({ lines, components }: TubeSpectrum, curve: CalibrationCurve): LineOnCurve[] {
  const [shortest, longest] = curve.domainNm;
  const places = new Map(components.map(({ name }, index) => [name, index]));
  const strongest = components.map(({ strengthSd }) => COULD_BE * strengthSd);
  return lines
    .filter(
      (line) =>
        line.prominence + strongest[places.get(line.component)!]! > FAINTEST_PROMINENCE &&
        line.wavelengthNm > shortest &&
        line.wavelengthNm < longest,
    )
    .map((line): LineOnCurve => {
      const head = line.kind === 'band-head';
      const bias = head ? (line.degraded === 'red' ? HEAD_BIAS.meanNm : -HEAD_BIAS.meanNm) : 0;
      const readAtNm = line.wavelengthNm + bias;
      const widthNm = Math.hypot(head ? HEAD_BIAS.sdNm : 0, line.uNm ?? 0);
      return {
        line,
        readAtNm,
        ordinate: curve.ordinateAt(readAtNm),
        ownVariance: (widthNm * curve.slopeAt(readAtNm)) ** 2,
        component: places.get(line.component)!,
        strengthSd: components[places.get(line.component)!]!.strengthSd,
      };
    })
    .sort((a, b) => a.ordinate - b.ordinate);
}

/** The same lines as a view of the bench has them. */
export function placedLines(substance: string, lines: readonly LineOnCurve[], view: BenchView): ModelLine[] {
  return lines.map(
    ({ line, readAtNm, ordinate: unshifted, ownVariance, component, strengthSd }): ModelLine => {
      const ordinate = unshifted + view.shift;
      const variance = residualVarianceAt(view, readAtNm) + ownVariance;
      const { wavelengthNm, prominence, expected } = line;
      return {
        wavelengthNm,
        members: [{ substance: line.substance ?? substance, wavelengthNm, ordinate, prominence, component }],
        ordinate,
        variance,
        varianceClass: varianceClass(variance),
        prominence,
        prominenceSd: PROMINENCE_SD_FACTOR * line.prominenceSd,
        strengthSd,
        component,
        expected,
        modes: view.common.modes.map((_, mode) => modeAt(view, mode, readAtNm)),
      };
    },
  );
}

/** Lines in ascending order of ordinate, those closer than `resolution` (unit of the ordinate) merged. */
export function mergedLines(lines: readonly ModelLine[], resolution: number): ModelLine[] {
  const merged: ModelLine[] = [];
  let group: ModelLine[] = [];
  for (const line of lines) {
    const first = group[0];
    if (first && line.ordinate - first.ordinate > resolution) {
      merged.push(blend(group));
      group = [];
    }
    group.push(line);
  }
  if (group.length > 0) merged.push(blend(group));
  return merged;
}

/** Several lines seen as one: placed at their common weight, as bright as all together. */
function blend(group: readonly ModelLine[]): ModelLine {
  const only = group[0]!;
  if (group.length === 1) return only;
  const weights = group.map((line) => Math.exp(line.prominence));
  const total = sum(weights);
  const brightest = group.reduce((best, line) => (line.prominence > best.prominence ? line : best));
  const ordinate = sumOf(group, (line, i) => weights[i]! * line.ordinate) / total;
  const spread = sumOf(group, (line, i) => weights[i]! * (line.ordinate - ordinate) ** 2) / total;
  const variance = brightest.variance + spread / 2;
  return {
    ...brightest,
    members: group.flatMap((line) => line.members),
    ordinate,
    variance,
    varianceClass: varianceClass(variance),
    prominence: Math.log(total),
  };
}

/** The prominence of a line where the components have gained so much. */
export function prominenceWith(line: ModelLine, gains: readonly number[]): number {
  const { members, component } = line;
  if (members.length === 1 || members.every((member) => member.component === component))
    return line.prominence + gains[component]!;
  return Math.log(sumOf(members, (member) => Math.exp(member.prominence + gains[member.component]!)));
}
