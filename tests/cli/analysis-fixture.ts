/** Small hand-made pieces of an Analysis, to test what is done with it apart from how it is made. */
import type { Analysis, Candidate, ToldCalibration, TubeAnalysis } from '../../src/analysis/types.ts';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';

import type { Bench, UnknownTube } from '../../src/record/bench.ts';
import type { Doubt } from '../../src/words/doubt.ts';

/** A straight curve: 3000 arc-minutes at 550 nm, one less for every nm, known to `u` arc-minutes everywhere. */
export function straightCurve({ offset = 0, slope = -1, u = 0.1 } = {}): CalibrationCurve {
  return {
    unit: 'arcmin',
    rangeNm: [450, 650],
    domainNm: [350, 800],
    ordinateAt: (nm) => 3000 + offset + slope * (nm - 550),
    slopeAt: () => slope,
    covariance: () => u ** 2,
    wavelengthAt: (ordinate, variance) => {
      const wavelengthNm = 550 + (ordinate - 3000 - offset) / slope;
      const standardUncertaintyNm = Math.sqrt(variance + u ** 2) / Math.abs(slope);
      return { wavelengthNm, standardUncertaintyNm, extrapolated: wavelengthNm < 450 || wavelengthNm > 650 };
    },
  };
}

export function calibration(parts: Partial<ToldCalibration> = {}): ToldCalibration {
  const curve = straightCurve();
  return {
    unit: 'arcmin',
    model: 'straight line',
    choice: 'It is a test.',
    hartmann: null,
    polynomial: null,
    formula: 'δ = c0 + c1·λ',
    coefficients: [],
    rms: 0.3,
    settingScatter: 0.5,
    lines: [],
    checks: [],
    curve,
    curveNow: parts.curve === undefined ? curve : parts.curve,
    moved: null,
    hypotheses: [],
    rivals: [],
    budget: [],
    indices: null,
    doubts: [],
    warnings: [],
    ...parts,
  };
}

export function doubt(parts: Partial<Doubt>): Doubt {
  return {
    step: 'known',
    index: 1,
    kind: 'slip',
    probability: 0.99,
    message: 'Known line 2 looks misread.',
    ...parts,
  };
}

export function candidate(substance: string, probability: number, parts: Partial<Candidate> = {}): Candidate {
  return {
    substance,
    symbol: substance === 'unlisted' ? null : 'X',
    with: [],
    indistinguishable: [],
    probability,
    logEvidence: Math.log(probability),
    matches: [{ index: 0, substance, wavelengthNm: 500, residualNm: 0.1, residualSigma: 0.1, asRead: true }],
    unexplained: [],
    missing: [],
    reasonAgainst: null,
    reasonInShort: null,
    contributions: [],
    ...parts,
  };
}

export function bench(parts: Partial<Bench> = {}): Bench {
  return {
    title: '',
    method: 'central',
    leastCount: 1,
    scaleDivisionArcmin: 30,
    windows: 1,
    prism: 'each-line',
    setAtNm: null,
    apexAngle: null,
    central: [{ kind: 'one-side', windows: [100] }],
    known: [],
    tubes: [tube()],
    check: [],
    ranking: 'always',
    about: {},
    ...parts,
  };
}

export function tube(parts: Partial<UnknownTube> = {}): UnknownTube {
  return {
    index: 0,
    label: 'tube 1',
    central: null,
    lines: [],
    notSeen: [],
    complete: false,
    shelf: null,
    answer: null,
    answerBeforeRanking: null,
    ranking: 'always',
    ...parts,
  };
}

/** Readings, every one turned into a wavelength. */
export function tubeAnalysis(
  candidates: readonly Candidate[],
  parts: Partial<TubeAnalysis> = {},
): TubeAnalysis {
  const lines = [500, 550, 587, 640].map((wavelengthNm, index) => ({
    index,
    deviationDeg: 50,
    ordinate: 3000,
    wavelengthNm,
    standardUncertaintyNm: 1,
    correctedNm: null,
    correctedUncertaintyNm: null,
    extrapolated: false,
    budget: [],
    status: 'used' as const,
    message: null,
  }));
  return {
    tubeIndex: 0,
    label: 'tube 1',
    shift: null,
    lines,
    candidates,
    verdict: { kind: 'undecided', substance: null, sentence: 'Undecided.', nextLook: null },
    reasons: [],
    doubts: [],
    warnings: [],
    readTwice: [],
    ...parts,
  };
}

export function analysis(tubes: readonly TubeAnalysis[], parts: Partial<Analysis> = {}): Analysis {
  return { bench: bench(), calibration: calibration(), tubes, warnings: [], ...parts };
}
