/** How likely a line is seen and written down, given how prominent it is and how faint a line may be. */
import { normalCdf } from '../../numeric/normal.ts';
import { remembered } from '../../numeric/remembered.ts';
import { sumOf } from '../../numeric/sum.ts';
import {
  A_DOZEN,
  ANY_OF_THEM,
  COMPLETE,
  HARDLY_SEEN,
  HARDLY_SEEN_SURPRISE,
  LOOKING_GAIN,
  LOOKING_MOST,
  LOOKING_SCATTER,
  type LookingKind,
  NOT_DONE,
  NOT_DONE_ODDS,
  ORDINARY,
  UNUSUAL,
  WRITTEN_SHARES,
} from '../assumptions.ts';

/** One way in which a pair of students may have come by their list of lines. */
export interface Looking extends Omit<LookingKind, 'limits'> {
  /** Prominence of a line that is seen every other time. */
  readonly limit: number;
  /** Chance that a line at the limit is written down if it is seen; with `brightFirst` brighter ones are passed over more rarely. */
  readonly share: number;
}

/** A way of looking and how often it is met; of all ways together 1. */
export interface WeighedLooking {
  readonly looking: Looking;
  readonly weight: number;
}

function weighted(kinds: readonly LookingKind[]): WeighedLooking[] {
  const ways = kinds.flatMap(({ limits, ...kind }) =>
    limits.map(([limit, weight]) => ({ looking: { limit, share: 1, ...kind }, weight })),
  );
  const total = sumOf(ways, ({ weight }) => weight);
  return ways.map(({ looking, weight }) => ({ looking, weight: weight / total }));
}

const WAYS = weighted([ORDINARY, UNUSUAL, ANY_OF_THEM, A_DOZEN]);
const WAYS_WHEN_COMPLETE = weighted([COMPLETE, UNUSUAL]);
/** Beside lists of so many lines, those that are not done. */
const waysBeside = new Map<number, readonly WeighedLooking[]>();

/**
 * Everything that the students may have done; weights sum to 1. `complete`: they say that all lines are down; `readings`: how
 * many lines are, 1 or more, of which they may not be done with the rest.
 */
export function waysOfLooking(complete: boolean, readings: number): readonly WeighedLooking[] {
  if (complete) return WAYS_WHEN_COMPLETE;
  return remembered(waysBeside, readings, () => {
    const odds = NOT_DONE_ODDS / readings ** 2;
    const notDone = weighted([{ ...NOT_DONE, atMost: readings }]);
    const weigh = (ways: readonly WeighedLooking[], part: number) =>
      ways.map(({ looking, weight }) => ({ looking, weight: weight * part }));
    return [...weigh(WAYS, 1 / (1 + odds)), ...weigh(notDone, odds / (1 + odds))];
  });
}

/** How prominent a line is and how well that is known: a mean and a standard deviation. */
export interface Visibility {
  readonly prominence: number;
  readonly prominenceSd: number;
}

const sharedWays = new WeakMap<Looking, readonly Looking[]>();

/** The same way of looking where `expected` lines would be seen: with its bound, less of each is written down. */
export function boundedLooking(looking: Looking, expected: number): Looking {
  if (expected <= looking.atMost) return looking;
  const ways = remembered(sharedWays, looking, () => WRITTEN_SHARES.map((share) => ({ ...looking, share })));
  const share = looking.atMost / expected;
  const place = WRITTEN_SHARES.findIndex((each) => each <= share);
  return ways[place < 0 ? ways.length - 1 : place]!;
}

/**
 * Chance that a line is seen and written down, integrated over its prominence: the soft step at the limit and the
 * uncertainty are both normal, so their variances add.
 */
export function chanceSeen({ prominence, prominenceSd }: Visibility, looking: Looking): number {
  const { limit, scatter, overlooked, surprise, share, brightFirst } = looking;
  const floor = prominence > HARDLY_SEEN ? surprise : HARDLY_SEEN_SURPRISE * surprise;
  const spread = Math.hypot(scatter, prominenceSd);
  const brightness = brightFirst ? Math.max(0, prominence - limit) : 0;
  const skipped = share === 1 ? 0 : (1 - share) ** Math.exp(brightness);
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

/** The chances of one way of looking, made once. */
export function chancesOf(looking: Looking): ChanceTable {
  return remembered(tablesByLooking, looking, () => new ChanceTable(looking));
}

/** Chance that a line is seen by someone who looks for it at its place. */
export function chanceSeenLooking({ prominence, prominenceSd }: Visibility, limit: number): number {
  const spread = Math.hypot(LOOKING_SCATTER, prominenceSd);
  return LOOKING_MOST * normalCdf((prominence - limit + LOOKING_GAIN) / spread);
}
