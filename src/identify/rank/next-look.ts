/** Where one more look would tell most: the expected information about which tube it is. */

import type { CalibrationCurve } from '../../calibrate/types.ts';
import { tubeOrigin } from '../../observe/origin.ts';
import { readingAt } from '../../observe/reading-at.ts';
import type { Bench, UnknownTube } from '../../record/bench.ts';
import type { UnknownReading } from '../bench/unknown-reading.ts';
import { chanceSeenLooking } from '../spectrum/detection.ts';
import type { NextLook } from '../types.ts';
import { averagedChances } from './candidate-report.ts';
import type { Row } from './rank.ts';

/** Less information than this (in bits) is not worth a look. */
const WORTH_A_LOOK = 0.02;
const MOST_RIVALS = 6;

interface Rival {
  readonly name: string;
  readonly weight: number;
  readonly lines: readonly {
    readonly wavelengthNm: number;
    readonly ordinate: number;
    readonly chance: number;
  }[];
}

/** Null when no look would separate the leading candidates. `shift`: of all readings, as the leading row takes them. */
export function nextLook(
  bench: Bench,
  tube: UnknownTube,
  rows: readonly Row[],
  readings: readonly UnknownReading[],
  curve: CalibrationCurve,
  shift: number,
): NextLook | null {
  const rivals = leadingRivals(rows);
  if (rivals.length < 2) return null;
  const u = Math.sqrt(Math.max(...readings.map((reading) => reading.totalVariance)));
  const reach = 2.5 * u;
  let best: { wavelengthNm: number; bits: number } | null = null;
  for (const { wavelengthNm, ordinate } of rivals.flatMap((rival) => rival.lines)) {
    const alreadyRead = readings.some((reading) => Math.abs(reading.ordinate - ordinate) < reach);
    if (alreadyRead || !insideCurve(curve, wavelengthNm)) continue;
    const bits = expectedBits(rivals, ordinate, reach);
    if (best === null || bits > best.bits + 1e-9) best = { wavelengthNm, bits };
  }
  if (best === null || best.bits < WORTH_A_LOOK) return null;
  // Where the leading row takes all readings for shifted, its lines lie elsewhere than the calibration has them.
  const ordinate = curve.ordinateAt(best.wavelengthNm) + shift;
  const reading = readingAt(bench, ordinate, tubeOrigin(bench, tube));
  if (reading === null) return null;
  return { reading, wavelengthNm: best.wavelengthNm, separates: separated(rivals, ordinate, reach) };
}

function insideCurve(curve: CalibrationCurve, wavelengthNm: number): boolean {
  return wavelengthNm > Math.max(395, curve.domainNm[0]) && wavelengthNm < Math.min(715, curve.domainNm[1]);
}

function leadingRivals(rows: readonly Row[]): Rival[] {
  const leading = rows
    .filter((row) => row.reading !== null && row.probability > 1e-4)
    .slice(0, MOST_RIVALS)
    .map(({ tube, admixtures, probability, reading }): Rival => {
      const name = [tube!.substance, ...admixtures.map((admixture) => admixture.substance)].join(' with ');
      const chanceOf = averagedChances(reading!);
      const lines = reading!.assumption.seen.lines
        .filter((line) => line.expected)
        .map((line) => ({
          wavelengthNm: line.wavelengthNm,
          ordinate: line.ordinate,
          // Someone who looks on purpose sees somewhat fainter lines than were written down.
          chance: Math.max(
            chanceOf(line),
            chanceSeenLooking(line.prominence, reading!.assumption.scene.looking.limit),
          ),
        }))
        .filter(({ chance }) => chance > 0.1);
      return { name, weight: probability, lines };
    });
  const total = leading.reduce((sum, { weight }) => sum + weight, 0);
  return leading.map((rival) => ({ ...rival, weight: rival.weight / total }));
}

function chanceAt(rival: Rival, ordinate: number, reach: number): number {
  const missed = rival.lines
    .filter((line) => Math.abs(line.ordinate - ordinate) < reach)
    .reduce((product, line) => product * (1 - line.chance), 1);
  return 1 - 0.98 * missed;
}

/** Mutual information between "a line is seen there" and which candidate it is. */
function expectedBits(rivals: readonly Rival[], ordinate: number, reach: number): number {
  const chances = rivals.map((rival) => chanceAt(rival, ordinate, reach));
  const seen = rivals.reduce((sum, rival, i) => sum + rival.weight * chances[i]!, 0);
  return entropy(seen) - rivals.reduce((sum, rival, i) => sum + rival.weight * entropy(chances[i]!), 0);
}

function entropy(chance: number): number {
  if (chance <= 0 || chance >= 1) return 0;
  return -chance * Math.log2(chance) - (1 - chance) * Math.log2(1 - chance);
}

/** The likeliest candidate on each side of the question: with a line there, and without. */
function separated(rivals: readonly Rival[], ordinate: number, reach: number): string[] {
  const withLine = rivals.find((rival) => chanceAt(rival, ordinate, reach) > 0.4);
  const without = rivals.find((rival) => rival !== withLine && chanceAt(rival, ordinate, reach) < 0.4);
  const chosen = [withLine, without].flatMap((rival) => rival?.name ?? []);
  return chosen.length === 2 ? chosen : rivals.slice(0, 2).map((rival) => rival.name);
}
