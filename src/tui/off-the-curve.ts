/** A reading of a known line against the curve through the others: is it odd, or is one of the others? */
import type { Analysis, ToldCalibration, ToldCalibrationLine } from '../analysis/types.ts';
import type { CalibrationCurve } from '../calibrate/types.ts';

import { type Observation, observe } from '../observe/observation.ts';
import { lampOrigin } from '../observe/origin.ts';
import { possibleSlips } from '../observe/slips.ts';
import type { Bench, KnownBenchLine, Setting } from '../record/bench.ts';
import { causeText } from '../words/slip-text.ts';
import type { Computation } from './computation.ts';

export interface KnownLineReading {
  readonly setting: Setting;
  readonly text: string;
  readonly wavelengthNm: number;
  /** Position of the lamp in the record. */
  readonly lamp: number;
  /** Position in its lamp of the line whose only reading this one replaces; null for a new line. */
  readonly replaces: number | null;
}

/** One sentence where the reading should be asked about; empty where it lies where the curve has it. */
export function offTheCurve(
  reading: KnownLineReading,
  { bench, calibration }: Analysis,
  { calibrate }: Computation,
): readonly string[] {
  const replaced = reading.replaces === null ? undefined : bench.known[reading.lamp]?.lines[reading.replaces];
  // A reading that is being corrected must not be held against itself.
  const before =
    replaced === undefined
      ? calibration
      : calibrate(withLine(bench, { ...replaced, use: false })).calibration;
  const { curve } = before;
  const observation = observe(bench, [reading.setting], lampOrigin(bench).central);
  const { wavelengthNm } = reading;
  if (curve === null || observation === null || !isWithin(curve.domainNm, wavelengthNm)) return [];
  const signed = observation.ordinate - curve.ordinateAt(wavelengthNm);
  const off = Math.abs(signed);
  if (off <= tolerance(curve, wavelengthNm, bench) && !isLikeASlip(off, curve, wavelengthNm, bench))
    return [];
  const other = otherLineAtFault(reading, replaced, bench, calibrate);
  if (other !== null && other.probability >= NEARLY_SURE)
    return [`This reading fits if ${faultText(other.line, bench)}: read that one again.`];
  const where = `That is ${amountText(off, bench)} from where ${wavelengthNm.toFixed(1)} nm should be`;
  if (other !== null) return [`${where}, unless ${faultText(other.line, bench)}: read both again.`];
  return [`${where}${slipText(signed, uncertainty(curve, wavelengthNm), observation, bench)}`];
}

/** From this probability on the other line alone is asked about. */
const NEARLY_SURE = 0.8;

interface LineAtFault {
  readonly line: ToldCalibrationLine;
  readonly probability: number;
}

/**
 * All known lines weighed together with the new reading, every usual slip considered. Null where the new reading
 * is the one at fault, or none is.
 */
function otherLineAtFault(
  { setting, text, wavelengthNm, lamp }: KnownLineReading,
  replaced: KnownBenchLine | undefined,
  bench: Bench,
  calibrate: Computation['calibrate'],
): LineAtFault | null {
  const index = replaced?.index ?? bench.known.reduce((sum, { lines }) => sum + lines.length, 0);
  const added: KnownBenchLine = {
    index,
    lampIndex: lamp,
    settings: [setting],
    texts: [text],
    statedWavelengthNm: wavelengthNm,
    colour: null,
    brightness: null,
    note: null,
    use: true,
    confirmed: false,
  };
  const together: ToldCalibration = calibrate(withLine(bench, added)).calibration;
  const own = together.lines.find((line) => line.index === index);
  if (together.curve === null || own?.status !== 'used' || own.residual === null) return null;
  if (Math.abs(own.residual) > tolerance(together.curve, wavelengthNm, bench)) return null;
  const [worst] = together.lines
    .flatMap((line): LineAtFault[] => {
      const doubt = together.doubts.find((each) => each.step === 'known' && each.index === line.index);
      return doubt === undefined ? [] : [{ line, probability: doubt.probability ?? 1 }];
    })
    .sort((a, b) => b.probability - a.probability);
  return worst ?? null;
}

/** The bench with one known line put in the place of the line with its index, or added. */
function withLine(bench: Bench, line: KnownBenchLine): Bench {
  return {
    ...bench,
    known: bench.known.map((lamp, at) => {
      if (at !== line.lampIndex) return lamp;
      const isThere = lamp.lines.some(({ index }) => index === line.index);
      const lines = isThere
        ? lamp.lines.map((each) => (each.index === line.index ? line : each))
        : [...lamp.lines, line];
      return { ...lamp, lines };
    }),
  };
}

/** `the line named 435.83 (230°56') is half a degree off`. */
function faultText(
  { index, statedWavelengthNm, wavelengthNm, residual, status }: ToldCalibrationLine,
  bench: Bench,
) {
  const text = bench.known.flatMap(({ lines }) => lines).find((line) => line.index === index)?.texts[0];
  const named =
    statedWavelengthNm === null ? `known line ${index + 1}` : `the line named ${statedWavelengthNm}`;
  const line = text === undefined ? named : `${named} (${text})`;
  if (status === 'reassigned') return `${line} is ${wavelengthNm?.toFixed(2)}`;
  return `${line} is ${sizeText(Math.abs(residual ?? 0), bench)} off`;
}

function sizeText(off: number, bench: Bench): string {
  if (bench.method === 'scale') return amountText(off, bench);
  if (Math.abs(off - 30) <= 3 * bench.leastCount) return 'half a degree';
  return Math.abs(off - 60) <= 3 * bench.leastCount ? 'a whole degree' : amountText(off, bench);
}

function amountText(off: number, bench: Bench): string {
  return bench.method === 'scale' ? `${off.toFixed(1)} divisions` : arcminText(off);
}

export function arcminText(arcmin: number): string {
  if (arcmin < 60) return `${Number(arcmin.toFixed(1))}'`;
  const whole = Math.round(arcmin);
  return `${Math.floor(whole / 60)}°${String(whole % 60).padStart(2, '0')}'`;
}

function isWithin([lowest, highest]: readonly [number, number], value: number): boolean {
  return value >= lowest && value <= highest;
}

function uncertainty(curve: CalibrationCurve, wavelengthNm: number): number {
  return Math.sqrt(curve.covariance(wavelengthNm, wavelengthNm));
}

/** Three standard uncertainties of the curve and a few steps of the vernier. */
function tolerance(curve: CalibrationCurve, wavelengthNm: number, bench: Bench): number {
  return 3 * uncertainty(curve, wavelengthNm) + 4 * bench.leastCount;
}

/** A slip is suspected where the difference is so near its size, and undoing it makes so much difference. */
const NEAR_A_SLIP = 0.2;
const MUCH_BETTER = 4;

/** A wide tolerance, with few known lines, must not hide the usual slips: one division, half a degree, a degree. */
function isLikeASlip(off: number, curve: CalibrationCurve, wavelengthNm: number, bench: Bench): boolean {
  const division = bench.scaleDivisionArcmin;
  if (division === null) return false;
  const variance = uncertainty(curve, wavelengthNm) ** 2 + bench.leastCount ** 2;
  return [division, 30, 60].some(
    (size) =>
      Math.abs(off - size) <= NEAR_A_SLIP * size && (off ** 2 - (off - size) ** 2) / variance > MUCH_BETTER,
  );
}

/** The usual slip that would put the reading in its place, named as the calibration names it; a full stop where none would. */
function slipText(off: number, curveU: number, { parts }: Observation, bench: Bench): string {
  const near = parts
    .flatMap((part) => possibleSlips(bench, part.reading).map((slip) => ({ slip, weight: part.weight })))
    .filter(({ slip, weight }) => Math.abs(off + slip.correction * weight) <= 3 * bench.leastCount + curveU)
    .sort((a, b) => b.slip.chance - a.slip.chance);
  return near[0] === undefined ? '.' : `: ${causeText(bench, near[0].slip.cause)}?`;
}
