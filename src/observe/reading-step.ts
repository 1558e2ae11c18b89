/**
 * To what step readings were written down, where that is coarser than the instrument reads. It belongs to lists of
 * readings (a lamp's lines, a tube's, central images), as one hand writes a list one way, and is carried by each reading.
 */
import type { Bench, BenchLine, Setting } from '../record/bench.ts';
import { ROUNDED } from './assumptions.ts';

/** What was read of one line, or one reading of the central image. */
type Take = readonly Setting[];

/** The coarsest step to which any of these was written; arc-minutes, or scale units. */
export function stepOf({ leastCount }: Pick<Bench, 'leastCount'>, settings: Take): number {
  return settings.reduce((step, setting) => Math.max(step, setting.step ?? 0), leastCount);
}

/** The same of the known lines in use. */
export function lampStep(bench: Bench): number {
  return stepOf(bench, bench.known.flatMap(({ lines }) => takesOf(lines)).flat());
}

/** The step of the list of lines that is written most finely: so finely the instrument is read, as the record shows. */
export function finestStepOfLines(bench: Bench): number {
  return finestOf(bench, lineLists(bench));
}

/** The same with the lists of central images. */
export function finestStep(bench: Bench): number {
  const centrals = [bench.central, ...bench.tubes.map(({ central }) => central ?? [])];
  return finestOf(bench, [...lineLists(bench), ...centrals.map((central) => central.map((each) => [each]))]);
}

/**
 * The bench with the step to which each of its readings was written. By chance all of few lines are multiples of a step,
 * and most of many: a step is proved by a lamp, by all known lamps, by a tube, or by all lines of the record; then any list
 * that agrees with it is taken as rounded to it. A reading that is no multiple shows by itself that it was read finer. The
 * same bench where nothing was rounded.
 */
export function asWritten(bench: Bench): Bench {
  const proved = provedSteps(bench);
  if (proved.length === 0 && settingsOf(bench).every(({ step }) => step === undefined)) return bench;
  const known = bench.known.map((lamp) => ({ ...lamp, lines: linesWritten(bench, lamp.lines, proved) }));
  const tubes = bench.tubes.map((tube) => ({ ...tube, lines: linesWritten(bench, tube.lines, proved) }));
  const stepsOf = (lists: readonly { readonly lines: readonly BenchLine[] }[]): readonly number[] =>
    lists.flatMap(({ lines }) => (lines.length === 0 ? [] : [stepOf(bench, takesOf(lines).flat())]));
  // A central image is written as the lines are that were read with it.
  const withKnown = stepsOf(known);
  const beside = withKnown.length > 0 ? withKnown : stepsOf(tubes.filter(({ central }) => central === null));
  return {
    ...bench,
    central: settingsWritten(bench, bench.central, beside),
    known,
    tubes: tubes.map((tube) =>
      tube.central === null
        ? tube
        : { ...tube, central: settingsWritten(bench, tube.central, stepsOf([tube])) },
    ),
    check: linesWritten(bench, bench.check, proved),
  };
}

/**
 * The step to be expected of one reading more beside these lines; without any, of the coarsest list of the bench's tubes, or
 * of its known lines: nothing says that it is written more finely than any of them.
 */
export function expectedStep(bench: Bench, lines: readonly BenchLine[] = []): number {
  const [own, tubes, lamps] = [[{ lines }], bench.tubes, bench.known].map((lists) =>
    lists.map((list) => takesOf(list.lines)).filter((takes) => takes.length > 0),
  );
  const beside = [own!, tubes!, lamps!].find((lists) => lists.length > 0) ?? [];
  return stepOf(bench, beside.flat(2));
}

/** A reading with the step that is expected of it; one that is no multiple of that was read finer. */
export function settingWritten(bench: Bench, setting: Setting, expected: number): Setting {
  return withStep(setting, coarsestOf(bench, [setting], [expected]));
}

/** Coarsest first: to what step most of some lines were rounded, and to what finer one the others. */
function provedSteps(bench: Bench): readonly number[] {
  const groups = [
    ...lineLists(bench),
    bench.known.flatMap(({ lines }) => takesOf(lines)),
    lineLists(bench).flat(),
  ];
  return [...new Set(groups.flatMap((takes) => provedBy(bench, takes)))].sort((a, b) => b - a);
}

function provedBy(bench: Bench, takes: readonly Take[]): readonly number[] {
  const { leastCount } = bench;
  const places = placesOf(bench, takes);
  if (places.length < ROUNDED.fewest) return [];
  const fitting = (step: number): number => places.filter((take) => isWrittenTo(bench, take, step)).length;
  const steps = coarserSteps(bench);
  const isNoChance = (step: number, than: number): boolean =>
    chanceOfAtLeast(fitting(step), places.length, than / step) < ROUNDED.chance;
  const whole = steps.find((step) => fitting(step) === places.length && isNoChance(step, leastCount));
  const finest = whole ?? leastCount;
  const most = steps.find(
    (step) =>
      step > finest &&
      isMultiple(step, finest) &&
      places.length - fitting(step) <= ROUNDED.finer * places.length &&
      isNoChance(step, finest),
  );
  return [most ?? [], whole ?? []].flat();
}

/**
 * What was read at each place, once: what else is read of a line (the other window, the other side, repeats) follows from
 * its first reading, and is no second witness.
 */
function placesOf(bench: Bench, takes: readonly Take[]): readonly Take[] {
  const places = new Map<number, Take>();
  for (const take of takes) {
    const [first] = take.flatMap(rawReadings);
    if (first === undefined) continue;
    const place = Math.round((first * perUnit(bench)) / bench.leastCount);
    places.set(place, [...(places.get(place) ?? []), ...take]);
  }
  return [...places.values()];
}

function coarserSteps(bench: Bench): readonly number[] {
  const { leastCount, method } = bench;
  const steps =
    method === 'scale' ? ROUNDED.steps.map((step) => step * leastCount) : [...ROUNDED.stepsArcmin];
  return steps.filter((step) => step > leastCount && isMultiple(step, leastCount));
}

/** Of `all` readings at least `some` are multiples of a step, if each is with this chance: the tail of the binomial law. */
function chanceOfAtLeast(some: number, all: number, chance: number): number {
  let term = chance ** all;
  let total = term;
  for (let fitting = all; fitting > some; fitting--) {
    term *= (fitting / (all - fitting + 1)) * ((1 - chance) / chance);
    total += term;
  }
  return total;
}

function linesWritten<Line extends { readonly settings: Take; readonly use?: boolean }>(
  bench: Bench,
  lines: readonly Line[],
  proved: readonly number[],
): readonly Line[] {
  const steps = agreedSteps(bench, takesOf(lines), proved);
  // Each repeat for itself: one that was read finer makes no other finer.
  const written = (setting: Setting): Setting => withStep(setting, coarsestOf(bench, [setting], steps));
  return lines.map((line) => ({ ...line, settings: line.settings.map(written) }));
}

function settingsWritten(bench: Bench, settings: Take, proved: readonly number[]): Take {
  const takes = settings.map((setting) => [setting]);
  const steps = agreedSteps(bench, takes, proved);
  return settings.map((setting) => withStep(setting, coarsestOf(bench, [setting], steps)));
}

/** Those of the steps that a list agrees with: the coarsest of which most of it are multiples, and all that are finer. */
function agreedSteps(bench: Bench, takes: readonly Take[], proved: readonly number[]): readonly number[] {
  return proved.filter((step) => {
    const finer = takes.filter((take) => !isWrittenTo(bench, take, step)).length;
    return finer <= ROUNDED.finer * takes.length;
  });
}

/** The coarsest of these steps of which all that was read is a multiple. */
function coarsestOf(bench: Bench, take: Take, steps: readonly number[]): number | undefined {
  const fitting = steps.filter((step) => step > bench.leastCount && isWrittenTo(bench, take, step));
  return fitting.length === 0 ? undefined : Math.max(...fitting);
}

function withStep({ step: before, ...setting }: Setting, step: number | undefined): Setting {
  return step === undefined ? setting : { ...setting, step };
}

/** What was read of each line in use. */
function takesOf(lines: readonly { readonly settings: Take; readonly use?: boolean }[]): readonly Take[] {
  return lines.filter(({ use }) => use !== false).map(({ settings }) => settings);
}

function lineLists({ known, tubes }: Bench): readonly (readonly Take[])[] {
  return [...known, ...tubes].map(({ lines }) => takesOf(lines));
}

function finestOf(bench: Bench, lists: readonly (readonly Take[])[]): number {
  const steps = lists.filter((takes) => takes.length > 0).map((takes) => stepOf(bench, takes.flat()));
  return steps.length === 0 ? bench.leastCount : Math.min(...steps);
}

/** All readings of the bench that count in an uncertainty. */
function settingsOf({ central, known, tubes, check }: Bench): Take {
  const lines = [...known, ...tubes].flatMap(({ lines: each }): readonly BenchLine[] => each);
  return [
    ...central,
    ...tubes.flatMap((tube) => tube.central ?? []),
    ...[...lines, ...check].flatMap(({ settings }) => settings),
  ];
}

function isWrittenTo(bench: Bench, take: Take, step: number): boolean {
  return take.every((setting) =>
    rawReadings(setting).every((reading) => isMultiple(reading * perUnit(bench), step)),
  );
}

const rawReadings = (setting: Setting): readonly number[] =>
  setting.kind === 'both-sides' ? [...setting.left, ...setting.right] : setting.windows;

/** Of a raw reading in degrees to arc-minutes. */
const perUnit = ({ method }: Bench): number => (method === 'scale' ? 1 : 60);

const isMultiple = (value: number, step: number): boolean =>
  Math.abs(value / step - Math.round(value / step)) < 1e-6;
