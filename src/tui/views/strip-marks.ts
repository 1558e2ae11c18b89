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

export interface Pointer {
  readonly place: number;
  readonly wavelengthNm: number | null;
  readonly offUnits: number | null;
  readonly isNothing: boolean;
  /** Its line is found with a slip undone: the reading as it stands lies elsewhere. */
  readonly isMended: boolean;
}

export interface Tick {
  readonly place: number;
  readonly line: TubeLine;
  readonly isMissing: boolean;
}

function candidateOf(
  { tubes }: Analysis,
  { tube, substance }: Extract<StripSubject, { kind: 'tube' }>,
): Candidate | null {
  return tubes[tube]?.candidates.find((each) => each.substance === substance) ?? null;
}

export function tubePointers(
  analysis: Analysis,
  subject: Extract<StripSubject, { kind: 'tube' }>,
  direction: number,
): readonly Pointer[] {
  const curve = analysis.calibration.curve!;
  const candidate = candidateOf(analysis, subject);
  const lines = analysis.tubes[subject.tube]?.lines ?? [];
  return [
    ...lines.flatMap((each) => pointerOf(each, candidate, curve, direction)),
    ...nothingPointers(analysis, subject, direction),
  ];
}

export function lampPointers(
  { calibration: { lines } }: Analysis,
  lamp: number,
  direction: number,
): readonly Pointer[] {
  return lines.flatMap(({ lampIndex, ordinate, wavelengthNm, residual }) =>
    lampIndex !== lamp || ordinate === null
      ? []
      : [
          {
            place: direction * ordinate,
            wavelengthNm,
            offUnits: residual,
            isNothing: false,
            isMended: false,
          },
        ],
  );
}

export function lampTicks(
  { bench, calibration: { curve } }: Analysis,
  lamp: number,
  direction: number,
): readonly Tick[] {
  const substances = bench.known[lamp]?.substances ?? [];
  return ticksOf(
    substances,
    curve!,
    direction,
    (each) => each.expected && each.prominence >= FAINTEST_TICK,
    () => false,
  );
}

export function tubeTicks(
  analysis: Analysis,
  subject: Extract<StripSubject, { kind: 'tube' }>,
  direction: number,
): readonly Tick[] {
  if (subject.substance === null) return [];
  const candidate = candidateOf(analysis, subject);
  const isIn = (list: readonly { readonly wavelengthNm: number }[], nm: number): boolean =>
    list.some(({ wavelengthNm }) => Math.abs(wavelengthNm - nm) < 0.05);
  return ticksOf(
    [subject.substance],
    analysis.calibration.curve!,
    direction,
    (each) =>
      isIn(candidate?.matches ?? [], each.wavelengthNm) ||
      (each.expected && each.prominence >= FAINTEST_TICK),
    (each) => isIn(candidate?.missing ?? [], each.wavelengthNm),
  );
}

/** Where the readings on the strip count from. */
export function originOf({ bench }: Analysis, subject: StripSubject): Origin {
  const tube = subject.kind === 'tube' ? bench.tubes[subject.tube] : undefined;
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
  direction: number,
): readonly Pointer[] {
  if (each.ordinate === null) return [];
  const match = candidate?.matches.find(({ index }) => index === each.index);
  const isMended = match !== undefined && !match.asRead;
  const offUnits = match === undefined || isMended ? null : offLine(each, match, curve);
  const { wavelengthNm } = each;
  return [{ place: direction * each.ordinate, wavelengthNm, offUnits, isNothing: false, isMended }];
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
  subject: Extract<StripSubject, { kind: 'tube' }>,
  direction: number,
): readonly Pointer[] {
  const { bench, calibration } = analysis;
  const { curve } = calibration;
  const { central } = originOf(analysis, subject);
  return (bench.tubes[subject.tube]?.notSeen ?? []).flatMap((place) => {
    const ordinate =
      place.kind === 'wavelength'
        ? curve?.ordinateAt(place.wavelengthNm)
        : observe(bench, place.settings, central)?.ordinate;
    return ordinate === undefined
      ? []
      : [
          {
            place: direction * ordinate,
            wavelengthNm: null,
            offUnits: null,
            isNothing: true,
            isMended: false,
          },
        ];
  });
}

function ticksOf(
  substances: readonly string[],
  curve: CalibrationCurve,
  direction: number,
  isDrawn: (line: TubeLine) => boolean,
  isMissing: (line: TubeLine) => boolean,
): readonly Tick[] {
  const [lowest, highest] = curve.domainNm;
  return lampSpectrum(substances)
    .lines.filter(
      ({ wavelengthNm }) => isReadable(wavelengthNm) && wavelengthNm >= lowest && wavelengthNm <= highest,
    )
    .filter(isDrawn)
    .map((each) => ({
      place: direction * curve.ordinateAt(each.wavelengthNm),
      line: each,
      isMissing: isMissing(each),
    }));
}
