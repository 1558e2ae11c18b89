/**
 * Numbers with a decimal mark, all through a record, that may be decimal degrees or degrees.minutes: the digits and the
 * known lines say which. One hypothesis for the whole record, as one hand writes one way.
 */
import { knownLinesLogEvidence } from '../calibrate/calibrate.ts';
import { asWritten, finestStepOfLines } from '../observe/reading-step.ts';
import type { Bench, Warning } from '../record/bench.ts';
import { DECIMALS, type OpenDecimals, openDecimals } from '../record/decimal-habit.ts';
import { circleIn } from '../record/read-instrument.ts';
import type { BenchRecord } from '../record/schema.ts';
import { checkedBench } from '../record/to-bench.ts';
import { decimalsLeft, decimalsTaken } from '../words/decimals-taken.ts';
import { MINUTES_BEFORE, MINUTES_TAKEN_FROM, WORTH_A_WORD } from './assumptions.ts';
import type { Analysis } from './types.ts';

/** A record with the bench that it means. */
export interface RecordMeant {
  readonly record: BenchRecord;
  readonly bench: Bench;
  readonly warnings: readonly Warning[];
}

/** The analysis of a record with what is said of its decimal marks, for all that print from it. */
export function withDecimalsTold(analysis: Analysis, warnings: readonly Warning[]): Analysis {
  const told = warnings.filter(({ code }) => code === DECIMALS);
  return told.length === 0 ? analysis : { ...analysis, warnings: [...told, ...analysis.warnings] };
}

/** The same where nothing is open, or where decimal degrees are likelier. */
export function decimalsMeant(read: RecordMeant): RecordMeant {
  const open = openDecimals(read.record, circleIn(read.record));
  if (open === null) return read;
  const told = (message: string): Warning => ({
    code: DECIMALS,
    message: `${open.example.place}: ${message}`,
  });
  const others = ({ warnings }: { warnings: readonly Warning[] }) =>
    warnings.filter(({ code }) => code !== DECIMALS);
  const asDegrees = (message: string) => ({ ...read, warnings: [told(message), ...others(read)] });
  const otherwise = open.areFew ? null : checkedBench(open.asMinutes);
  const inMinutes = otherwise?.ok ? minutesProbability(open, read.bench, otherwise.bench) : 0;
  // Whoever writes some readings with minutes may mean minutes by the others, whatever the digits say.
  if (inMinutes < WORTH_A_WORD)
    return open.signedCount > 0 ? asDegrees(decimalsLeft(open, open.signedCount)) : read;
  if (inMinutes < MINUTES_TAKEN_FROM || !otherwise?.ok)
    return asDegrees(decimalsTaken(open, inMinutes, 'degrees'));
  const warnings = [told(decimalsTaken(open, inMinutes, 'minutes')), ...others(otherwise)];
  return { record: open.asMinutes, bench: otherwise.bench, warnings };
}

function minutesProbability(open: OpenDecimals, degrees: Bench, minutes: Bench): number {
  const before = open.areNumbers ? MINUTES_BEFORE.numbers : MINUTES_BEFORE.texts;
  const [asDegrees, asMinutes] = [asWritten(degrees), asWritten(minutes)];
  const [stepOfDegrees, stepOfMinutes] = [finestStepOfLines(asDegrees), finestStepOfLines(asMinutes)];
  // Readings that are all tenths of a degree are as likely each as the next, and a rare chance among marks of the circle.
  const logDigits =
    stepOfDegrees > degrees.leastCount
      ? open.count * Math.log(stepOfMinutes / stepOfDegrees)
      : open.logDigits;
  const logOdds = Math.log(before / (1 - before)) + logDigits + logOfKnownLines(asDegrees, asMinutes);
  return 1 / (1 + Math.exp(-logOdds));
}

/** How much likelier the known lines are read in minutes; 0 where neither way a curve goes through them. */
function logOfKnownLines(degrees: Bench, minutes: Bench): number {
  const [asDegrees, asMinutes] = [knownLinesLogEvidence(degrees), knownLinesLogEvidence(minutes)];
  if (asMinutes === null) return asDegrees === null ? 0 : Number.NEGATIVE_INFINITY;
  return asDegrees === null ? Number.POSITIVE_INFINITY : asMinutes - asDegrees;
}
