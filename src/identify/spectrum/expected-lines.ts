/** A tube's lines as a bench shows them: in its ordinate, close ones merged. */
import type { CalibrationCurve } from '../../calibrate/types.ts';
import type { TubeSpectrum } from '../../lines/spectrum.ts';
import { sumOf } from '../../numeric/sum.ts';
import { COULD_BE, FAINTEST_PROMINENCE, HEAD_BIAS, PROMINENCE_SD_FACTOR } from '../assumptions.ts';
import { type BenchView, modeAt, residualVarianceAt } from '../bench/bench-hypothesis.ts';
import { varianceClass } from '../evidence/density-table.ts';

/** A line of the table at its place on the bench. */
export interface Member {
  /** Tube whose line it is. */
  readonly substance: string;
  readonly wavelengthNm: number;
  /** On the curve, whatever shift a view adds. */
  readonly ordinate: number;
  readonly prominence: number;
  readonly component: number;
}

/** A line, or several that are read as one, as every view of the bench through a curve has it. */
export interface LineOnCurve {
  /** Of the most prominent member. */
  readonly wavelengthNm: number;
  /** The lines of the table behind it: one, or several that are read as one. */
  readonly members: readonly Member[];
  /** Where the most prominent member is read: the head of a band a little to its shaded side, nm. */
  readonly readAtNm: number;
  /** On the curve, whatever shift a view adds. */
  readonly ordinate: number;
  /** Variance of its place on the curve, unit² of the ordinate: line width, band head, how far its members stand apart. */
  readonly ownVariance: number;
  readonly prominence: number;
  /** Standard deviation of that from tube to tube, `PROMINENCE_SD_FACTOR` included. */
  readonly prominenceSd: number;
  /** Standard deviation of its component's strength; 0 where the others are measured against it. */
  readonly strengthSd: number;
  /** Its place among the components of the tube: of the most prominent member. */
  readonly component: number;
  readonly expected: boolean;
}

/** The same as one view of the bench has it. */
export interface ModelLine extends Omit<LineOnCurve, 'readAtNm' | 'ownVariance'> {
  /** Variance of its place apart from the reading's: what the common modes leave, line width, band head. */
  readonly variance: number;
  /** Lines of one class share a density table. */
  readonly varianceClass: number;
  /** Shift per standard deviation of each common mode. */
  readonly modes: readonly number[];
}

/** What pairs with readings are made from, line by line in plain lists: small typed arrays are dear to make. */
export interface LinePlaces {
  /** Ascending. */
  readonly ordinates: readonly number[];
  readonly variances: readonly number[];
  readonly varianceClasses: readonly number[];
  /** Of each common mode, what it shifts each line by per standard deviation. */
  readonly modes: readonly (readonly number[])[];
}

/** Every line of a tube that could ever be seen, ascending in ordinate. */
export function linesOnCurve(
  { substance, lines, components }: TubeSpectrum,
  curve: CalibrationCurve,
): LineOnCurve[] {
  const [shortest, longest] = curve.domainNm;
  const places = new Map(components.map(({ name }, index) => [name, index]));
  const found: LineOnCurve[] = [];
  for (const line of lines) {
    const { wavelengthNm, prominence, expected } = line;
    if (wavelengthNm <= shortest || wavelengthNm >= longest) continue;
    const component = places.get(line.component)!;
    const { strengthSd } = components[component]!;
    if (prominence + COULD_BE * strengthSd <= FAINTEST_PROMINENCE) continue;
    const isHead = line.kind === 'band-head';
    const bias = isHead ? (line.degraded === 'red' ? HEAD_BIAS.meanNm : -HEAD_BIAS.meanNm) : 0;
    const readAtNm = wavelengthNm + bias;
    const ordinate = curve.ordinateAt(readAtNm);
    const widthVariance = (isHead ? HEAD_BIAS.sdNm ** 2 : 0) + (line.uNm ?? 0) ** 2;
    found.push({
      wavelengthNm,
      members: [{ substance: line.substance ?? substance, wavelengthNm, ordinate, prominence, component }],
      readAtNm,
      ordinate,
      ownVariance: widthVariance === 0 ? 0 : widthVariance * curve.slopeAt(readAtNm) ** 2,
      prominence,
      prominenceSd: PROMINENCE_SD_FACTOR * line.prominenceSd,
      strengthSd,
      component,
      expected,
    });
  }
  return found.sort((a, b) => a.ordinate - b.ordinate);
}

/** Where lines stand through a view of the bench. */
export function linePlaces(lines: readonly LineOnCurve[], view: BenchView): LinePlaces {
  const variances = lines.map(
    ({ readAtNm, ownVariance }) => residualVarianceAt(view, readAtNm) + ownVariance,
  );
  return {
    ordinates: lines.map(({ ordinate }) => ordinate + view.shift),
    variances,
    varianceClasses: variances.map(varianceClass),
    modes: view.table.modes.map((_, mode) => lines.map(({ readAtNm }) => modeAt(view, mode, readAtNm))),
  };
}

/** The same lines with all that is known of them. */
export function placedLines(lines: readonly LineOnCurve[], places: LinePlaces): ModelLine[] {
  // Each part by its name: copying all but two of them is several times as slow.
  return lines.map(
    (line, j): ModelLine => ({
      wavelengthNm: line.wavelengthNm,
      members: line.members,
      ordinate: places.ordinates[j]!,
      variance: places.variances[j]!,
      varianceClass: places.varianceClasses[j]!,
      prominence: line.prominence,
      prominenceSd: line.prominenceSd,
      strengthSd: line.strengthSd,
      component: line.component,
      expected: line.expected,
      modes: places.modes.map((shifts) => shifts[j]!),
    }),
  );
}

/** Lines in ascending order of ordinate, those closer than `resolution` (unit of the ordinate) merged. */
export function mergedLines(lines: readonly LineOnCurve[], resolution: number): LineOnCurve[] {
  const merged: LineOnCurve[] = [];
  let group: LineOnCurve[] = [];
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
function blend(group: readonly LineOnCurve[]): LineOnCurve {
  const only = group[0]!;
  if (group.length === 1) return only;
  const weights: number[] = [];
  const members: Member[] = [];
  let total = 0;
  let brightest = only;
  let weighted = 0;
  for (const line of group) {
    const weight = Math.exp(line.prominence);
    weights.push(weight);
    members.push(...line.members);
    total += weight;
    if (line.prominence > brightest.prominence) brightest = line;
    weighted += weight * line.ordinate;
  }
  const ordinate = weighted / total;
  const spread = sumOf(group, (line, i) => weights[i]! * (line.ordinate - ordinate) ** 2) / total;
  // By their names, as in `placedLines`.
  return {
    wavelengthNm: brightest.wavelengthNm,
    members,
    readAtNm: brightest.readAtNm,
    ordinate,
    ownVariance: brightest.ownVariance + spread / 2,
    prominence: Math.log(total),
    prominenceSd: brightest.prominenceSd,
    strengthSd: brightest.strengthSd,
    component: brightest.component,
    expected: brightest.expected,
  };
}

/** What makes how prominent a line is. */
type ShownLine = Pick<LineOnCurve, 'members' | 'prominence' | 'component'>;

/** Do all lines that are read as this one rise and fall together? */
export function isOfOneComponent({ members, component }: ShownLine): boolean {
  return members.length === 1 || members.every((member) => member.component === component);
}

/** The prominence of a line where the components have gained so much. */
export function prominenceWith(line: ShownLine, gains: readonly number[]): number {
  if (isOfOneComponent(line)) return line.prominence + gains[line.component]!;
  return Math.log(sumOf(line.members, (member) => Math.exp(member.prominence + gains[member.component]!)));
}
