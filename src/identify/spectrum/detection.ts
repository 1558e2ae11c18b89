/** How likely a line is seen and written down, given how prominent it is and how faint a line may be. */
import { normalCdf } from '../../numeric/normal.ts';

/** Lines below this prominence are never counted on. */
export const FAINTEST_PROMINENCE = -5;
/** Lines below this one are a rare surprise even where fainter lines are seen. */
const HARDLY_SEEN = -4;
/** A line that an ordinary tube may lack, where it is lacking. */
const LACKING = 0.03;
/** Someone who looks for a line at its place sees somewhat fainter ones. */
const LOOKING_GAIN = 0.8;
const LOOKING_SCATTER = 0.9;

/**
 * One way in which a pair of students may have come by their list of lines (common practice, no source; the
 * figures are checked by `npm run score:identification`, its stress column included).
 */
export interface Looking {
  /** Prominence of a line that is seen every other time. */
  readonly limit: number;
  /** Scatter (ln) of a line's prominence from tube to tube. */
  readonly scatter: number;
  /** Chance that even the brightest line is not written down. */
  readonly overlooked: number;
  /** Chance that a line far below the limit is. */
  readonly surprise: number;
  readonly weight: number;
}

type LookingKind = Omit<Looking, 'limit' | 'weight'> & {
  readonly limits: readonly (readonly [limit: number, weight: number])[];
};

/** A limit above 0: they stopped before all of the bright lines were written down. */
const ORDINARY: LookingKind = {
  scatter: 0.72,
  overlooked: 0.035,
  surprise: 0.003,
  limits: [
    [-3.7, 0.02],
    [-3.1, 0.09],
    [-2.5, 0.15],
    [-1.9, 0.15],
    [-1.3, 0.15],
    [-0.7, 0.12],
    [0.1, 0.03],
  ],
};
/** A tube that looks unlike the line table: other pressure, age, current. */
const UNUSUAL: LookingKind = {
  scatter: 2,
  overlooked: 0.15,
  surprise: 0.03,
  limits: [
    [-3.4, 0.012],
    [-2.2, 0.018],
    [-1, 0.021],
    [0.4, 0.021],
  ],
};
/** Some of the lines they saw, bright or not. */
const ANY_OF_THEM: LookingKind = {
  scatter: 0.9,
  overlooked: 0.6,
  surprise: 0.006,
  limits: [
    [-3.6, 0.03],
    [-2.4, 0.042],
  ],
};
const COMPLETE: LookingKind = {
  scatter: 0.9,
  overlooked: 0.03,
  surprise: 0.008,
  limits: [
    [-4, 0.12],
    [-3.2, 0.18],
    [-2.5, 0.2],
    [-1.8, 0.17],
    [-1.1, 0.1],
    [-0.4, 0.05],
  ],
};

function weighted(kinds: readonly LookingKind[]): Looking[] {
  const ways = kinds.flatMap(({ limits, ...kind }) =>
    limits.map(([limit, weight]) => ({ ...kind, limit, weight })),
  );
  const total = ways.reduce((sum, { weight }) => sum + weight, 0);
  return ways.map((way) => ({ ...way, weight: way.weight / total }));
}

const WAYS = weighted([ORDINARY, UNUSUAL, ANY_OF_THEM]);
const WAYS_WHEN_COMPLETE = weighted([COMPLETE, UNUSUAL]);

/** Everything that the students may have done; weights sum to 1. `complete`: they say that all lines are down. */
export function waysOfLooking(complete: boolean): readonly Looking[] {
  return complete ? WAYS_WHEN_COMPLETE : WAYS;
}

/** Chance that a line of this prominence is seen and written down. `shown`: does this tube have such lines at all? */
export function chanceSeen(prominence: number, looking: Looking, shown: boolean): number {
  const { limit, scatter, overlooked, surprise } = looking;
  const floor = prominence > HARDLY_SEEN ? surprise : surprise / 4;
  const chance = floor + (1 - overlooked - floor) * normalCdf((prominence - limit) / scatter);
  return shown ? chance : chance * LACKING;
}

const CLASSES = { lowest: -6, perUnit: 20, count: 180 } as const;

/** Lines of one class are taken for equally prominent. */
export function prominenceClass(prominence: number): number {
  const place = Math.round((prominence - CLASSES.lowest) * CLASSES.perUnit);
  return Math.max(0, Math.min(CLASSES.count - 1, place));
}

export interface LineChance {
  /** Chance seen over chance missed. */
  readonly odds: number;
  /** ln of the chance missed. */
  readonly logMissed: number;
}

/** Chances of a class of lines under one way of looking, kept: they are asked for every line of every tube. */
export class ChanceTable {
  readonly #looking: Looking;
  readonly #shown: LineChance[] = [];
  readonly #lacking: LineChance[] = [];

  constructor(looking: Looking) {
    this.#looking = looking;
  }

  /** `shown`: does this tube have such lines at all? */
  of(lineClass: number, shown: boolean): LineChance {
    const table = shown ? this.#shown : this.#lacking;
    const known = table[lineClass];
    if (known) return known;
    const chance = chanceSeen(CLASSES.lowest + lineClass / CLASSES.perUnit, this.#looking, shown);
    const odds = chance / (1 - chance);
    const fresh = { odds, logMissed: -Math.log1p(odds) };
    table[lineClass] = fresh;
    return fresh;
  }
}

const tablesByLooking = new WeakMap<Looking, ChanceTable>();

export function chancesOf(looking: Looking): ChanceTable {
  const known = tablesByLooking.get(looking);
  if (known) return known;
  const fresh = new ChanceTable(looking);
  tablesByLooking.set(looking, fresh);
  return fresh;
}

/** Chance that a line is seen by someone who looks for it at its place. */
export function chanceSeenLooking(prominence: number, limit: number): number {
  return 0.9 * normalCdf((prominence - limit + LOOKING_GAIN) / LOOKING_SCATTER);
}
