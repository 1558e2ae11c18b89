/** How likely a line is seen and written down, given how prominent it is and how faint a line may be. */
import { normalCdf } from '../numeric/normal.ts';

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
  scatter: 0.75,
  overlooked: 0.045,
  surprise: 0.005,
  limits: [
    [-4, 0.05],
    [-3.2, 0.1],
    [-2.5, 0.13],
    [-1.8, 0.13],
    [-1.1, 0.13],
    [-0.4, 0.09],
    [0.4, 0.05],
  ],
};
/** A tube that looks unlike the line table: other pressure, age, current. */
const UNUSUAL: LookingKind = {
  scatter: 2,
  overlooked: 0.15,
  surprise: 0.03,
  limits: [
    [-3.4, 0.02],
    [-2.2, 0.03],
    [-1, 0.035],
    [0.4, 0.035],
  ],
};
/** Some of the lines they saw, bright or not. */
const ANY_OF_THEM: LookingKind = {
  scatter: 0.9,
  overlooked: 0.6,
  surprise: 0.006,
  limits: [
    [-3.6, 0.05],
    [-2.4, 0.07],
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

/** Chances of lines of any prominence under one way of looking, from a table: asked for every line of every tube. */
export interface ChanceTable {
  /** Chance seen over chance missed. */
  odds(prominence: number, shown: boolean): number;
  /** ln of the chance missed. */
  logMissed(prominence: number, shown: boolean): number;
}

const TABLE = { lowest: -6, perUnit: 20, places: 180 } as const;
const tablesByLooking = new WeakMap<Looking, ChanceTable>();

export function chancesOf(looking: Looking): ChanceTable {
  const known = tablesByLooking.get(looking);
  if (known) return known;
  const shown = Float64Array.from({ length: TABLE.places }, (_, i) =>
    chanceSeen(TABLE.lowest + i / TABLE.perUnit, looking, true),
  );
  const [oddsShown, oddsLacking] = [shown, shown.map((chance) => chance * LACKING)].map((chances) =>
    chances.map((chance) => chance / (1 - chance)),
  );
  const [missedShown, missedLacking] = [oddsShown!, oddsLacking!].map((odds) =>
    odds.map((each) => -Math.log1p(each)),
  );
  const place = (prominence: number): number =>
    Math.max(0, Math.min(TABLE.places - 1, Math.round((prominence - TABLE.lowest) * TABLE.perUnit)));
  const fresh: ChanceTable = {
    odds: (prominence, shown) => (shown ? oddsShown! : oddsLacking!)[place(prominence)]!,
    logMissed: (prominence, shown) => (shown ? missedShown! : missedLacking!)[place(prominence)]!,
  };
  tablesByLooking.set(looking, fresh);
  return fresh;
}

/** Chance that a line is seen by someone who looks for it at its place. */
export function chanceSeenLooking(prominence: number, limit: number): number {
  return 0.9 * normalCdf((prominence - limit + LOOKING_GAIN) / LOOKING_SCATTER);
}
