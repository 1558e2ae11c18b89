/**
 * To what step readings were written down, where that is coarser than the instrument reads. It belongs to lists of
 * readings (a lamp's lines, a tube's, central images), as one hand writes a list one way, and is carried by each reading.
 */
import { remembered } from '../numeric/remembered.ts';
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
  const { apexAngle } = bench;
  const images = apexAngle?.images;
  // A central image is written as the lines are that were read with it, and so are the images of the apex angle.
  const withKnown = stepsOf(known);
  const beside = withKnown.length > 0 ? withKnown : stepsOf(tubes.filter(({ central }) => central === null));
  return {
    ...bench,
    central: settingsWritten(bench, bench.central, beside),
    apexAngle:
      images === undefined ? apexAngle : { ...apexAngle!, images: settingsWritten(bench, images, beside) },
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
  return withStep(setting, coarsestOf(bench, setting, [expected]));
}

/** Coarsest first: to what step most of some lines were rounded, and to what finer one the others. */
function provedSteps(bench: Bench): readonly number[] {
  const groups = [
    ...lineLists(bench),
    bench.known.flatMap(({ lines }) => takesOf(lines)),
    lineLists(bench).flat(),
  ].map((takes) => placesOf(bench, takes));
  const whole = groups.flatMap((places) => wholeStep(bench, places) ?? []);
  const most = groups.flatMap((places) => stepOfMost(bench, places, whole) ?? []);
  return [...new Set([...whole, ...most])].sort((a, b) => b - a);
}

/** The coarsest step of which everything is a multiple, where that is no chance. */
function wholeStep(bench: Bench, places: readonly Take[]): number | undefined {
  return coarserSteps(bench).find(
    (step) =>
      places.flat().every((each) => isWrittenTo(bench, each, step)) &&
      isProved(bench, places, step, bench.leastCount),
  );
}

/** The step of which most is a multiple, and is so by no chance beside the `whole` steps of lists that it agrees with. */
function stepOfMost(bench: Bench, places: readonly Take[], whole: readonly number[]): number | undefined {
  const areMost = (step: number): boolean => finerOf(bench, places, step) <= ROUNDED.finer * places.length;
  const finest = Math.max(bench.leastCount, ...whole.filter(areMost));
  // ln of how much likelier a step makes the readings that are multiples of it.
  const gain = (step: number): number =>
    places.flat().filter((each) => isWrittenTo(bench, each, step)).length * Math.log(step / finest);
  const [most] = coarserSteps(bench)
    .filter((step) => step > finest && isMultiple(step, finest) && isProved(bench, places, step, finest))
    .filter(areMost)
    .sort((a, b) => gain(b) - gain(a));
  return most;
}

function isProved(bench: Bench, places: readonly Take[], step: number, than: number): boolean {
  return chanceOfFitting(bench, places, step, than / step) < ROUNDED.chance;
}

/**
 * The different readings at each place: what else is read of a line (the other window, the other side, repeats) follows
 * from its first reading, and is no second witness.
 */
function placesOf(bench: Bench, takes: readonly Take[]): readonly Take[] {
  const places = new Map<number, Map<string, Setting>>();
  for (const take of takes) {
    const [first] = take.flatMap(rawReadings);
    if (first === undefined) continue;
    const place = Math.round((first * perUnit(bench)) / bench.leastCount);
    const there = remembered(places, place, () => new Map<string, Setting>());
    for (const setting of take) there.set(rawReadings(setting).join(), setting);
  }
  return [...places.values()].map((there) => [...there.values()]);
}

/** At so many places nothing is a multiple: of repeats each is written for itself. */
function finerOf(bench: Bench, places: readonly Take[], step: number): number {
  return places.filter((take) => !take.some((setting) => isWrittenTo(bench, setting, step))).length;
}

/**
 * Chance that at so many places something is a multiple of a step, if each reading is one by chance `each`. Where all that
 * was read is one, that is no more likely than for one reading; where some is, no more than for each of them together.
 */
function chanceOfFitting(bench: Bench, places: readonly Take[], step: number, each: number): number {
  const isOne = (setting: Setting): boolean => isWrittenTo(bench, setting, step);
  const chances = places.map((take) => (take.every(isOne) ? each : Math.min(1, take.length * each)));
  return chanceOfAtLeast(places.length - finerOf(bench, places, step), chances);
}

function coarserSteps(bench: Bench): readonly number[] {
  const { leastCount, method } = bench;
  const steps =
    method === 'scale' ? ROUNDED.steps.map((step) => step * leastCount) : [...ROUNDED.stepsArcmin];
  return steps.filter((step) => step > leastCount && isMultiple(step, leastCount));
}

/** That at least `some` of independent things come true that have these chances. */
function chanceOfAtLeast(some: number, chances: readonly number[]): number {
  // Of the things so far: the chance that so many came true, and last that `some` or more did.
  const counts = [1, ...Array<number>(some).fill(0)];
  for (const chance of chances)
    for (let count = some; count >= 0; count--) {
      const before = count === 0 ? 0 : counts[count - 1]! * chance;
      counts[count] = before + counts[count]! * (count === some ? 1 : 1 - chance);
    }
  return counts[some]!;
}

function linesWritten<Line extends { readonly settings: Take; readonly use?: boolean }>(
  bench: Bench,
  lines: readonly Line[],
  proved: readonly number[],
): readonly Line[] {
  const steps = agreedSteps(bench, takesOf(lines), proved);
  // Each repeat for itself: one that was read finer makes no other finer.
  const written = (setting: Setting): Setting => withStep(setting, coarsestOf(bench, setting, steps));
  return lines.map((line) => ({ ...line, settings: line.settings.map(written) }));
}

function settingsWritten(bench: Bench, settings: Take, proved: readonly number[]): Take {
  const takes = settings.map((setting) => [setting]);
  const steps = agreedSteps(bench, takes, proved);
  return settings.map((setting) => withStep(setting, coarsestOf(bench, setting, steps)));
}

/** Those of the steps that a list agrees with: the coarsest of which most of it are multiples, and all that are finer. */
function agreedSteps(bench: Bench, takes: readonly Take[], proved: readonly number[]): readonly number[] {
  return proved.filter((step) => finerOf(bench, takes, step) <= ROUNDED.finer * takes.length);
}

/** The coarsest of these steps of which all that was read in a setting is a multiple. */
function coarsestOf(bench: Bench, setting: Setting, steps: readonly number[]): number | undefined {
  const fitting = steps.filter((step) => step > bench.leastCount && isWrittenTo(bench, setting, step));
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
function settingsOf({ apexAngle, central, known, tubes, check }: Bench): Take {
  const lines = [...known, ...tubes].flatMap(({ lines: each }): readonly BenchLine[] => each);
  return [
    ...(apexAngle?.images ?? []),
    ...central,
    ...tubes.flatMap((tube) => tube.central ?? []),
    ...[...lines, ...check].flatMap(({ settings }) => settings),
  ];
}

function isWrittenTo(bench: Bench, setting: Setting, step: number): boolean {
  return rawReadings(setting).every((reading) => isMultiple(reading * perUnit(bench), step));
}

const rawReadings = (setting: Setting): readonly number[] =>
  setting.kind === 'both-sides' ? [...setting.left, ...setting.right] : setting.windows;

/** Of a raw reading in degrees to arc-minutes. */
const perUnit = ({ method }: Bench): number => (method === 'scale' ? 1 : 60);

const isMultiple = (value: number, step: number): boolean =>
  Math.abs(value / step - Math.round(value / step)) < 1e-6;
