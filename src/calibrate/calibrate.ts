/** From a bench to its calibration: the one call of this folder. */
import { once } from '../numeric/remembered.ts';
import { sumOf } from '../numeric/sum.ts';
import { type BenchConstants, benchConstants } from '../observe/bench-constants.ts';
import { lampOrigin, type Origin, withMove } from '../observe/origin.ts';
import { lampStep } from '../observe/reading-step.ts';
import { roundingVariance } from '../observe/reading-variance.ts';
import { scatterPrior, usualScatter } from '../observe/setting-scatter.ts';
import type { Bench } from '../record/bench.ts';
import { explainKnownLines } from './assign/assign-lines.ts';
import type { KnownReading } from './assign/known-reading.ts';
import { ALIKE_CURVES, DISPERSED, HYPOTHESES, NEVER_ALIKE_NM, READ_ALIKE } from './assumptions.ts';
import { uncertaintyBudget } from './budget.ts';
import { centralFindings } from './central-findings.ts';
import { checkedLines } from './check-lines.ts';
import { curveChoice } from './compare/leave-one-out.ts';
import { otherCurves } from './compare/other-curves.ts';
import type { CurveBasis } from './curve/basis.ts';
import { calibrationCurve } from './curve/calibration-curve.ts';
import type { GaussianConstants } from './curve/gaussian-curve.ts';
import { type CurvePosterior, mixedConstants } from './curve/posterior.ts';
import { risingDeviations } from './grating.ts';
import { knownLineRemarks, scatterRemark } from './known-line-remarks.ts';
import { knownLineReport } from './known-line-report.ts';
import { isUsedAsRead } from './known-line-status.ts';
import { knownReadings } from './known-readings.ts';
import { type BenchExplanation, countedFrom, withLampMoves } from './moved-lamps.ts';
import type {
  Calibration,
  CalibrationCurve,
  CalibrationHypothesis,
  Coefficient,
  OrdinateUnit,
} from './types.ts';

/** What reading an unknown tube on the same bench needs to know besides the curve. */
export interface BenchState {
  /** Where what is read after the known lines counts from, if it shares their central image. */
  readonly origin: Origin;
  readonly constants: BenchConstants;
  /** Posterior mean variance of one setting, unit². */
  readonly settingVariance: number;
}

/**
 * The curve of a bench's known lines with everything found of them, and what its tubes' readings then rest on. Without
 * two lines to learn from `calibration.curve` is null, which a remark explains. Ordinates in
 * arc-minutes of deviation, or scale units. `bench` in the result: with the move between two lamps that was found, if any.
 * `centralsBefore`: so many central readings were made before that; null: as the readings say.
 */
export function calibrate(
  written: Bench,
  centralsBefore: number | null = null,
): { calibration: Calibration; state: BenchState; bench: Bench } {
  const asRead = withMove(written, null);
  const constants = benchConstants(asRead);
  const readings = knownReadings(asRead);
  const scatter = scatterPrior(
    asRead,
    readings.map(({ observation }) => observation),
  );
  const unit: OrdinateUnit = asRead.method === 'scale' ? 'scale' : 'arcmin';
  const rising = risingDeviations(asRead, readings);
  // On a grating every line would be blamed for what is the instrument's own.
  const explained =
    readAlike(asRead, readings) || rising?.linesPerMm
      ? []
      : withLampMoves(
          asRead,
          readings,
          constants,
          scatter,
          explainKnownLines(asRead, readings, constants, scatter),
          centralsBefore,
        );
  const found = monotoneOnes(asRead, explained);
  const merged = mergedHypotheses(asRead, found, unit);
  // What is said of the lines belongs to the curve that is used, though another explanation alone may be likelier.
  const [used = null] = merged;
  const moved = used?.lead.move ?? null;
  const bench = withMove(asRead, moved);
  const origin = lampOrigin(bench);
  const remarks = knownLineRemarks(bench, origin, readings.length, found.length > 0, rising);
  const curve = used?.curve ?? null;
  const curveNow = used?.curveNow ?? null;
  const settingVariance = used?.lead.posterior.settingVariance ?? usualScatter(bench) ** 2;
  const explanations = used ? [used.lead, ...found.filter((explanation) => explanation !== used.lead)] : [];
  const counted = moved === null ? readings : knownReadings(bench);
  const report = knownLineReport(bench, counted, explanations, curve, settingVariance);
  const state = { origin, constants, settingVariance };
  const checks = checkedLines(bench, { curve, curveNow }, settingVariance);
  const said = {
    unit,
    lines: report.lines,
    checks,
    budget: uncertaintyBudget(bench, origin, settingVariance, curveNow),
    findings: [...centralFindings(bench, checks, curveNow, state), ...report.findings],
    moved,
  };
  if (used === null || curve === null)
    return { state, calibration: { ...said, ...NO_CURVE, remarks }, bench };

  const { points, posterior } = used.lead;
  const { basis } = posterior;
  // For the student's own work: no tube is identified by them.
  const others = once(() => {
    const found = otherCurves(points, curve);
    return { ...found, choice: curveChoice(points, posterior, found.rivals) };
  });
  const kept = report.lines.filter(isUsedAsRead);
  const residuals = kept.flatMap((line) => (line.residual === null ? [] : [line.residual]));
  return {
    state,
    bench,
    calibration: {
      ...said,
      model: basis.name,
      get choice() {
        return others().choice;
      },
      get hartmann() {
        return others().hartmann;
      },
      get polynomial() {
        return others().polynomial;
      },
      formula: writtenFormula(basis, unit),
      // Those of the curve that is used: explanations that are alike are averaged in it.
      coefficients: coefficients(basis, used.constants, unit),
      rms: residuals.length > 0 ? Math.hypot(...residuals) / Math.sqrt(residuals.length) : null,
      settingScatter: Math.sqrt(settingVariance),
      curve,
      curveNow,
      hypotheses: merged.map(({ probability, curve, curveNow, origin }) => ({
        probability,
        curve,
        curveNow,
        origin,
      })),
      get rivals() {
        return others().rivals;
      },
      remarks: [...remarks, ...scatterRemark(bench, readings.length, settingVariance)],
    },
  };
}

/**
 * ln of the evidence of a bench's known lines under all their explanations, to be set against that of the same lines read
 * otherwise in the same unit; null where nothing explains them.
 */
export function knownLinesLogEvidence(bench: Bench): number | null {
  const readings = knownReadings(bench);
  const observations = readings.map(({ observation }) => observation);
  const scatter = scatterPrior(bench, observations);
  const [best] = explainKnownLines(bench, readings, benchConstants(bench), scatter);
  return best ? best.log - Math.log(best.probability) : null;
}

/** What a calibration has not without a curve. */
const NO_CURVE = {
  model: '',
  choice: null,
  hartmann: null,
  polynomial: null,
  formula: '',
  coefficients: [],
  rms: null,
  settingScatter: null,
  curve: null,
  curveNow: null,
  hypotheses: [],
  rivals: [],
};

function curveOf(explanation: BenchExplanation, posterior: CurvePosterior, unit: OrdinateUnit) {
  const wavelengths = explanation.points.map((point) => point.wavelengthNm);
  const range = [Math.min(...wavelengths), Math.max(...wavelengths)] as const;
  return calibrationCurve(posterior.basis, posterior.constants, range, unit);
}

/** A deviation can only fall from violet to red, a scale may run either way; either must be surer than its error. */
function runsTheRightWay(bench: Bench, curve: CalibrationCurve): boolean {
  const [shortest, longest] = curve.rangeNm;
  const rise = curve.ordinateAt(shortest) - curve.ordinateAt(longest);
  const variance =
    curve.covariance(shortest, shortest) +
    curve.covariance(longest, longest) -
    2 * curve.covariance(shortest, longest);
  const surely = Math.abs(rise) > DISPERSED * Math.sqrt(Math.max(0, variance));
  return surely && (bench.method === 'scale' || rise > 0);
}

/** Lines that all read the same, though they are named for others: whatever curve goes through them, it is none. */
function readAlike(bench: Bench, readings: readonly KnownReading[]): boolean {
  const width = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
  const stated = readings.flatMap(({ line }) => line.statedWavelengthNm ?? []);
  const ordinates = readings.map(({ observation }) => observation.ordinate);
  return width(stated) >= NEVER_ALIKE_NM && width(ordinates) < READ_ALIKE * lampStep(bench);
}

function monotoneOnes(bench: Bench, explanations: readonly BenchExplanation[]): BenchExplanation[] {
  const kept = explanations.filter((explanation) => {
    const curve = curveOf(explanation, explanation.posterior, 'arcmin');
    return curve !== null && runsTheRightWay(bench, curve);
  });
  const total = sumOf(kept, ({ probability }) => probability);
  return kept.map((explanation) => ({ ...explanation, probability: explanation.probability / total }));
}

/** With the constants of its curve, which are printed, and the likeliest explanation that leads to it. */
type Hypothesis = CalibrationHypothesis & {
  readonly constants: GaussianConstants;
  readonly lead: BenchExplanation;
};

/** Explanations whose curves are alike become one hypothesis; the likeliest explanation leads. */
function mergedHypotheses(
  bench: Bench,
  explanations: readonly BenchExplanation[],
  unit: OrdinateUnit,
): Hypothesis[] {
  const groups: BenchExplanation[][] = [];
  for (const explanation of explanations) {
    const group = groups.find(([lead]) => alike(bench, lead!, explanation));
    if (group) group.push(explanation);
    else groups.push([explanation]);
  }
  const hypotheses = groups.flatMap((members): Hypothesis[] => {
    const lead = members[0]!;
    const probability = sumOf(members, (member) => member.probability);
    const weights = members.map((member) => member.probability / probability);
    const constants = mixedConstants(
      members.map((member) => member.posterior.constants),
      weights,
    );
    const origin = lampOrigin(withMove(bench, lead.move));
    const curve = curveOf(lead, { ...lead.posterior, constants }, unit);
    const now = members.map((member) => countedFrom(bench, lead.move, member.move, member.now));
    const curveNow =
      lead.move === null
        ? curve
        : curveOf(lead, { ...lead.posterior, constants: mixedConstants(now, weights) }, unit);
    return curve && curveNow ? [{ probability, curve, curveNow, origin, constants, lead }] : [];
  });
  const kept = hypotheses
    .sort((a, b) => b.probability - a.probability)
    .slice(0, HYPOTHESES.most)
    .filter(({ probability }, i) => i === 0 || probability > HYPOTHESES.negligible);
  const total = sumOf(kept, ({ probability }) => probability);
  return kept.map((hypothesis) => ({ ...hypothesis, probability: hypothesis.probability / total }));
}

function alike(bench: Bench, first: BenchExplanation, second: BenchExplanation): boolean {
  const { basis, settingVariance } = first.posterior;
  const tolerance = ALIKE_CURVES.part * Math.sqrt(roundingVariance(lampStep(bench)) + settingVariance);
  if (first.move?.lampIndex !== second.move?.lampIndex || first.move?.until !== second.move?.until)
    return false;
  if (Math.abs((first.move?.shift ?? 0) - (second.move?.shift ?? 0)) > tolerance) return false;
  const [one, other] = [first.posterior.constants.mean, second.posterior.constants.mean];
  return ALIKE_CURVES.atNm.every((nm) => {
    const difference = sumOf([...basis.at(nm)], (value, k) => value * (one[k]! - other[k]!));
    return Math.abs(difference) < tolerance;
  });
}

function writtenFormula(basis: CurveBasis, unit: OrdinateUnit): string {
  const left = unit === 'arcmin' ? 'δ' : 's';
  const terms = basis.constants.map((name, k) => (k === 0 ? name : `${name}·P${k}(x)`));
  return `${left} = ${terms.join(' + ')}, P Legendre polynomials, ${basis.abscissa}`;
}

function coefficients(basis: CurveBasis, constants: GaussianConstants, unit: OrdinateUnit): Coefficient[] {
  return basis.constants.map((name, k) => ({
    name,
    value: constants.mean[k]!,
    standardUncertainty: Math.sqrt(constants.covariance[k * basis.size + k]!),
    unit: unit === 'arcmin' ? "'" : 'scale units',
  }));
}
