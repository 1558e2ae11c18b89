/** Readings written down to a coarser step than the instrument reads. */
import { formatCount } from '../angle/format-angle.ts';
import { finestStep, lampStep, stepOf } from '../observe/reading-step.ts';
import { roundingVariance } from '../observe/reading-variance.ts';
import type { Bench, BenchLine, UnknownTube, Warning } from '../record/bench.ts';

/** Code of the warning that says so. */
export const ROUNDED_READINGS = 'rounded-readings';

/** What is said of the known lines: of all lamps together where one thing holds for them. */
export function roundedKnownLines(bench: Bench): readonly Warning[] {
  const lamps = bench.known.filter(({ lines }) => lines.length > 0);
  const steps = new Set(lamps.map(({ lines }) => stepOfLines(bench, lines)));
  if (steps.size <= 1)
    return roundedLines(
      bench,
      'the known lines',
      lamps.flatMap(({ lines }) => lines),
    );
  return lamps.flatMap(({ name, lines }) =>
    roundedLines(bench, `the known lines of ${name === '' ? 'one lamp' : name}`, lines),
  );
}

/** Nothing where they are written as the instrument reads. `whose`: `the known lines`, the label of a tube. */
export function roundedLines(bench: Bench, whose: string, lines: readonly BenchLine[]): readonly Warning[] {
  const step = stepOfLines(bench, lines);
  if (step === bench.leastCount) return [];
  const readings = lines.flatMap(({ use, settings }) => (use ? settings : []));
  const rounded = readings.filter((reading) => stepOf(bench, [reading]) === step);
  const [text, least] = [stepText(bench, step), stepText(bench, bench.leastCount)];
  const [all, taken] =
    rounded.length === readings.length
      ? ['all readings', 'they are']
      : [`${rounded.length} of ${readings.length} readings`, 'these are'];
  // One reading that is finer shows what the instrument reads.
  const advice =
    finestStep(bench) === step && rounded.length === readings.length
      ? `Is its least count ${text}? Then enter that; if not, write`
      : 'Write';
  const message = `${whose}: ${all} are multiples of ${text}, on an instrument that reads ${least}: ${taken} taken as rounded to that, and their uncertainty is larger. ${advice} down all that it shows.`;
  return [{ code: ROUNDED_READINGS, message }];
}

/** What the budget of the known lines does not say of a tube that is written to another step; null where it is the same. */
export function budgetOfTubeNote(bench: Bench, { label, lines }: UnknownTube): string | null {
  const [own, known] = [stepOfLines(bench, lines), lampStep(bench)];
  if (own === known || lines.length === 0) return null;
  const u = Math.sqrt(roundingVariance(own));
  const unit = bench.method === 'scale' ? '' : "'";
  return `The table is that of the known lines, which are written to ${stepText(bench, known)}; the readings of ${label} are written to ${stepText(bench, own)}, so that reading the circle or scale adds ${u.toFixed(u < 1 ? 2 : 1)}${unit} to each of these instead.`;
}

function stepOfLines(bench: Bench, lines: readonly BenchLine[]): number {
  return stepOf(
    bench,
    lines.flatMap(({ use, settings }) => (use ? settings : [])),
  );
}

/** How a reading is taken beside readings that are all multiples of `step` (arc-minutes, or scale units). */
export interface WritingOfReading {
  readonly what: 'rounded' | 'perhaps-rounded' | 'finer';
  readonly step: number;
}

/** `taken as rounded to 10', as the other readings are`. */
export function writingText(bench: Bench, { what, step }: WritingOfReading): string {
  const text = stepText(bench, step);
  return what === 'rounded'
    ? `taken as rounded to ${text}, as the other readings are`
    : what === 'perhaps-rounded'
      ? `taken as rounded to ${text}, as those of one tube are`
      : `read finer than the others, which are multiples of ${text}`;
}

/** `10'`, `0.1°`; the number of a scale. `step`: arc-minutes, or scale units. */
export function stepText({ method, decimalCircle }: Bench, step: number): string {
  return method === 'scale'
    ? `${Number(step.toFixed(6))}`
    : formatCount({ leastCountArcmin: step, decimal: decimalCircle ?? false });
}
