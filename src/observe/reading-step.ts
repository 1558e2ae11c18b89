/** To what step a list of readings was written down, where that is coarser than the instrument reads. */
import type { Bench, BenchLine, Setting } from '../record/bench.ts';
import { ROUNDED } from './assumptions.ts';

/**
 * The coarsest step of which every raw reading is a multiple, where that is no chance; else the least count. Chance
 * counts the places that lines were read at, each once.
 * Arc-minutes, or scale units. Whole and half degrees on a circle of 1' were rounded by whoever wrote them.
 */
export function readingStep(bench: Bench, lines: readonly BenchLine[]): number {
  const { leastCount } = bench;
  const perUnit = bench.method === 'scale' ? 1 : 60;
  const raw = lines.filter(({ use }) => use).flatMap(({ settings }) => settings.flatMap(rawReadings));
  // What else is read of a line follows from its first reading: the other window, the other side, repeats.
  const firsts = lines
    .filter(({ use }) => use)
    .flatMap(({ settings: [first] }) => (first ? firstReading(first) : []));
  const places = new Set(firsts.map((reading) => Math.round((reading * perUnit) / leastCount)));
  const areCounts = raw.every((reading) => isMultiple(reading * perUnit, leastCount));
  if (!areCounts || places.size < ROUNDED.fewest) return leastCount;
  const steps =
    bench.method === 'scale' ? ROUNDED.steps.map((step) => step * leastCount) : ROUNDED.stepsArcmin;
  const step = steps.find(
    (each) =>
      each > leastCount &&
      isMultiple(each, leastCount) &&
      raw.every((reading) => isMultiple(reading * perUnit, each)) &&
      (leastCount / each) ** places.size < ROUNDED.chance,
  );
  return step ?? leastCount;
}

/** All lines of a record. What it holds one hand wrote: few lines of a tube are rounded as those of the lamp are. */
export function linesOfRecord({ known, tubes }: Pick<Bench, 'known' | 'tubes'>): readonly BenchLine[] {
  return [...known, ...tubes].flatMap(({ lines }): readonly BenchLine[] => lines);
}

/** The bench with the step to which these lines, or those of their record, were written down as its least count. */
export function benchAsWritten(
  bench: Bench,
  lines: readonly BenchLine[],
  ofRecord: readonly BenchLine[],
): Bench {
  const leastCount = Math.max(readingStep(bench, lines), readingStep(bench, ofRecord));
  return leastCount === bench.leastCount ? bench : { ...bench, leastCount };
}

/** The same for the lines of the known lamps: what a calibration is computed with. */
export function lampAsWritten(bench: Bench, ofRecord: readonly BenchLine[] = linesOfRecord(bench)): Bench {
  return benchAsWritten(
    bench,
    bench.known.flatMap(({ lines }) => lines),
    ofRecord,
  );
}

const rawReadings = (setting: Setting): readonly number[] =>
  setting.kind === 'both-sides' ? [...setting.left, ...setting.right] : setting.windows;

const firstReading = (setting: Setting): readonly number[] => rawReadings(setting).slice(0, 1);

const isMultiple = (value: number, step: number): boolean =>
  Math.abs(value / step - Math.round(value / step)) < 1e-6;
