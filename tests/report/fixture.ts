/** An invented bench with its analysis written out by hand: helium lamp, 60° flint prism, a neon tube. */
import type {
  Analysis,
  Candidate,
  ToldCalibration,
  ToldCalibrationLine,
  TubeAnalysis,
  TubeLineResult,
} from '../../src/analysis/types.ts';
import { formatAngle } from '../../src/angle/format-angle.ts';
import { otherCurves } from '../../src/calibrate/compare/other-curves.ts';
import { glasses, refractiveIndex } from '../../src/calibrate/curve/glasses.ts';
import { minimumDeviationDeg } from '../../src/calibrate/curve/minimum-deviation.ts';
import { refractiveIndices } from '../../src/calibrate/refractive-index.ts';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';

import { lampOrigin } from '../../src/observe/origin.ts';
import type { Bench, BenchLine } from '../../src/record/bench.ts';
import { indexNote } from '../../src/words/index-text.ts';

const flint = glasses.find(({ name }) => name === 'F2')!;
const centralDeg = 181 + 4 / 60;
const ordinateAt = (nm: number): number => 60 * minimumDeviationDeg(60, refractiveIndex(flint, nm));
const slopeAt = (nm: number): number => ordinateAt(nm + 0.5) - ordinateAt(nm - 0.5);

/** What must stay text in every form of the report. */
export const hostile =
  '<script>alert(1)</script> =HYPERLINK("http://x.example","y") **bold** \u202Eevil\u202C \x1b[31m| `x`';

const heliumNm = [447.15, 471.31, 492.19, 501.57, 587.56, 667.82, 706.52];
const knownErrors = [0.6, -0.4, 0.5, -0.7, 0.2, 0.4, -0.5];
const neonNm = [585.25, 594.48, 614.31, 640.22, 650.65, 703.24];
const tubeErrors = [0.4, -0.5, 0.3, -0.2, 0.6, 0.1];

const benchLine = (index: number, deviationArcmin: number, note: string | null): BenchLine => {
  const reading = Math.round((centralDeg + deviationArcmin / 60) * 60) / 60;
  return {
    index,
    settings: [{ kind: 'one-side', windows: [reading] }],
    texts: [formatAngle(reading, 1)],
    colour: index === 0 ? 'yellow' : 'red',
    brightness: 'strong',
    note,
    use: true,
  };
};

const known = heliumNm.map((nm, at) => ({
  ...benchLine(at, ordinateAt(nm) + knownErrors[at]!, null),
  lampIndex: 0,
  statedWavelengthNm: at === 0 ? 438.79 : nm,
  confirmed: false,
}));
const unknown = neonNm.map((nm, at) =>
  benchLine(at, ordinateAt(nm) + tubeErrors[at]!, at === 1 ? hostile : null),
);

const curve: CalibrationCurve = {
  unit: 'arcmin',
  rangeNm: [447.15, 706.52],
  domainNm: [390, 780],
  ordinateAt,
  slopeAt,
  covariance: (a, b) => 0.12 + 0.0000012 * (a - 560) * (b - 560),
  wavelengthAt: () => null,
};

const calibrationLines = known.map(
  (line, at): ToldCalibrationLine => ({
    index: at,
    lampIndex: 0,
    statedWavelengthNm: line.statedWavelengthNm,
    wavelengthNm: heliumNm[at]!,
    deviationDeg: (ordinateAt(heliumNm[at]!) + knownErrors[at]!) / 60,
    ordinate: ordinateAt(heliumNm[at]!) + knownErrors[at]!,
    standardUncertainty: 0.52,
    residual: knownErrors[at]!,
    status: at === 0 ? 'reassigned' : 'used',
    message: null,
  }),
);

const tubeLines = neonNm.map(
  (nm, at): TubeLineResult => ({
    index: at,
    deviationDeg: (ordinateAt(nm) + tubeErrors[at]!) / 60,
    ordinate: ordinateAt(nm) + tubeErrors[at]!,
    wavelengthNm: nm + tubeErrors[at]! / slopeAt(nm),
    standardUncertaintyNm: Math.hypot(0.5, Math.sqrt(curve.covariance(nm, nm))) / -slopeAt(nm),
    correctedNm: null,
    correctedUncertaintyNm: null,
    extrapolated: false,
    budget: [
      { source: 'setting', standardUncertainty: 0.5, sharedByAllLines: false, at: null },
      {
        source: 'curve',
        standardUncertainty: Math.sqrt(curve.covariance(nm, nm)),
        sharedByAllLines: true,
        at: nm,
      },
    ],
    status: 'used',
    message: null,
  }),
);

function candidate(
  substance: string,
  symbol: string,
  probability: number,
  listed: (number | null)[],
): Candidate {
  return {
    substance,
    symbol,
    with: [],
    indistinguishable: [],
    probability,
    logEvidence: Math.log(probability),
    matches: listed.flatMap((wavelengthNm, index) => {
      if (wavelengthNm === null) return [];
      const { wavelengthNm: measured, standardUncertaintyNm: u } = tubeLines[index]!;
      return [
        {
          index,
          substance,
          wavelengthNm,
          residualNm: measured! - wavelengthNm,
          residualSigma: (measured! - wavelengthNm) / u!,
          asRead: true,
        },
      ];
    }),
    unexplained: listed.flatMap((nm, index) => (nm === null ? [index] : [])),
    missing: substance === 'neon' ? [] : [{ wavelengthNm: 557.03, chanceSeen: 0.93, brightest: false }],
    reasonAgainst: null,
    reasonInShort: null,
    contributions: listed.map((nm, index) => ({ index, logOdds: nm === null ? -1.3 : 2.4 })),
  };
}

const tube: TubeAnalysis = {
  tubeIndex: 0,
  label: 'tube C',
  shift: null,
  lines: tubeLines,
  candidates: [
    candidate('neon', 'Ne', 0.9971, neonNm),
    candidate('krypton', 'Kr', 0.0026, [587.09, null, null, null, null, null]),
    {
      ...candidate(
        'unlisted',
        '',
        0.0003,
        neonNm.map(() => null),
      ),
      symbol: null,
      missing: [],
    },
  ],
  verdict: {
    kind: 'identified',
    substance: 'neon',
    sentence: 'All six readings fall on lines of neon.',
    nextLook: null,
  },
  reasons: ['Five of six readings fit no line of krypton.', 'Its green line at 557.03 nm was not read.'],
  doubts: [],
  warnings: [],
  readTwice: [],
};

const bench: Bench = {
  title: `Bench 2, afternoon ${hostile}`,
  method: 'central',
  leastCount: 1,
  scaleDivisionArcmin: 30,
  windows: 1,
  prism: 'each-line',
  setAtNm: null,
  apexAngle: { valueDeg: 60, uDeg: 2 / 60 },
  central: [{ kind: 'one-side', windows: [centralDeg] }],
  known: [{ name: 'helium', substances: ['helium'], lines: known }],
  tubes: [
    {
      index: 0,
      label: 'tube C',
      central: null,
      lines: unknown,
      notSeen: [{ kind: 'wavelength', wavelengthNm: 557.03 }],
      complete: false,
      shelf: ['helium', 'neon', 'krypton'],
      answer: { text: 'neon', substance: 'neon' },
      answerBeforeRanking: true,
      ranking: 'always',
    },
  ],
  check: [],
  ranking: 'always',
  about: { date: '2026-11-25', observers: ['A', hostile], station: '2', lamp: 'L4', prism: 'P2' },
};

const formulae = otherCurves(
  calibrationLines.map(({ wavelengthNm, ordinate }) => ({
    wavelengthNm: wavelengthNm!,
    ordinate: ordinate!,
    resolutionVariance: 0.1,
    settingShare: 1,
    wavelengthVariance: 0,
  })),
  curve,
);

const calibration: Omit<ToldCalibration, 'indices'> = {
  unit: 'arcmin',
  model: 'polynomial of degree 2 in 1/λ²',
  choice: 'Chosen because it predicts each line from the others best.',
  hartmann: formulae.hartmann,
  polynomial: formulae.polynomial,
  formula: 'δ = c0 + c1·x + c2·x² with x = (1/λ² - 3.0)/1.5, λ in µm',
  coefficients: [
    { name: 'c0', value: 2890.123, standardUncertainty: 0.31, unit: "'" },
    { name: 'c1', value: 101.44, standardUncertainty: 0.46, unit: "'" },
    { name: 'c2', value: 5.12, standardUncertainty: 0.7, unit: "'" },
  ],
  rms: 0.49,
  settingScatter: 0.41,
  lines: calibrationLines,
  checks: [],
  curve,
  curveNow: curve,
  moved: null,
  hypotheses: [{ probability: 1, curve, curveNow: curve, origin: lampOrigin(bench) }],
  rivals: [
    { name: 'polynomial of degree 1 in 1/λ²', leaveOneOutRms: 3.21, refused: null },
    { name: 'polynomial of degree 2 in 1/λ²', leaveOneOutRms: 0.71, refused: null },
    { name: 'Hartmann', leaveOneOutRms: null, refused: 'not monotone over the range' },
  ],
  budget: [
    { source: 'resolution', standardUncertainty: 0.29, sharedByAllLines: false, at: null },
    { source: 'setting', standardUncertainty: 0.41, sharedByAllLines: false, at: null },
    { source: 'central-image', standardUncertainty: 0.36, sharedByAllLines: true, at: 0.5 },
  ],
  doubts: [
    {
      step: 'known',
      index: 0,
      kind: 'neighbour',
      probability: 0.981,
      message: "The line named 438.79 reads like helium 447.15: named for its neighbour? (it fits to 0.6')",
    },
  ],
  warnings: [],
};

const indices = refractiveIndices(bench, calibration)!;

export const analysis: Analysis = {
  bench,
  calibration: { ...calibration, indices: { ...indices, notes: indices.notes.map(indexNote) } },
  tubes: [tube],
  warnings: [],
};

/** The same lines read on a drum without angles. */
export const scaleAnalysis: Analysis = {
  ...analysis,
  bench: {
    ...bench,
    method: 'scale',
    leastCount: 0.01,
    scaleDivisionArcmin: null,
    apexAngle: null,
    central: [],
    title: '',
  },
  calibration: {
    ...analysis.calibration,
    unit: 'scale',
    indices: null,
    curve: { ...curve, unit: 'scale' },
    lines: calibrationLines.map((line) => ({ ...line, deviationDeg: null })),
  },
  tubes: [{ ...tube, lines: tubeLines.map((line) => ({ ...line, deviationDeg: null })) }],
};

/** A record just begun: no calibration, a tube with one line and nothing known about it. */
export const unfinishedAnalysis: Analysis = {
  ...analysis,
  bench: { ...bench, apexAngle: null, known: [], central: [], about: {} },
  calibration: {
    ...analysis.calibration,
    model: '',
    choice: '',
    formula: '',
    coefficients: [],
    rms: null,
    settingScatter: null,
    lines: [],
    curve: null,
    hypotheses: [],
    rivals: [],
    budget: [],
    indices: null,
    doubts: [],
    warnings: [{ code: 'too-few-lines', message: 'Too few known lines for a calibration.' }],
  },
  tubes: [
    {
      ...tube,
      lines: [
        {
          ...tubeLines[0]!,
          deviationDeg: null,
          ordinate: null,
          wavelengthNm: null,
          standardUncertaintyNm: null,
        },
      ],
      candidates: [],
      reasons: [],
      verdict: {
        kind: 'undecided',
        substance: null,
        sentence: 'There is no calibration yet.',
        nextLook: null,
      },
    },
  ],
};
