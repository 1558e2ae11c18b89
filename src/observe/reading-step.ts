/** To what step a list of readings was written down, where that is coarser than the instrument reads. */
import type { Bench, BenchLine, Setting } from '../record/bench.ts';
import { ROUNDED } from './assumptions.ts';

/**
 * The coarsest step of which every raw reading is a multiple, where that is no chance; else the least count.
 * Arc-minutes, or scale units. Whole and half degrees on a circle of 1' were rounded by whoever wrote them.
 */
export function readingStep(bench: Bench, lines: readonly BenchLine[]): number {
  const { leastCount } = bench;
  const perUnit = bench.method === 'scale' ? 1 : 60;
  const raw = lines.filter(({ use }) => use).flatMap(({ settings }) => settings.flatMap(rawReadings));
  // A reading that stands twice, as a repeat does, tells nothing new.
  const counts = new Set(raw.map((reading) => Math.round((reading * perUnit) / leastCount)));
  const areCounts = raw.every((reading) => isMultiple(reading * perUnit, leastCount));
  if (!areCounts || counts.size < ROUNDED.fewest) return leastCount;
  const steps =
    bench.method === 'scale' ? ROUNDED.steps.map((step) => step * leastCount) : ROUNDED.stepsArcmin;
  const step = steps.find(
    (each) =>
      each > leastCount &&
      isMultiple(each, leastCount) &&
      raw.every((reading) => isMultiple(reading * perUnit, each)) &&
      (leastCount / each) ** counts.size < ROUNDED.chance,
  );
  return step ?? leastCount;
}

const rawReadings = (setting: Setting): readonly number[] =>
  setting.kind === 'both-sides' ? [...setting.left, ...setting.right] : setting.windows;

const isMultiple = (value: number, step: number): boolean =>
  Math.abs(value / step - Math.round(value / step)) < 1e-6;
