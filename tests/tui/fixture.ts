/** A small stand-in for the identification: real calibration, hand-made ranking. For tests of the screen only. */
import type { Analysis, Candidate, TubeAnalysis, TubeLineResult } from '../../src/analysis/types.ts';
import { lampSpectrum } from '../../src/lines/table.ts';
import { centralImage } from '../../src/observe/central-image.ts';
import { observe } from '../../src/observe/observation.ts';
import type { Bench } from '../../src/record/bench.ts';
import type { BenchRecord } from '../../src/record/schema.ts';
import { checkedBench } from '../../src/record/to-bench.ts';
import { type BenchForm, BLANK_FORM } from '../../src/tui/form.ts';
import { type ScreenState, START_PLACE, startState } from '../../src/tui/state.ts';
import { startHistory } from '../../src/tui/trail.ts';
import { calibrateAndTell as calibrate } from '../calibrate-and-tell.ts';

export function analyseFixture(form: BenchForm): Analysis {
  const result = checkedBench(form as BenchRecord);
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('; '));
  const { bench } = result;
  const { calibration } = calibrate(bench);
  const base = { bench, calibration, warnings: [] };
  return { ...base, tubes: bench.tubes.map((_, at) => tubeOf({ ...base, tubes: [] }, bench, at)) };
}

function tubeOf(analysis: Analysis, bench: Bench, at: number): TubeAnalysis {
  const tube = bench.tubes[at]!;
  const { curve } = analysis.calibration;
  const central = centralImage(bench, bench.central);
  const lines = tube.lines.map((line): TubeLineResult => {
    const ordinate = observe(bench, line.settings, central)?.ordinate ?? null;
    const estimate = curve === null || ordinate === null ? null : curve.wavelengthAt(ordinate, 0.4);
    return {
      index: line.index,
      deviationDeg: ordinate === null ? null : ordinate / 60,
      ordinate,
      wavelengthNm: estimate?.wavelengthNm ?? null,
      standardUncertaintyNm: estimate?.standardUncertaintyNm ?? null,
      correctedNm: null,
      correctedUncertaintyNm: null,
      extrapolated: estimate?.extrapolated ?? false,
      budget: [],
      status: 'used',
      message: null,
    };
  });
  const hasRanking = curve !== null && lines.length > 0;
  const candidates = hasRanking
    ? [candidate('neon', 'Ne', 0.97, lines), candidate('argon', 'Ar', 0.02, lines), unlisted]
    : [];
  return {
    tubeIndex: at,
    label: tube.label,
    shift: null,
    lines,
    candidates,
    verdict: {
      kind: 'undecided',
      substance: null,
      sentence: hasRanking ? 'Most likely neon, not certain yet.' : 'Nothing can be said yet.',
      nextLook: hasRanking
        ? { reading: "229°41'", wavelengthNm: 540.06, separates: ['neon', 'argon'] }
        : null,
    },
    reasons: hasRanking ? ['argon would show a bright line at 763.5 nm.'] : [],
    doubts: [],
    warnings: [],
    readTwice: [],
  };
}

const unlisted: Candidate = {
  substance: 'unlisted',
  symbol: null,
  with: [],
  indistinguishable: [],
  probability: 0.01,
  logEvidence: -30,
  matches: [],
  unexplained: [],
  missing: [],
  reasonAgainst: null,
  reasonInShort: null,
  contributions: [],
};

function candidate(
  substance: string,
  symbol: string,
  probability: number,
  lines: readonly TubeLineResult[],
): Candidate {
  const listed = lampSpectrum([substance]).lines.filter(({ prominence }) => prominence > -2);
  const matches = lines.flatMap(({ index, wavelengthNm, standardUncertaintyNm }) => {
    if (wavelengthNm === null) return [];
    const [near] = [...listed].sort(
      (a, b) => Math.abs(a.wavelengthNm - wavelengthNm) - Math.abs(b.wavelengthNm - wavelengthNm),
    );
    const residualNm = wavelengthNm - (near?.wavelengthNm ?? 0);
    const residualSigma = residualNm / (standardUncertaintyNm ?? 1);
    return Math.abs(residualSigma) > 4
      ? []
      : [{ index, substance, wavelengthNm: near!.wavelengthNm, residualNm, residualSigma, asRead: true }];
  });
  const matched = new Set(matches.map(({ index }) => index));
  const bright = listed.filter(({ prominence, wavelengthNm }) => prominence > -1 && wavelengthNm < 700);
  return {
    ...unlisted,
    substance,
    symbol,
    probability,
    matches,
    unexplained: lines.filter(({ index }) => !matched.has(index)).map(({ index }) => index),
    missing: bright
      .filter(({ wavelengthNm }) => !matches.some((match) => match.wavelengthNm === wavelengthNm))
      .map(({ wavelengthNm }) => ({ wavelengthNm, chanceSeen: 0.8, brightest: false })),
  };
}

/** An ordinary bench: mercury read to one minute, nine lines of a tube. */
export const FILLED: BenchForm = {
  whichgas: 1,
  title: 'Fixture bench',
  instrument: { method: 'central', leastCount: "1'" },
  central: ["181°04'", "181°05'"],
  known: [
    {
      lamp: 'mercury',
      lines: [
        { wavelengthNm: 404.66, readings: ["232°18'"] },
        { wavelengthNm: 435.83, readings: ["231°26'"] },
        { wavelengthNm: 546.07, readings: ["229°40'"] },
        { wavelengthNm: 579.07, readings: ["229°21'"] },
      ],
    },
  ],
  unknown: [
    {
      label: 'tube C',
      lines: [
        { readings: ["228°49'"], color: 'red', brightness: 'strong' },
        { readings: ["228°53'"], color: 'red', brightness: 'strong' },
        { readings: ["229°03'"], color: 'orange' },
        { readings: ["229°17'"], color: 'yellow' },
      ],
    },
  ],
};

export { BLANK_FORM };

/** The screen as it starts on a record. */
export function startStateOf(form: BenchForm, fileName = 'bench.json'): ScreenState {
  return startState(startHistory(form, START_PLACE), fileName);
}
