/** Pieces of an identification made by hand on the straight curve, for tests of single steps. */
import type { CalibrationCurve } from '../../src/calibrate/types.ts';
import type { BenchView } from '../../src/identify/bench/bench-hypothesis.ts';
import type { UnknownReading } from '../../src/identify/bench/unknown-reading.ts';
import { PairingList } from '../../src/identify/evidence/alignment.ts';
import { DensityTables, varianceClass } from '../../src/identify/evidence/density-table.ts';
import { WorkAllowance } from '../../src/identify/evidence/work-allowance.ts';
import type { Row } from '../../src/identify/rank/rank.ts';
import { waysOfLooking } from '../../src/identify/spectrum/detection.ts';
import type { LinePlaces, ModelLine } from '../../src/identify/spectrum/expected-lines.ts';
import type { Candidate } from '../../src/identify/types.ts';
import type { TubeSpectrum } from '../../src/lines/spectrum.ts';
import type { BenchLine } from '../../src/record/bench.ts';
import { straightCurve } from '../calibrate/straight-curve.ts';

/** The straight curve with its inverse, from 400 to 700 nm: 3200' to 2600'. */
export const handCurve: CalibrationCurve = {
  ...straightCurve,
  wavelengthAt: (ordinate, variance) => {
    const wavelengthNm = (4000 - ordinate) / 2;
    if (wavelengthNm < 400 || wavelengthNm > 700) return null;
    return { wavelengthNm, standardUncertaintyNm: Math.sqrt(variance + 0.04) / 2, extrapolated: false };
  },
};

/** A line of a tube, bright and surely placed. */
export function handLine(wavelengthNm: number, parts: Partial<ModelLine> = {}): ModelLine {
  const ordinate = parts.ordinate ?? handCurve.ordinateAt(wavelengthNm);
  const prominence = parts.prominence ?? 0;
  const variance = parts.variance ?? 0.01;
  return {
    wavelengthNm,
    members: [{ substance: 'neon', wavelengthNm, ordinate, prominence, component: 0 }],
    ordinate,
    variance,
    varianceClass: varianceClass(variance),
    prominence,
    prominenceSd: 0.3,
    strengthSd: 0,
    component: 0,
    expected: true,
    modes: [],
    ...parts,
  };
}

/** A reading with a standard uncertainty of 0.5', none of it rounding. */
export function handReading(
  index: number,
  ordinate: number,
  parts: Partial<UnknownReading> = {},
  line: Partial<BenchLine> = {},
): UnknownReading {
  return {
    line: { index, colour: null, brightness: null, ...line } as BenchLine,
    observation: { ordinate } as UnknownReading['observation'],
    ordinate,
    halfCount: 0,
    variance: 0.25,
    totalVariance: 0.25,
    varianceTerms: [],
    alternatives: [],
    ...parts,
  };
}

/** The bench as the record says, without a common error. */
export const handView = {
  explanation: 'plain',
  logWeight: 0,
  curve: handCurve,
  common: { modes: [], nodes: [{ z: [], logWeight: 0 }], residualVariance: () => 0 },
  shift: 0,
  offsetVariance: 0,
  central: null,
  table: { residualVariance: new Float64Array(44), modes: [] },
} as BenchView;

/** Their places line by line, for so many common modes. */
export const handPlaces = (lines: readonly ModelLine[], modes = 0): LinePlaces => ({
  ordinates: lines.map(({ ordinate }) => ordinate),
  variances: lines.map(({ variance }) => variance),
  varianceClasses: lines.map(({ varianceClass }) => varianceClass),
  modes: Array.from({ length: modes }, (_, mode) => lines.map(({ modes }) => modes[mode]!)),
});

/** A row of the ranking: a tube that shows these lines through a view, seen by all, and the readings it explains. */
export function handRow(
  probability: number,
  substance: string,
  lines: readonly ModelLine[],
  readings: readonly UnknownReading[],
  view: BenchView = handView,
): Row {
  const ways = waysOfLooking(false, readings.length);
  const densities = new Map(readings.map((reading) => [reading, { stray: 1e-4, anywhere: 1e-3 }]));
  const ordered = [...lines].sort((a, b) => a.ordinate - b.ordinate);
  return {
    tube: { substance, symbol: 'X' } as TubeSpectrum,
    admixtures: [],
    indistinguishable: [],
    logEvidence: Math.log(probability),
    probability,
    slips: null,
    reading: {
      corrected: false,
      evidence: {
        readings: [...readings].sort((a, b) => a.ordinate - b.ordinate),
        densities: new DensityTables(),
        pairingList: new PairingList(),
        allowance: new WorkAllowance(1e9),
        spectra: { ways },
      },
      found: { log: 0, best: null, lookingLogs: ways.map(({ weight }) => Math.log(weight)), movedShare: 0 },
      assumption: {
        likelihoods: { view, densities, logAllStray: 0, logAllAnywhere: 0 },
        seen: {
          lines: ordered,
          places: handPlaces(ordered),
          widest: Math.max(...ordered.map((line) => line.varianceClass)),
          notes: () => null,
          detections: { strengths: 1, at: (_: number, way: number) => ({ looking: ways[way]!.looking }) },
        },
        node: [],
        detection: {
          odds: ordered.map(() => 5),
          looking: ways[2]!.looking,
          way: 2,
          strength: 0,
          strengths: { gains: [0] },
        },
      },
    },
  } as unknown as Row;
}

/** What the report says of a row. */
export function handCandidate(substance: string, parts: Partial<Candidate> = {}): Candidate {
  return {
    substance,
    symbol: substance === 'unlisted' ? null : 'X',
    with: [],
    indistinguishable: [],
    probability: 1,
    logEvidence: 0,
    matches: [],
    unexplained: [],
    missing: [],
    against: null,
    contributions: [],
    ...parts,
  };
}

/** Readings that lie so many of their uncertainties from their lines, as read. */
export const matchesOf = (sigmas: readonly number[]): Candidate['matches'] =>
  sigmas.map((residualSigma, index) => ({
    index,
    substance: 'neon',
    wavelengthNm: 600 + 10 * index,
    residualNm: residualSigma,
    residualSigma,
    asRead: true,
  }));
