/** The known lamp: which of its lines people read, and what they call them. */
import type { KnownLampRecord } from '../../../src/record/schema.ts';
import type { Random } from '../random.ts';
import { mixedBenches } from './assumptions.ts';
import { type Hand, readLine } from './hand.ts';
import type { Instrument } from './instrument.ts';
import { drawColour, type Vocabulary } from './notes.ts';

type LampName = 'mercury' | 'helium' | 'neon' | 'cadmium' | 'hydrogen';

interface LampLine {
  readonly nm: number;
  /** Share of observers who wrote it down. */
  readonly chance: number;
}

const counted = (of: number, rows: readonly (readonly [nm: number, readIn: number])[]): LampLine[] =>
  rows.map(([nm, readIn]) => ({ nm, chance: (readIn + 0.5) / (of + 1) }));

/**
 * Mercury, helium, neon, hydrogen: counted in published student benches (25 mercury, 4 helium, 5 neon, 15 hydrogen).
 * Cadmium: common practice, no source. Wavelengths NIST SRD 108.
 */
const lampLines: Readonly<Record<LampName, readonly LampLine[]>> = {
  mercury: counted(25, [
    [404.66, 25],
    [407.78, 10],
    [433.92, 3],
    [434.75, 3],
    [435.83, 24],
    [491.61, 23],
    [496.03, 6],
    [546.07, 25],
    [567.59, 4],
    [576.96, 23],
    [579.07, 22],
    [607.26, 6],
    [612.35, 8],
    [623.44, 24],
    [671.64, 6],
    [690.75, 15],
  ]),
  helium: counted(4, [
    [438.79, 0],
    [447.15, 3],
    [471.31, 4],
    [492.19, 4],
    [501.57, 4],
    [504.77, 2],
    [587.56, 4],
    [667.82, 4],
    [706.52, 2],
  ]),
  neon: counted(5, [
    [540.06, 4],
    [585.25, 5],
    [594.48, 4],
    [603.0, 2],
    [607.43, 3],
    [609.62, 3],
    [614.31, 4],
    [616.36, 4],
    [621.73, 2],
    [626.65, 2],
    [633.44, 1],
    [638.3, 1],
    [640.22, 4],
    [650.65, 2],
    [659.9, 0],
    [703.24, 2],
  ]),
  cadmium: [
    { nm: 441.46, chance: 0.4 },
    { nm: 467.82, chance: 0.9 },
    { nm: 479.99, chance: 0.95 },
    { nm: 508.58, chance: 0.97 },
    { nm: 515.47, chance: 0.3 },
    { nm: 643.85, chance: 0.95 },
  ],
  hydrogen: counted(15, [
    [410.17, 11],
    [434.05, 14],
    [486.13, 15],
    [656.28, 15],
  ]),
};

const lampsMet = [
  { weight: 0.5, name: 'mercury' },
  { weight: 0.27, name: 'helium' },
  { weight: 0.09, name: 'neon' },
  { weight: 0.09, name: 'cadmium' },
  { weight: 0.05, name: 'hydrogen' },
] as const;

/** The unresolved yellow pair of mercury is called by its mean. */
const mercuryPair = { first: 576.96, second: 579.07, nm: 578.02, name: 578.0 } as const;

/** A line at its true wavelength, and the wavelength it is called by; both nm. */
interface NamedLine {
  readonly nm: number;
  readonly name: number;
}

/** A lamp as this observer sees it through this slit. */
interface LampSeen {
  readonly read: readonly NamedLine[];
  /** The names that stand in the observer's list, in order: what may be mistaken for one another. */
  readonly list: readonly number[];
}

/** One observer is keener than another, and the slit's image makes one line of two. */
function seeLamp(random: Random, lamp: LampName, { optics }: Instrument): LampSeen {
  const keenness = random.normal(0, 0.8);
  const read = lampLines[lamp].filter(({ chance }) =>
    random.chance(1 / (1 + Math.exp(-Math.log(chance / (1 - chance)) - keenness))),
  );
  const apart = (a: number, b: number) => Math.abs(optics.deviationArcmin(a) - optics.deviationArcmin(b));
  const kept: number[] = [];
  for (const { nm } of [...read].sort((a, b) => b.chance - a.chance)) {
    if (kept.every((other) => apart(other, nm) >= optics.slitArcmin)) kept.push(nm);
  }
  const isPair = lamp === 'mercury' && apart(mercuryPair.first, mercuryPair.second) < optics.slitArcmin;
  const named = (nm: number): NamedLine =>
    isPair && (nm === mercuryPair.first || nm === mercuryPair.second)
      ? { nm: mercuryPair.nm, name: mercuryPair.name }
      : { nm, name: nm };
  const listed = lampLines[lamp].filter(({ nm, chance }) => chance > 0.2 || kept.includes(nm));
  return {
    read: kept.map(named).sort((a, b) => a.nm - b.nm),
    list: [...new Set(listed.map(({ nm }) => named(nm).name))],
  };
}

export type NamingFault = 'shift' | 'swap' | 'neighbour';

/** Two names nearer than this are not told apart on a small prism: mistaking them is no fault, nm. */
const sameNm = 3;

/** The lines under wrong names, or null where this fault cannot be made here. */
function misnamed(random: Random, { read, list }: LampSeen, fault: NamingFault): NamedLine[] | null {
  const at = random.whole(0, read.length - 1);
  const step = random.sign();
  if (fault === 'swap') {
    const [one, other] = [read[at]!, read[at + 1]];
    if (other === undefined || other.nm - one.nm < sameNm) return null;
    return read.with(at, { ...one, name: other.name }).with(at + 1, { ...other, name: one.name });
  }
  if (fault === 'neighbour') {
    // The neighbour's own reading, if there is one, keeps its name: people do write one wavelength twice.
    const farther = list.filter((nm) => step * (nm - read[at]!.name) > sameNm);
    const name = step === 1 ? farther[0] : farther.at(-1);
    return name === undefined ? null : read.with(at, { ...read[at]!, name });
  }
  // From one line on each name is the next of the list; what is pushed off its end is not written down.
  const shifted = read.flatMap((line, k): NamedLine[] => {
    if (step === 1 ? k < at : k > at) return [line];
    const name = list[list.indexOf(line.name) + step];
    return name === undefined ? [] : [{ ...line, name }];
  });
  return shifted.some(({ nm, name }) => Math.abs(nm - name) > sameNm) ? shifted : null;
}

/** The lamp in the holder is another: each line gets the nearest name of the lamp that it is taken for. */
function namedAfter(read: readonly NamedLine[], lamp: LampName): NamedLine[] {
  const free = new Set(lampLines[lamp].filter(({ chance }) => chance > 0.2).map(({ nm }) => nm));
  return read.flatMap(({ nm }) => {
    const [nearest] = [...free].sort((a, b) => Math.abs(a - nm) - Math.abs(b - nm));
    if (nearest === undefined || Math.abs(nearest - nm) > 30) return [];
    free.delete(nearest);
    return [{ nm, name: nearest }];
  });
}

export interface LampPlan {
  readonly fault: NamingFault | null;
  /** Where there is no such fault, rare things happen: the wrong lamp, lines without names. */
  readonly isMixed: boolean;
}

/** The known lamp of a record, or null where this draw gives no usable one (three lines at least). */
export function readLamp(
  random: Random,
  instrument: Instrument,
  hand: Hand,
  words: Vocabulary | null,
  { fault, isMixed }: LampPlan,
): KnownLampRecord | null {
  const { name } = random.pickWeighted(lampsMet);
  const seen = seeLamp(random, name, instrument);
  const isOdd = isMixed && fault === null;
  const isNameless = isOdd && words !== null && random.chance(mixedBenches.namelessLampChance);
  const isWrong = isOdd && random.chance(mixedBenches.wrongLampChance);
  const called: LampName = !isWrong ? name : name === 'mercury' ? 'helium' : 'mercury';
  const lines = isWrong
    ? namedAfter(seen.read, called)
    : fault === null
      ? seen.read
      : misnamed(random, seen, fault);
  if (lines === null || lines.length < 3) return null;
  return {
    lamp: called,
    lines: lines.map((line) => ({
      ...(isNameless ? {} : { wavelengthNm: line.name }),
      readings: readLine(random, instrument, hand, 0, line.nm).readings,
      ...(words !== null && (isNameless || random.chance(0.5))
        ? { color: drawColour(random, words, line.nm) }
        : {}),
    })),
  };
}
