/** How likely a line is seen and written down, given how prominent it is and how faint a line may be. */
import { normalCdf } from '../../numeric/normal.ts';

/** Lines below this prominence are never counted on. */
export const FAINTEST_PROMINENCE = -5;
/** Lines below this one are a rare surprise even where fainter lines are seen. */
const HARDLY_SEEN = -4;
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
  /** Scatter (ln) of what is noticed, beside what is not known of a line's prominence. */
  readonly scatter: number;
  /** Chance that even the brightest line is not written down. */
  readonly overlooked: number;
  /** Chance that a line far below the limit is. */
  readonly surprise: number;
  /** Of more lines than this they write down about so many, the bright ones rather than the faint. */
  readonly atMost: number;
  /** Chance that a line at the limit is written down if it is seen; the brighter it is, the rarer it is passed over. */
  readonly share: number;
  readonly weight: number;
}

type LookingKind = Omit<Looking, 'limit' | 'share' | 'weight'> & {
  readonly limits: readonly (readonly [limit: number, weight: number])[];
};

const NO_BOUND = Number.POSITIVE_INFINITY;

/** A limit above 0: they stopped before all of the bright lines were written down. */
const ORDINARY: LookingKind = {
  scatter: 0.6,
  overlooked: 0.035,
  surprise: 0.003,
  atMost: NO_BOUND,
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
  atMost: NO_BOUND,
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
  atMost: NO_BOUND,
  limits: [
    [-3.6, 0.03],
    [-2.4, 0.042],
  ],
};
/** A tube with many lines, of which nobody writes down more than a dozen. */
const A_DOZEN: LookingKind = {
  scatter: 0.8,
  overlooked: 0.035,
  surprise: 0.006,
  atMost: 6,
  limits: [
    [-3.6, 0.06],
    [-2.7, 0.07],
    [-1.8, 0.06],
  ],
};
const COMPLETE: LookingKind = {
  scatter: 0.9,
  overlooked: 0.03,
  surprise: 0.008,
  atMost: NO_BOUND,
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
    limits.map(([limit, weight]) => ({ ...kind, limit, share: 1, weight })),
  );
  const total = ways.reduce((sum, { weight }) => sum + weight, 0);
  return ways.map((way) => ({ ...way, weight: way.weight / total }));
}

const WAYS = weighted([ORDINARY, UNUSUAL, ANY_OF_THEM, A_DOZEN]);
const WAYS_WHEN_COMPLETE = weighted([COMPLETE, UNUSUAL]);

/** Everything that the students may have done; weights sum to 1. `complete`: they say that all lines are down. */
export function waysOfLooking(complete: boolean): readonly Looking[] {
  return complete ? WAYS_WHEN_COMPLETE : WAYS;
}

/** How prominent a line is and how well that is known: a mean and a standard deviation. */
export interface Visibility {
  readonly prominence: number;
  readonly prominenceSd: number;
}

/** Shares of the lines seen that are written down: a few stand for all, so that their chances can be kept. */
const WRITTEN_SHARES = [1, 0.75, 0.56, 0.42, 0.32, 0.24, 0.18, 0.13, 0.1] as const;
const sharedWays = new WeakMap<Looking, readonly Looking[]>();

/** The same way of looking where `expected` lines would be seen: with its bound, less of each is written down. */
export function boundedLooking(looking: Looking, expected: number): Looking {
  if (expected <= looking.atMost) return looking;
  const ways = sharedWays.get(looking) ?? WRITTEN_SHARES.map((share) => ({ ...looking, share }));
  sharedWays.set(looking, ways);
  const share = looking.atMost / expected;
  const place = WRITTEN_SHARES.findIndex((each) => each <= share);
  return ways[place < 0 ? ways.length - 1 : place]!;
}

/**
 * Chance that a line is seen and written down, integrated over its prominence: the soft step at the limit and the
 * uncertainty are both normal, so their variances add.
 */
export function chanceSeen({ prominence, prominenceSd }: Visibility, looking: Looking): number {
  const { limit, scatter, overlooked, surprise, share } = looking;
  const floor = prominence > HARDLY_SEEN ? surprise : surprise / 4;
  const spread = Math.hypot(scatter, prominenceSd);
  const skipped = share === 1 ? 0 : (1 - share) ** Math.exp(Math.max(0, prominence - limit));
  const most = (1 - overlooked) * (1 - skipped);
  return floor + Math.max(0, most - floor) * normalCdf((prominence - limit) / spread);
}

const CLASSES = { lowest: -6, perUnit: 20, count: 180 } as const;
const SD_CLASSES = { perUnit: 10, count: 14 } as const;

/** Lines of one class are taken for equally prominent, and equally well known. */
export function visibilityClass(prominence: number, prominenceSd: number): number {
  const sd = Math.min(SD_CLASSES.count - 1, Math.round(prominenceSd * SD_CLASSES.perUnit));
  const place = Math.round((prominence - CLASSES.lowest) * CLASSES.perUnit);
  return sd * CLASSES.count + Math.max(0, Math.min(CLASSES.count - 1, place));
}

/** Chances of a class of lines under one way of looking, kept: they are asked for every line of every tube. */
export class ChanceTable {
  readonly #looking: Looking;
  /** NaN: not asked for yet. */
  readonly #odds = new Float64Array(CLASSES.count * SD_CLASSES.count).fill(Number.NaN);

  constructor(looking: Looking) {
    this.#looking = looking;
  }

  /** Chance seen over chance missed; ln of the chance missed is -ln(1 + odds). */
  oddsOf(lineClass: number): number {
    const known = this.#odds[lineClass]!;
    if (!Number.isNaN(known)) return known;
    const visibility = {
      prominence: CLASSES.lowest + (lineClass % CLASSES.count) / CLASSES.perUnit,
      prominenceSd: Math.floor(lineClass / CLASSES.count) / SD_CLASSES.perUnit,
    };
    const chance = chanceSeen(visibility, this.#looking);
    const fresh = chance / (1 - chance);
    this.#odds[lineClass] = fresh;
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
export function chanceSeenLooking({ prominence, prominenceSd }: Visibility, limit: number): number {
  const spread = Math.hypot(LOOKING_SCATTER, prominenceSd);
  return 0.9 * normalCdf((prominence - limit + LOOKING_GAIN) / spread);
}
