/** Edits of the record: pure, each returns a new form and leaves the rest of it shared. */
import type {
  BenchForm,
  CentralForm,
  LampForm,
  LineForm,
  NotSeenForm,
  ReadingForm,
  TubeForm,
} from './form.ts';

/**
 * Where a list of lines lives: a known lamp, its check lines, or an unknown tube, by position. A record may also
 * have check lines that belong to no lamp.
 */
export interface LineList {
  readonly of: 'lamp' | 'lamp-check' | 'bench-check' | 'tube';
  readonly at: number;
}

export function isSameList(one: LineList, other: LineList): boolean {
  return one.of === other.of && one.at === other.at;
}

/** True for known lines kept out of the fit: they test the curve. */
export function isCheckList({ of }: LineList): boolean {
  return of === 'lamp-check' || of === 'bench-check';
}

export function linesOf(form: BenchForm, { of, at }: LineList): readonly LineForm[] {
  switch (of) {
    case 'lamp':
      return form.known[at]?.lines ?? [];
    case 'lamp-check':
      return form.known[at]?.check ?? [];
    case 'bench-check':
      return form.check ?? [];
    case 'tube':
      return form.unknown[at]?.lines ?? [];
  }
}

function withItem<Item>(items: readonly Item[], at: number, change: (item: Item) => Item): readonly Item[] {
  return items.map((item, position) => (position === at ? change(item) : item));
}

export function editLamp(form: BenchForm, at: number, change: (lamp: LampForm) => LampForm): BenchForm {
  return { ...form, known: withItem(form.known, at, change) };
}

export function editTube(form: BenchForm, at: number, change: (tube: TubeForm) => TubeForm): BenchForm {
  return { ...form, unknown: withItem(form.unknown, at, change) };
}

export function editLines(
  form: BenchForm,
  list: LineList,
  change: (lines: readonly LineForm[]) => readonly LineForm[],
): BenchForm {
  const lines = change(linesOf(form, list));
  switch (list.of) {
    case 'lamp':
      return editLamp(form, list.at, (lamp) => ({ ...lamp, lines }));
    case 'lamp-check':
      return editLamp(form, list.at, (lamp) => withProperty(lamp, 'check', checksOf(lines)));
    case 'bench-check':
      return withProperty(form, 'check', checksOf(lines));
    case 'tube':
      return editTube(form, list.at, (tube) => ({ ...tube, lines }));
  }
}

/** Check lines as the record keeps them; undefined where there are none. */
function checksOf(lines: readonly LineForm[]): NonNullable<BenchForm['check']> | undefined {
  const checks = lines.flatMap(({ wavelengthNm, confirmed: _held, use: _use, ...line }) =>
    wavelengthNm === undefined ? [] : [{ wavelengthNm, ...line }],
  );
  return checks.length === 0 ? undefined : checks;
}

export function editLine(
  form: BenchForm,
  list: LineList,
  line: number,
  change: (line: LineForm) => LineForm,
): BenchForm {
  return editLines(form, list, (lines) => withItem(lines, line, change));
}

export function addLine(form: BenchForm, list: LineList, line: LineForm): BenchForm {
  return editLines(form, list, (lines) => [...lines, line]);
}

export function addRepeat(form: BenchForm, list: LineList, line: number, reading: ReadingForm): BenchForm {
  return editLine(form, list, line, (old) => ({ ...old, readings: [...old.readings, reading] }));
}

/** Takes one reading off a line; the line goes with its last one. */
export function removeReading(form: BenchForm, list: LineList, line: number, reading: number): BenchForm {
  const left = linesOf(form, list)[line]?.readings.filter((_, position) => position !== reading) ?? [];
  return left.length === 0
    ? editLines(form, list, (lines) => lines.filter((_, position) => position !== line))
    : editLine(form, list, line, (old) => ({ ...old, readings: left }));
}

export function swapLines(form: BenchForm, list: LineList, first: number, second: number): BenchForm {
  return editLines(form, list, (lines) => lines.with(first, lines[second]!).with(second, lines[first]!));
}

/** Moves a line to the end of another list. */
export function moveLine(form: BenchForm, from: LineList, line: number, to: LineList): BenchForm {
  const moved = linesOf(form, from)[line];
  if (moved === undefined) return form;
  return addLine(
    editLines(form, from, (lines) => lines.filter((_, position) => position !== line)),
    to,
    moved,
  );
}

/** Sets a property, or takes it away where the value is undefined. */
export function withProperty<Item extends object, Name extends keyof Item>(
  item: Item,
  name: Name,
  value: Item[Name] | undefined,
): Item {
  const { [name]: _, ...rest } = item;
  return (value === undefined ? rest : { ...rest, [name]: value }) as Item;
}

/** Whose readings of the central image: the bench's own, or a tube's by position. */
export type CentralOf = 'bench' | number;

export function centralOf(form: BenchForm, of: CentralOf): readonly CentralForm[] {
  return (of === 'bench' ? form.central : form.unknown[of]?.central) ?? [];
}

export function editCentral(
  form: BenchForm,
  of: CentralOf,
  change: (readings: readonly CentralForm[]) => readonly CentralForm[],
): BenchForm {
  const changed = change(centralOf(form, of));
  const central = changed.length === 0 ? undefined : changed;
  return of === 'bench'
    ? withProperty(form, 'central', central)
    : editTube(form, of, (tube) => withProperty(tube, 'central', central));
}

export function addNotSeen(form: BenchForm, tube: number, place: NotSeenForm): BenchForm {
  return editTube(form, tube, (old) => ({ ...old, notSeen: [...(old.notSeen ?? []), place] }));
}

export function removeNotSeen(form: BenchForm, tube: number, at: number): BenchForm {
  return editTube(form, tube, (old) => {
    const left = (old.notSeen ?? []).filter((_, position) => position !== at);
    return withProperty(old, 'notSeen', left.length === 0 ? undefined : left);
  });
}

/** True when a reading stands anywhere in the record: then the method of reading cannot be changed any more. */
export function hasReadings({ central = [], known, unknown, check = [] }: BenchForm): boolean {
  const ofLamps = known.flatMap(({ lines, check = [] }) => [...lines, ...check]);
  const ofTubes = unknown.flatMap(({ lines, notSeen = [], central = [] }) => [
    ...lines,
    ...notSeen,
    ...central,
  ]);
  return central.length + ofLamps.length + ofTubes.length + check.length > 0;
}
