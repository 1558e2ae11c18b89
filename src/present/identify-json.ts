/** The Analysis as `calibrate --json` and `identify --json` print it. The keys are a contract with scripts. */
import type { Analysis, Candidate, ToldCalibration, TubeAnalysis, Verdict } from '../analysis/types.ts';

import type { HartmannFormula, OrdinateUnit, PolynomialFormula } from '../calibrate/types.ts';
import type { Warning } from '../record/bench.ts';
import type { Doubt } from '../words/doubt.ts';
import { pocketConstants } from '../words/pocket-formula.ts';
import { indicesObject } from './indices-json.ts';
import { picked } from './safe-text.ts';

/** What `calibrate --json` prints for one record. */
export function calibrateObject(
  file: string,
  analysis: Analysis,
  recordWarnings: readonly Warning[],
  baseMm: number | null = null,
) {
  const { calibration } = analysis;
  return {
    file,
    title: analysis.bench.title,
    calibration: calibrationObject(calibration, baseMm),
    warnings: distinctWarnings([
      ...recordWarnings,
      ...analysis.warnings,
      ...calibration.warnings,
      ...calibration.doubts.map(doubtAsWarning),
    ]),
  };
}

/** What `identify --json` prints for one record: an object for every tube, one at least. */
export function identifyObjects(file: string, analysis: Analysis, recordWarnings: readonly Warning[]) {
  const { title, calibration, warnings } = calibrateObject(file, analysis, recordWarnings);
  const ofTubes = new Set(analysis.tubes.flatMap((tube) => tube.warnings.map(({ message }) => message)));
  const ofBench = warnings.filter(({ message }) => !ofTubes.has(message));
  return tubesOf(analysis).map((tube) => ({
    file,
    title,
    tube: tube.label,
    calibration,
    shift: tube.shift,
    lines: tube.lines.map((line) => ({
      ...picked(line, 'index', 'deviationDeg', 'wavelengthNm', 'standardUncertaintyNm', 'correctedNm'),
      ...picked(line, 'correctedUncertaintyNm', 'extrapolated', 'status', 'message'),
    })),
    candidates: tube.candidates.map(candidateObject),
    verdict: verdictObject(tube.verdict),
    warnings: distinctWarnings([...ofBench, ...tube.warnings, ...tube.doubts.map(doubtAsWarning)]),
  }));
}

/** The tubes of a record; one without readings where it has none, for a record without a tube still gets its object. */
export function tubesOf({ tubes }: Analysis): readonly TubeAnalysis[] {
  return tubes.length === 0 ? [missingTube] : tubes;
}

const missingTube: TubeAnalysis = {
  tubeIndex: 0,
  label: 'tube 1',
  shift: null,
  lines: [],
  candidates: [],
  verdict: {
    kind: 'undecided',
    substance: null,
    sentence: 'The record has no unknown tube yet.',
    nextLook: null,
  },
  reasons: [],
  doubts: [],
  warnings: [
    { code: 'no-unknown-tube', message: 'The record has no unknown tube, so there is nothing to name.' },
  ],
  readTwice: [],
};

function calibrationObject(calibration: ToldCalibration, baseMm: number | null) {
  const { unit } = calibration;
  return {
    ...picked(calibration, 'model', 'rms', 'unit', 'choice', 'formula'),
    coefficients: calibration.coefficients.map((each) =>
      picked(each, 'name', 'value', 'standardUncertainty', 'unit'),
    ),
    hartmann: calibration.hartmann && hartmannObject(calibration.hartmann, unit),
    polynomial: calibration.polynomial && polynomialObject(calibration.polynomial, unit),
    indices: calibration.indices && indicesObject(calibration.indices, baseMm),
    lines: calibration.lines.map((line) => ({
      ...picked(line, 'index', 'wavelengthNm', 'statedWavelengthNm', 'deviationDeg'),
      ...picked(line, 'residual', 'status', 'message'),
    })),
  };
}

/** λ = λ0 + C/(δ - δ0), on a scale λ = λ0 + C/(s - s0). */
function hartmannObject(formula: HartmannFormula, unit: OrdinateUnit) {
  const { u, ...constants } = pocketConstants(formula, unit);
  const [strength, zero] = unit === 'scale' ? (['cNm', 's0'] as const) : (['cNmDeg', 'delta0Deg'] as const);
  const named = (of: typeof constants) => ({
    lambda0Nm: of.lambda0Nm,
    [strength]: of.strengthNm,
    [zero]: of.zero,
  });
  return { ...named(constants), u: u && named(u), worstNm: formula.worstNm };
}

/** The deviation in degrees, or the reading of the scale, as a polynomial. */
function polynomialObject({ degree, coefficients, rms }: PolynomialFormula, unit: OrdinateUnit) {
  const per = unit === 'scale' ? 1 : 60;
  return {
    degree,
    in: '1/λ² (µm⁻²)',
    coefficients: coefficients.map(({ value, u }) => ({ value: value / per, u: u && u / per })),
    rms: rms / per,
    unit: unit === 'scale' ? 'scale' : 'deg',
  };
}

function candidateObject(candidate: Candidate) {
  return {
    ...picked(candidate, 'substance', 'symbol', 'with', 'indistinguishable', 'probability'),
    matches: candidate.matches.map((match) =>
      picked(match, 'index', 'substance', 'wavelengthNm', 'residualNm', 'residualSigma'),
    ),
    ...picked(candidate, 'unexplained', 'reasonAgainst'),
    missing: candidate.missing.map((line) => picked(line, 'wavelengthNm', 'chanceSeen')),
  };
}

function verdictObject({ kind, substance, sentence, nextLook }: Verdict) {
  return {
    kind,
    substance: kind === 'identified' ? substance : null,
    sentence,
    nextLook: nextLook && picked(nextLook, 'reading', 'wavelengthNm', 'separates'),
  };
}

function doubtAsWarning({ kind, message }: Doubt): Warning {
  return { code: kind, message };
}

/** Each sentence once, in the order in which it came up. */
function distinctWarnings(warnings: readonly Warning[]): Warning[] {
  const byMessage = new Map(warnings.map(({ code, message }) => [message, { code, message }]));
  return [...byMessage.values()];
}
