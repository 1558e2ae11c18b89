/**
 * The ways in which one raw reading is misread at a telescope, as shifts of that reading.
 * Kinds and rates: common practice, no source; the rates are priors, checked by `npm run score:calibration`.
 */
import type { Bench } from '../record/bench.ts';

export interface SlipKind {
  /** Stable, kebab-case. */
  readonly kind: string;
  /** What happened, for a person: "one division of the main scale missed". */
  readonly words: string;
  /** Add this to the reading as written to get the reading as it should be: arc-minutes or scale units. */
  readonly correction: number;
  /** Prior probability of exactly this slip in one raw reading. */
  readonly chance: number;
}

/** Every slip that could stand behind a raw reading (degrees, or scale units on a scale bench). */
export function possibleSlips(bench: Bench, reading: number): SlipKind[] {
  const slips =
    bench.method === 'scale' ? scaleSlips(bench.leastCount, reading) : circleSlips(bench, reading);
  return mergedByCorrection(slips);
}

function bothWays(kind: string, words: string, size: number, chance: number): SlipKind[] {
  return [
    { kind, words, correction: size, chance: chance / 2 },
    { kind, words, correction: -size, chance: chance / 2 },
  ];
}

function circleSlips(bench: Bench, readingDeg: number): SlipKind[] {
  const division = bench.scaleDivisionArcmin ?? 60;
  const slips = [
    ...bothWays(
      'main-scale',
      `one ${inMinutes(division)} division of the main scale missed`,
      division,
      0.008,
    ),
    ...bothWays(
      'main-scale',
      `two ${inMinutes(division)} divisions of the main scale missed`,
      2 * division,
      0.002,
    ),
    ...bothWays('half-division', `half of a ${inMinutes(division)} division missed`, division / 2, 0.003),
    ...bothWays('half-degree', 'half a degree (30 arc-minutes) missed', 30, 0.01),
    ...bothWays('degree', 'one degree missed', 60, 0.008),
    ...bothWays('ten-degrees', 'ten degrees missed', 600, 0.003),
    ...digitSlips(bench, readingDeg),
  ];
  return [...slips, ...minutesAsSeconds(bench.leastCount, readingDeg)];
}

/** A reading of seconds alone that this vernier does not show: they are minutes. */
function minutesAsSeconds(leastCountArcmin: number, readingDeg: number): SlipKind[] {
  const seconds = (readingDeg * 3600) % 3600;
  const ticks = seconds / 60 / leastCountArcmin;
  const isOnATick = Math.abs(ticks - Math.round(ticks)) < 1e-3;
  if (seconds < 0.5 || seconds >= 60 || isOnATick) return [];
  const correction = seconds - seconds / 60;
  return [{ kind: 'minutes-as-seconds', words: 'minutes written as seconds', correction, chance: 0.05 }];
}

function inMinutes(arcmin: number): string {
  return arcmin >= 60 ? `${arcmin / 60}°` : `${arcmin}'`;
}

/** Two digits of the minutes, of the vernier part or of the degrees in the wrong order. */
function digitSlips(bench: Bench, readingDeg: number): SlipKind[] {
  const division = bench.scaleDivisionArcmin ?? 60;
  const totalMinutes = Math.round(((readingDeg % 1) + 1) * 60 * 1e6) / 1e6 - 60;
  const wholeMinutes = Math.floor(totalMinutes + 1e-9);
  const slips: SlipKind[] = [];
  const add = (part: number, limit: number, unitArcmin: number, words: string, chance: number): void => {
    const swapped = swapLastDigits(part);
    if (swapped === part || swapped >= limit) return;
    slips.push({ kind: 'digits', words, correction: (swapped - part) * unitArcmin, chance });
  };
  const words = (part: number) => `digits in the wrong order (${part} for ${swapLastDigits(part)})`;
  add(wholeMinutes, 60, 1, words(wholeMinutes), 0.003);
  const vernier = wholeMinutes % division;
  if (division < 60) add(vernier, division, 1, words(vernier), 0.002);
  const degrees = Math.floor(readingDeg + 1e-9);
  add(degrees % 100, 100, 60, words(degrees % 100), 0.001);
  return slips;
}

function swapLastDigits(part: number): number {
  return (part % 10) * 10 + Math.floor((part % 100) / 10) + Math.floor(part / 100) * 100;
}

function scaleSlips(leastCount: number, reading: number): SlipKind[] {
  const slips: SlipKind[] = [];
  for (const size of [1, 10, 100, 1000]) {
    if (size < 3 * leastCount || size > Math.abs(reading)) continue;
    slips.push(...bothWays('scale-mark', `${size} scale units missed`, size, 0.004));
    const part = Math.floor(Math.abs(reading) / size) % 100;
    const swapped = swapLastDigits(part);
    // Nobody writes the leading zero that would be swapped.
    if (swapped === part || (part < 10 && Math.abs(reading) < 10 * size)) continue;
    const words = `digits in the wrong order (${String(part).padStart(2, '0')} for ${String(swapped).padStart(2, '0')})`;
    slips.push({ kind: 'digits', words, correction: (swapped - part) * size, chance: 0.002 });
  }
  return slips;
}

/** Kinds with one size (a 30' division and half a degree) are one hypothesis; the likeliest names it. */
function mergedByCorrection(slips: readonly SlipKind[]): SlipKind[] {
  const bySize = new Map<number, SlipKind>();
  for (const slip of [...slips].sort((a, b) => b.chance - a.chance)) {
    const size = Math.round(slip.correction * 1000);
    const known = bySize.get(size);
    bySize.set(size, known ? { ...known, chance: known.chance + slip.chance } : slip);
  }
  return [...bySize.values()];
}
