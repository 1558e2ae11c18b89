/** Where one more look would tell most: the expected information about which tube it is. */
import type { CalibrationCurve } from '../../calibrate/types.ts';
import { isWellSeen } from '../../lines/visible.ts';
import { sumOf } from '../../numeric/sum.ts';
import { readingAt } from '../../observe/reading-at.ts';
import type { Bench } from '../../record/bench.ts';
import {
  IDENTIFIED,
  LEAST_CHANCE,
  LEAST_PROBABILITY,
  MOST_RIVALS,
  NEARLY_AS_TELLING,
  NOTHING_THERE,
  UNLISTED_LINES,
  WITH_LINE,
  WORTH_A_LOOK,
} from '../assumptions.ts';
import { nearestWavelength } from '../bench/bench-hypothesis.ts';
import { isLookedAt, type LookedPlace, lookReach } from '../bench/looked-places.ts';
import type { TubeReadings } from '../bench/tube-readings.ts';
import { chanceSeenLooking } from '../spectrum/detection.ts';
import type { NextLook } from '../types.ts';
import { averagedChances } from './candidate-report.ts';
import { type Row, shiftOf } from './rank.ts';

interface AskedLine {
  readonly wavelengthNm: number;
  /** Where it stands on the bench as its row understands it. */
  readonly ordinate: number;
  readonly chance: number;
}

interface Rival {
  readonly name: string;
  readonly weight: number;
  /** Null: a tube that is not listed, whose lines may be anywhere. */
  readonly lines: readonly AskedLine[] | null;
}

/**
 * Null when no look would help. `shift`: of all readings, as the leading row takes them. A look reaches as far as a
 * hand's error about it, and what lies within reach of a reading or of a place looked at, as it is told, is not asked.
 */
export function nextLook(
  bench: Bench,
  rows: readonly Row[],
  { readings, origin }: Pick<TubeReadings, 'readings' | 'origin'>,
  looked: readonly LookedPlace[],
  curve: CalibrationCurve,
  shift: number,
): NextLook | null {
  const rivals = possibleRivals(rows);
  // The place is told in whole counts, and so it is written down.
  const rounding = bench.leastCount / 2;
  const isNew = (ordinate: number, reach: number): boolean =>
    !readings.some((reading) => Math.abs(reading.ordinate - ordinate) < reach + rounding) &&
    ![-rounding, 0, rounding].some((by) => isLookedAt(looked, ordinate + by, shift));
  const places = rivals
    .slice(0, MOST_RIVALS)
    .flatMap(({ lines }, row) => (lines ?? []).map((line) => ({ line, row })))
    .map(({ line, row }) => {
      const reach = lookReach(readings, curve, line.ordinate - shift);
      // Where the leading row has its own lines; of another row it may be elsewhere.
      const leadingNm = nearestWavelength(curve, line.ordinate - shift);
      const isThatLine = Math.abs(curve.ordinateAt(line.wavelengthNm) + shift - line.ordinate) < reach;
      return { line, row, reach, leadingNm, toldNm: isThatLine ? line.wavelengthNm : leadingNm };
    })
    .filter(({ line: { wavelengthNm, ordinate }, reach, leadingNm, toldNm }) => {
      const inside = wavelengthNm > curve.domainNm[0] && wavelengthNm < curve.domainNm[1];
      const visible = inside && isWellSeen(wavelengthNm) && isWellSeen(leadingNm);
      // Neither there nor where the wavelength that is told would be written down as looked at.
      return visible && [ordinate, curve.ordinateAt(toldNm) + shift].every((at) => isNew(at, reach));
    });
  const chancesAt = ({ line, reach }: (typeof places)[number]): number[] => {
    const perNm = Math.abs(curve.slopeAt(line.wavelengthNm));
    return rivals.map((rival) => chanceAt(rival, line.ordinate, reach, reach / perNm));
  };
  const judged = places.map((place) => {
    const chances = chancesAt(place);
    return { place, chances, bits: expectedBits(rivals, chances) };
  });
  const most = judged.reduce((highest, { bits }) => Math.max(highest, bits), 0);
  // What tells nearly as much at a line of a likelier row is easier to understand.
  const [tells] = judged
    .filter(({ bits }) => bits >= NEARLY_AS_TELLING * most)
    .sort((a, b) => a.place.row - b.place.row || b.bits - a.bits);
  const told = ({ line, toldNm }: (typeof places)[number], separates: readonly string[]) => {
    const reading = readingAt(bench, line.ordinate, origin);
    return reading === null ? null : { reading, wavelengthNm: toldNm, separates };
  };
  if (tells && most >= WORTH_A_LOOK) return told(tells.place, separated(rivals, tells.chances));
  const lead = rivals.find(({ lines }) => lines !== null);
  if (!lead || rows[0]!.probability >= IDENTIFIED) return null;
  const confirming = places
    .filter(({ line }) => lead.lines!.includes(line) && line.chance > LEAST_CHANCE.confirm)
    .sort((a, b) => b.line.chance - a.line.chance)[0];
  const other = rivals.find((rival) => rival !== lead)?.name ?? SOMETHING_ELSE;
  return confirming ? told(confirming, [lead.name, other]) : null;
}

const SOMETHING_ELSE = 'something else';

/** Every row that may be: many that are unlikely each are together what a look can rule out. */
function possibleRivals(rows: readonly Row[]): Rival[] {
  const possible = rows
    .filter(({ probability }) => probability > LEAST_PROBABILITY)
    .map(({ tube, admixtures, probability, reading }): Rival => {
      if (tube === null || reading === null)
        return { name: SOMETHING_ELSE, weight: probability, lines: null };
      const name = [tube, ...admixtures].map(({ substance }) => substance).join(' with ');
      const { seen, detection, likelihoods } = reading.assumption;
      const chanceOf = averagedChances(reading);
      const further = (shiftOf(reading)?.value ?? likelihoods.view.shift) - likelihoods.view.shift;
      const lines = seen.lines
        .filter((line) => line.expected)
        .map((line) => ({
          wavelengthNm: line.wavelengthNm,
          ordinate: line.ordinate + further,
          // Someone who looks on purpose sees somewhat fainter lines than were written down.
          chance: Math.max(chanceOf(line), chanceSeenLooking(line, detection.looking.limit)),
        }))
        .filter(({ chance }) => chance > LEAST_CHANCE.separate);
      return { name, weight: probability, lines };
    });
  const total = sumOf(possible, ({ weight }) => weight);
  return possible.map((rival) => ({ ...rival, weight: rival.weight / total }));
}

/** Chance that something is seen within reach of an ordinate. */
function chanceAt({ lines }: Rival, ordinate: number, reach: number, reachNm: number): number {
  const { count, overNm } = UNLISTED_LINES;
  const missed =
    lines === null
      ? Math.exp((-2 * reachNm * count) / overNm)
      : lines
          .filter((line) => Math.abs(line.ordinate - ordinate) < reach)
          .reduce((product, { chance }) => product * (1 - chance), 1);
  return 1 - (1 - NOTHING_THERE) * missed;
}

/** Mutual information between "a line is seen there" and which candidate it is. */
function expectedBits(rivals: readonly Rival[], chances: readonly number[]): number {
  const seen = sumOf(rivals, ({ weight }, i) => weight * chances[i]!);
  return entropy(seen) - sumOf(rivals, ({ weight }, i) => weight * entropy(chances[i]!));
}

function entropy(chance: number): number {
  if (chance <= 0 || chance >= 1) return 0;
  return -chance * Math.log2(chance) - (1 - chance) * Math.log2(1 - chance);
}

/** The likeliest candidate on each side of the question: with a line there, and without. */
function separated(rivals: readonly Rival[], chances: readonly number[]): string[] {
  const withLine = rivals.find((_, i) => chances[i]! > WITH_LINE);
  const without = rivals.find((rival, i) => rival !== withLine && chances[i]! < WITH_LINE);
  const chosen = [withLine, without].flatMap((rival) => rival?.name ?? []);
  return chosen.length === 2 ? chosen : rivals.slice(0, 2).map(({ name }) => name);
}
