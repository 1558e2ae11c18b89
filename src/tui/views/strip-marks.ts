/** What stands on the strip: the readings as pointers, the lines of a lamp or tube as ticks. */
import type { Analysis, Candidate, Match, TubeLineResult } from '../../analysis/types.ts';
import { parseAngle } from '../../angle/parse-angle.ts';
import { wrapDegrees } from '../../angle/wrap.ts';
import type { CalibrationCurve } from '../../calibrate/types.ts';
import type { TubeLine } from '../../lines/spectrum.ts';
import { lampSpectrum } from '../../lines/table.ts';
import { isReadable } from '../../lines/visible.ts';
import { observe } from '../../observe/observation.ts';
import { directionFrom, lampOrigin, type Origin, tubeOrigin } from '../../observe/origin.ts';
import { readingAt } from '../../observe/reading-at.ts';

/** Ticks fainter than this are left out unless a reading matches them. */
const FAINTEST_TICK = -2.8;

/** Whose readings are the pointers, and whose lines the ticks. */
export type StripSubject =
  | { readonly kind: 'tube'; readonly tube: number; readonly substance: string | null }
  | { readonly kind: 'lamp'; readonly lamp: number };

type TubeSubject = Extract<StripSubject, { kind: 'tube' }>;

export interface Pointer {
  /** Arc-minutes of deviation, or scale units. */
  readonly ordinate: number;
  readonly wavelengthNm: number | null;
  readonly offUnits: number | null;
  /** Looked at, and nothing was there. */
  readonly isNothing?: true;
  /** Its line is found with a slip undone: the reading as it stands lies elsewhere. */
  readonly isMended?: boolean;
}

export interface Tick {
  readonly ordinate: number;
  readonly line: TubeLine;
  readonly isMissing: boolean;
}

/** With a curve only. */
export function pointersOf(analysis: Analysis, subject: StripSubject): readonly Pointer[] {
  if (subject.kind === 'tube') return tubePointers(analysis, subject);
  return analysis.calibration.lines.flatMap(({ lampIndex, ordinate, wavelengthNm, residual }) =>
    lampIndex !== subject.lamp || ordinate === null ? [] : [{ ordinate, wavelengthNm, offUnits: residual }],
  );
}

function tubePointers(analysis: Analysis, subject: TubeSubject): readonly Pointer[] {
  const curve = analysis.calibration.curve!;
  const candidate = candidateOf(analysis, subject);
  const lines = analysis.tubes[subject.tube]?.lines ?? [];
  return [
    ...lines.flatMap((each) => pointerOf(each, candidate, curve)),
    ...nothingPointers(analysis, subject, curve),
  ];
}

function candidateOf({ tubes }: Analysis, { tube, substance }: TubeSubject): Candidate | null {
  return tubes[tube]?.candidates.find((each) => each.substance === substance) ?? null;
}

/** With a curve only. */
export function ticksOf(analysis: Analysis, subject: StripSubject): readonly Tick[] {
  const curve = analysis.calibration.curve!;
  const isBright = (each: TubeLine): boolean => each.expected && each.prominence >= FAINTEST_TICK;
  if (subject.kind === 'lamp')
    return linesOn(curve, analysis.bench.known[subject.lamp]?.substances ?? [])
      .filter(isBright)
      .map((each) => tickAt(each, curve, false));
  if (subject.substance === null) return [];
  const { matches = [], missing = [] } = candidateOf(analysis, subject) ?? {};
  const isIn = (list: readonly { readonly wavelengthNm: number }[], each: TubeLine): boolean =>
    list.some(({ wavelengthNm }) => Math.abs(wavelengthNm - each.wavelengthNm) < 0.05);
  return linesOn(curve, [subject.substance])
    .filter((each) => isIn(matches, each) || isBright(each))
    .map((each) => tickAt(each, curve, isIn(missing, each)));
}

function linesOn({ domainNm: [lowest, highest] }: CalibrationCurve, substances: readonly string[]) {
  return lampSpectrum(substances).lines.filter(
    ({ wavelengthNm }) => isReadable(wavelengthNm) && wavelengthNm >= lowest && wavelengthNm <= highest,
  );
}

function tickAt(line: TubeLine, curve: CalibrationCurve, isMissing: boolean): Tick {
  return { ordinate: curve.ordinateAt(line.wavelengthNm), line, isMissing };
}

/** Where the readings on the strip count from. */
function originOf({ bench }: Analysis, subject: StripSubject): Origin {
  if (subject.kind === 'lamp') return lampOrigin(bench, subject.lamp);
  const tube = bench.tubes[subject.tube];
  return tube === undefined ? lampOrigin(bench) : tubeOrigin(bench, tube);
}

/** The scale of the strip: the bench's own circle, on a bench that reads both sides its left side. */
export interface StripScale {
  /** Its reading where nothing is deviated, arc-minutes; null where the strip can show deviations only. */
  readonly zeroArcmin: number | null;
  /** Which way readings go as deviations grow. */
  readonly direction: 1 | -1;
}

export function scaleOf(analysis: Analysis, subject: StripSubject): StripScale {
  const { bench } = analysis;
  if (bench.method === 'scale') return { zeroArcmin: null, direction: 1 };
  const origin = originOf(analysis, subject);
  if (bench.method === 'central')
    return {
      zeroArcmin: (origin.central?.windowsDeg[0] ?? 0) * 60,
      direction: directionFrom(bench, origin),
    };
  const [zero, further] = [0, 60].map((deviation) => leftReading(readingAt(bench, deviation)));
  if (zero == null || further == null) return { zeroArcmin: null, direction: 1 };
  return { zeroArcmin: 60 * zero, direction: wrapDegrees(further - zero) < 0 ? -1 : 1 };
}

/** Degrees of `left 229°21' / 49°22' right 132°47' / 312°48'` in the first window of its left side. */
function leftReading(text: string | null): number | null {
  const [, left = ''] = /^left ([^/]+?) (?:\/|right)/.exec(text ?? '') ?? [];
  const angle = parseAngle(left);
  return angle.ok ? angle.degrees : null;
}

/** What stands at the left and at the right end of a picture that runs as the readings do: red, or violet. */
export function endColours(analysis: Analysis, subject: StripSubject): readonly [string, string] {
  const { curve } = analysis.calibration;
  const [violet = 400, red = 700] = curve?.domainNm ?? [];
  const grows =
    scaleOf(analysis, subject).direction * ((curve?.ordinateAt(violet) ?? 0) - (curve?.ordinateAt(red) ?? 0));
  return grows < 0 ? ['violet', 'red'] : ['red', 'violet'];
}

function pointerOf(
  each: TubeLineResult,
  candidate: Candidate | null,
  curve: CalibrationCurve,
): readonly Pointer[] {
  const { ordinate, wavelengthNm } = each;
  if (ordinate === null) return [];
  const match = candidate?.matches.find(({ index }) => index === each.index);
  const isMended = match !== undefined && !match.asRead;
  const offUnits = match === undefined || isMended ? null : offLine(each, match, curve);
  return [{ ordinate, wavelengthNm, offUnits, isMended }];
}

/** The reading as it stands minus the place of its line, in the ordinate's unit. */
export function offLine(
  { ordinate }: TubeLineResult,
  { wavelengthNm }: Match,
  curve: CalibrationCurve,
): number | null {
  return ordinate === null ? null : ordinate - curve.ordinateAt(wavelengthNm);
}

function nothingPointers(
  analysis: Analysis,
  subject: TubeSubject,
  curve: CalibrationCurve,
): readonly Pointer[] {
  const { bench } = analysis;
  const { central } = originOf(analysis, subject);
  return (bench.tubes[subject.tube]?.notSeen ?? []).flatMap((place) => {
    const ordinate =
      place.kind === 'wavelength'
        ? curve.ordinateAt(place.wavelengthNm)
        : observe(bench, place.settings, central)?.ordinate;
    return ordinate === undefined ? [] : [{ ordinate, wavelengthNm: null, offUnits: null, isNothing: true }];
  });
}
