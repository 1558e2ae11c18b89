/**
 * The ceiling of the second world. The oracle knows the true curve, where the bench stood, the scatter of the hand,
 * every slip (and takes it off), the slit's width, and the law of what is seen with all its chances. It does not
 * know the tube, nor what was drawn of it and of its observer: threshold, adaptation, diligence, strength of ions and
 * molecules, impurities. Those it averages over by simple Monte Carlo; given them the sum over all alignments of
 * readings with features is exact except that two readings never change their order by scatter.
 */
import { Random } from '../random.ts';
import { prisms, writing } from './assumptions.ts';
import { chanceShown } from './hand.ts';
import { chanceSeen, drawObserver, type Feature, look } from './look.ts';
import { colourChance, seenAsChance } from './notes.ts';
import type { TrueLine, WorldBench } from './simulate.ts';
import { drawGlow, isAlike, type WorldTube, worldTubes } from './tubes.ts';

/** Nodes of equal weight for the misset of a prism: (k + 1/2)/5 quantiles of |normal|. */
const missetNodes = [0.1257, 0.3853, 0.6745, 1.0364, 1.6449];
const stepsInCount = 10;
/** A reading is worth a look within so many standard deviations and counts. */
const reach = { deviations: 12, counts: 3 };

/** How likely what was shown for a line is at each place of a fine grid. */
interface ReadingTable {
  readonly place: number;
  readonly from: number;
  readonly step: number;
  readonly chances: readonly number[];
  readonly ghost: number;
  readonly line: TrueLine;
}

function tableOf(bench: WorldBench, line: TrueLine): ReadingTable {
  const { instrument, hand } = bench;
  const { leastCount } = instrument;
  const excesses = missetNodes.map((node) => instrument.excess(line.nm, node * prisms.missetDeg));
  const places = line.raw.map(({ shown, slip, zero, sign }) => sign * (shown - slip - zero));
  const place = places.reduce((sum, value) => sum + value, 0) / places.length;
  const half = reach.deviations * hand.scatter + reach.counts * leastCount;
  const step = Math.min(hand.scatter / 2, leastCount / stepsInCount);
  const chances = Array.from({ length: Math.ceil((2 * half) / step) + 1 }, (_, k) => {
    const at = place - half + k * step;
    return places.reduce((product, shown) => {
      const sum = excesses.reduce(
        (total, excess) => total + chanceShown(shown, at + excess, hand.scatter, leastCount),
        0,
      );
      return (product * sum) / excesses.length;
    }, 1);
  });
  // A ghost stands anywhere between two wavelengths: its density is taken over to the instrument at this line.
  const perNm = Math.abs(instrument.ordinate(line.nm + 0.5) - instrument.ordinate(line.nm - 0.5));
  const ghostRate = writing.ghostChance / (writing.ghostToNm - writing.ghostFromNm) / perNm;
  const ghost = ghostRate * step * chances.reduce((sum, chance) => sum + chance, 0);
  return { place, from: place - half, step, chances, ghost, line };
}

function chanceAt({ from, step, chances }: ReadingTable, place: number): number {
  const at = (place - from) / step;
  const index = Math.floor(at);
  if (index < 0 || index >= chances.length - 1) return 0;
  return chances[index]! + (chances[index + 1]! - chances[index]!) * (at - index);
}

const depthNodes = [0.1, 0.3, 0.5, 0.7, 0.9];

/** Places of the instrument at which a feature may be read, each as likely. */
function placesOf({ nm, depthNm }: Feature, ordinate: (nm: number) => number): number[] {
  return depthNm === 0 ? [ordinate(nm)] : depthNodes.map((share) => ordinate(nm + share * depthNm));
}

/** Chance of the reading and its notes if the feature at these places is what was read. */
function likelihood(
  { words }: WorldBench,
  table: ReadingTable,
  feature: Feature,
  places: readonly number[],
): number {
  let shown = 0;
  for (const place of places) shown += chanceAt(table, place) / places.length;
  if (shown === 0) return 0;
  const { colour, brightness } = table.line;
  const nm = feature.nm + feature.depthNm / 2;
  const named = colour === null || words === null ? 1 : colourChance(words, colour, nm);
  return shown * named * seenAsChance(feature, brightness);
}

/** Nearest to certainty that a line can be seen and written, for the ratios below. */
const mostCertain = 1 - 1e-9;

/** Probability of the record's lines given what could be seen: forward recursion over features in order. */
function chanceOfRecord(
  bench: WorldBench,
  tables: readonly ReadingTable[],
  features: readonly Feature[],
): number {
  const { ordinate } = bench.instrument;
  const soFar = new Array<number>(tables.length + 1).fill(0);
  soFar[0] = 1;
  for (const [j, table] of tables.entries()) soFar[j + 1] = soFar[j]! * table.ghost;
  let nothing = 1 - writing.ghostChance;
  const fresh = new Array<number>(tables.length + 1).fill(0);
  for (const feature of features) {
    const unread = 1 - Math.min(mostCertain, chanceSeen(feature) * feature.written);
    nothing *= unread;
    const places = placesOf(feature, ordinate);
    for (const [j, table] of tables.entries()) {
      // A ghost is taken in right after the reading before it, so that each alignment counts once.
      const match = (likelihood(bench, table, feature, places) * feature.written) / unread;
      fresh[j + 1] = soFar[j]! * match + (j > 0 ? fresh[j]! * table.ghost : 0);
    }
    for (let j = 1; j <= tables.length; j++) soFar[j] = soFar[j]! + fresh[j]!;
  }
  return nothing * soFar[tables.length]!;
}

function evidence(
  random: Random,
  bench: WorldBench,
  tables: readonly ReadingTable[],
  tube: WorldTube,
  draws: number,
): number {
  // Readings and features in one direction: along the ordinate.
  const { ordinate } = bench.instrument;
  const isRising = ordinate(700) > ordinate(400);
  let sum = 0;
  for (let k = 0; k < draws; k++) {
    const observer = drawObserver(random, bench.isComplete);
    const features = look(drawGlow(random, tube), observer, bench.instrument.optics);
    sum += chanceOfRecord(bench, tables, isRising ? features : features.reverse());
  }
  return sum / draws;
}

/** Draws for each tube in each round, and how many of the best go on to the next. */
export type OracleEffort = readonly { readonly draws: number; readonly of: number }[];

const usualEffort: OracleEffort = [
  { draws: 16, of: worldTubes.length },
  { draws: 60, of: 12 },
  { draws: 400, of: 5 },
];

/** The tube that the oracle names, and its probability among all (with tubes that look the same). */
export function askOracle(
  bench: WorldBench,
  seed: number,
  effort: OracleEffort = usualEffort,
): { readonly substance: string; readonly probability: number } {
  const random = new Random(seed ^ 0x5eed);
  const tables = bench.lines.map((line) => tableOf(bench, line)).sort((a, b) => a.place - b.place);
  let fine = worldTubes.map((tube) => ({ tube, chance: 0 }));
  for (const { draws, of } of effort) {
    fine = fine
      .slice(0, of)
      .map(({ tube }) => ({ tube, chance: evidence(random, bench, tables, tube, draws) }))
      .sort((a, b) => b.chance - a.chance);
  }
  const { substance } = fine[0]!.tube;
  const all = fine.reduce((sum, { chance }) => sum + chance, 0);
  const own = fine
    .filter(({ tube }) => isAlike(tube.substance, substance))
    .reduce((sum, { chance }) => sum + chance, 0);
  return { substance, probability: all > 0 ? own / all : 0 };
}
