/** The known lamps of a simulated bench, the lines a student reads, and the names given to them. */
import type { Random } from './random.ts';

export type LampName = 'helium' | 'mercury';

interface LampLine {
  readonly wavelengthNm: number;
  /** Natural logarithm of how striking the line is; common practice, no source. */
  readonly prominence: number;
}

/** The lines that school tables give, from red to violet (NIST SRD 108, rounded to 0.01 nm). */
const lampLines: Record<LampName, readonly LampLine[]> = {
  helium: [
    { wavelengthNm: 706.52, prominence: -1.0 },
    { wavelengthNm: 667.82, prominence: -0.2 },
    { wavelengthNm: 587.56, prominence: 0 },
    { wavelengthNm: 504.77, prominence: -1.6 },
    { wavelengthNm: 501.57, prominence: 0 },
    { wavelengthNm: 492.19, prominence: -0.5 },
    { wavelengthNm: 471.31, prominence: -0.7 },
    { wavelengthNm: 447.15, prominence: 0 },
    { wavelengthNm: 438.79, prominence: -1.6 },
    { wavelengthNm: 402.62, prominence: -2 },
  ],
  mercury: [
    { wavelengthNm: 690.75, prominence: -1.8 },
    { wavelengthNm: 623.44, prominence: -1.6 },
    { wavelengthNm: 579.07, prominence: 0 },
    { wavelengthNm: 576.96, prominence: 0 },
    { wavelengthNm: 546.07, prominence: 0 },
    { wavelengthNm: 491.61, prominence: -1.2 },
    { wavelengthNm: 435.83, prominence: 0 },
    { wavelengthNm: 407.78, prominence: -1.5 },
    { wavelengthNm: 404.66, prominence: -0.5 },
  ],
};

/** What lines look like through a telescope that does not split the closest ones. */
export function visibleLampLines(
  lamp: LampName,
  resolutionArcmin: number,
  deviationAt: (wavelengthNm: number) => number,
): LampLine[] {
  const lines: LampLine[] = [];
  for (const line of lampLines[lamp]) {
    const before = lines.at(-1);
    const merges =
      before !== undefined &&
      deviationAt(line.wavelengthNm) - deviationAt(before.wavelengthNm) < resolutionArcmin;
    if (!merges) lines.push(line);
    else if (before.prominence === line.prominence) {
      // A pair of equals is set on in the middle and named by its mean: 578.0.
      const meanNm = Math.round(5 * (before.wavelengthNm + line.wavelengthNm)) / 10;
      lines[lines.length - 1] = { ...line, wavelengthNm: meanNm };
    } else if (line.prominence > before.prominence) lines[lines.length - 1] = line;
  }
  return lines;
}

/** Wavelengths that are read, red to violet: the striking lines most often. */
export function drawReadLines(random: Random, visible: readonly LampLine[], count: number): number[] {
  return visible
    .map((line) => ({ line, key: line.prominence - Math.log(-Math.log(1 - random.uniform())) }))
    .sort((a, b) => b.key - a.key)
    .slice(0, count)
    .map(({ line }) => line.wavelengthNm)
    .sort((a, b) => b - a);
}

export type NamingFault = 'neighbour' | 'swap' | 'shift' | 'wrong-lamp';

const isUnique = (values: readonly number[]): boolean => new Set(values).size === values.length;

/** One line gets the name of the lamp's next line, which was not read itself. */
function nameNeighbour(
  random: Random,
  readNm: readonly number[],
  tableNm: readonly number[],
): number[] | null {
  const choices = readNm.flatMap((nm, position) =>
    [-1, 1]
      .map((step) => tableNm[tableNm.indexOf(nm) + step])
      .filter((neighbour) => neighbour !== undefined && !readNm.includes(neighbour))
      .map((neighbour) => ({ position, neighbour: neighbour! })),
  );
  if (choices.length === 0) return null;
  const { position, neighbour } = random.pick(choices);
  return readNm.with(position, neighbour);
}

/** Two lines side by side have their names exchanged. */
function nameSwapped(random: Random, readNm: readonly number[]): number[] {
  const position = random.whole(0, readNm.length - 2);
  return readNm.with(position, readNm[position + 1]!).with(position + 1, readNm[position]!);
}

/** A run of three or more lines, often all, each gets the name of the next line of the table. */
function nameShifted(random: Random, readNm: readonly number[], tableNm: readonly number[]): number[] | null {
  const choices: number[][] = [];
  for (let from = 0; from <= readNm.length - 3; from++) {
    for (let to = from + 3; to <= readNm.length; to++) {
      for (const step of [-1, 1]) {
        const named = readNm.map((nm, position) =>
          position >= from && position < to ? tableNm[tableNm.indexOf(nm) + step] : nm,
        );
        if (named.every((nm) => nm !== undefined) && isUnique(named)) choices.push(named);
      }
    }
  }
  return choices.length === 0 ? null : random.pick(choices);
}

/** Every way to take so many values, their order kept. */
function subsequences(values: readonly number[], length: number): number[][] {
  if (length === 0) return [[]];
  return values.flatMap((value, place) =>
    subsequences(values.slice(place + 1), length - 1).map((rest) => [value, ...rest]),
  );
}

/** The lines are of another lamp than the table in hand: in order, each gets the nearest name of that table. */
function nameFromOtherTable(readNm: readonly number[], otherNm: readonly number[]): number[] | null {
  const distance = (names: readonly number[]): number =>
    names.reduce((sum, name, position) => sum + Math.abs(name - readNm[position]!), 0);
  const [first, ...others] = subsequences(otherNm, readNm.length);
  if (first === undefined) return null;
  return others.reduce((best, names) => (distance(names) < distance(best) ? names : best), first);
}

/**
 * The wavelengths a student writes beside the lines read. Null where this fault cannot happen to these lines.
 * `wrong-lamp`: the names come from the table of the other lamp.
 */
export function nameWrongly(
  random: Random,
  fault: NamingFault,
  readNm: readonly number[],
  tableNm: readonly number[],
  lamp: LampName,
): number[] | null {
  switch (fault) {
    case 'neighbour':
      return nameNeighbour(random, readNm, tableNm);
    case 'swap':
      return nameSwapped(random, readNm);
    case 'shift':
      return nameShifted(random, readNm, tableNm);
    case 'wrong-lamp':
      return nameFromOtherTable(
        readNm,
        lampLines[otherLamp(lamp)].map((line) => line.wavelengthNm),
      );
  }
}

export const otherLamp = (lamp: LampName): LampName => (lamp === 'helium' ? 'mercury' : 'helium');
