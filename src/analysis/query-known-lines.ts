/** Would the calibration take these new readings of known lines as they are? The calibration itself is asked. */
import { NEARLY_SURE } from '../calibrate/assumptions.ts';
import { calibrate } from '../calibrate/calibrate.ts';
import type { CalibrationLine } from '../calibrate/types.ts';
import { sumOf } from '../numeric/sum.ts';
import { asWritten } from '../observe/reading-step.ts';
import type { Bench, KnownBenchLine, Setting } from '../record/bench.ts';
import type { BenchQuery, FaultElsewhere, LineFault } from '../words/reading-query.ts';
import type { Analysis, ToldCalibrationLine } from './types.ts';

/** A reading of a known line that is not in the record yet. */
export interface KnownLineReading {
  readonly setting: Setting;
  readonly text: string;
  /** Null: any line of the lamp. */
  readonly wavelengthNm: number | null;
  /** Position of the lamp in the record. */
  readonly lamp: number;
  /** Position in its lamp of the line whose only reading this one replaces; null for a new line. */
  readonly replaces: number | null;
}

/**
 * For each reading what should be asked about it, or null: the bench is calibrated with all of them in it, and what is
 * found of a line is what it is asked about (`calibrate/known-line-report.ts`; it says how likely a fault must be).
 * A single reading may also bring to light that an earlier line is at fault.
 */
export function queryKnownLines(
  readings: readonly KnownLineReading[],
  { bench, calibration: before }: Analysis,
): readonly (BenchQuery | null)[] {
  const added = readings.map((reading, at) => lineOf(bench, reading, at));
  const { lines, curve } = calibrate(asWritten(added.reduce(withLine, bench))).calibration;
  if (curve === null) return readings.map(() => null);
  const other = readings.length === 1 ? broughtToLight(bench, lines, before.lines, added[0]!.index) : null;
  return added.map(({ index, statedWavelengthNm }): BenchQuery | null => {
    const own = lines.find((line) => line.index === index);
    const fault = own === undefined ? null : faultOf(own);
    if (other !== null)
      return fault === null && other.fault.probability >= NEARLY_SURE
        ? { what: 'fault-elsewhere', other }
        : { what: 'either', other };
    if (own === undefined || fault === null || statedWavelengthNm === null) return null;
    const isApart = fault.what !== 'perhaps' && own.ordinate !== null;
    const off = isApart ? Math.abs(own.ordinate - curve.ordinateAt(statedWavelengthNm)) : null;
    return { what: 'off-curve', wavelengthNm: statedWavelengthNm, off, fault };
  });
}

function faultOf({ finding }: CalibrationLine): LineFault | null {
  return finding !== null && 'probability' in finding ? finding : null;
}

/** Nothing said, something mentioned, or not taken as it is. */
type Suspicion = 0 | 1 | 2;

const suspicionOf = (fault: LineFault | null): Suspicion =>
  fault === null ? 0 : fault.what === 'perhaps' ? 1 : 2;

const suspicionBefore = (line: ToldCalibrationLine | undefined): Suspicion =>
  line === undefined || line.message === null ? 0 : line.status === 'used' ? 1 : 2;

/** The likeliest fault of another line that is said now and was not said before. */
function broughtToLight(
  bench: Bench,
  now: readonly CalibrationLine[],
  before: readonly ToldCalibrationLine[],
  except: number,
): FaultElsewhere | null {
  const known = bench.known.flatMap(({ lines }) => lines);
  const [worst] = now
    .flatMap((line): FaultElsewhere[] => {
      const fault = faultOf(line);
      const written = known.find(({ index }) => index === line.index);
      const said = before.find(({ index }) => index === line.index);
      if (line.index === except || fault === null || written === undefined) return [];
      return suspicionOf(fault) > suspicionBefore(said) ? [{ line: written, fault }] : [];
    })
    .sort((a, b) => b.fault.probability - a.fault.probability);
  return worst ?? null;
}

/** `at`: position among the new readings. */
function lineOf({ known }: Bench, reading: KnownLineReading, at: number): KnownBenchLine {
  const { setting, text, wavelengthNm, lamp, replaces } = reading;
  const replaced = replaces === null ? undefined : known[lamp]?.lines[replaces];
  const count = sumOf(known, ({ lines }) => lines.length);
  return {
    colour: null,
    brightness: null,
    note: null,
    confirmed: false,
    ...replaced,
    index: replaced?.index ?? count + at,
    lampIndex: lamp,
    settings: [setting],
    texts: [text],
    statedWavelengthNm: wavelengthNm,
    use: true,
  };
}

/** The bench with one known line put in the place of the line with its index, or added. */
function withLine(bench: Bench, line: KnownBenchLine): Bench {
  return {
    ...bench,
    known: bench.known.map((lamp, at) => {
      if (at !== line.lampIndex) return lamp;
      const others = lamp.lines.filter(({ index }) => index !== line.index);
      return { ...lamp, lines: [...others, line] };
    }),
  };
}
