/**
 * The ways in which one raw reading is misread at a telescope, as shifts of that reading.
 * Kinds: common practice, no source; how often each happens: assumptions.ts.
 */
import type { Bench } from '../record/bench.ts';
import { SLIP_CHANCE } from './assumptions.ts';

/** What happened; `words/slip-text.ts` says it. */
export type SlipCause =
  | { readonly kind: 'main-scale'; readonly divisions: 1 | 2 }
  | { readonly kind: 'half-division' | 'half-degree' | 'degree' | 'ten-degrees' | 'minutes-as-seconds' }
  | { readonly kind: 'scale-mark'; readonly units: number }
  /** Any amount: with it the middle between left and right is that of the other lines. */
  | { readonly kind: 'one-side' }
  /** Digits in the wrong order: as written, and as they should be. */
  | { readonly kind: 'digits'; readonly written: string; readonly meant: string };

export interface SlipKind {
  readonly cause: SlipCause;
  /** Add this to the reading as written to get the reading as it should be: arc-minutes or scale units. */
  readonly correction: number;
  /** Prior probability of exactly this slip in one raw reading. */
  readonly chance: number;
}

/**
 * Every slip that could stand behind a raw reading (degrees, or scale units on a scale bench) that was written down to
 * `step`.
 */
export function possibleSlips(bench: Bench, reading: number, step = bench.leastCount): SlipKind[] {
  const slips = bench.method === 'scale' ? scaleSlips(step, reading) : circleSlips(bench, reading);
  return mergedByCorrection(slips);
}

/**
 * ln by which a further slip of one observer is likelier, `made` of them known: some observers slip often and some
 * hardly ever. With a rate that is exponential from bench to bench the second is twice as likely, the third three
 * times (common practice, no source; checked by `npm run score:identification` and `npm run score:measured`).
 */
export function logOddsOfFurtherSlip(made: number): number {
  return Math.log(made + 1);
}

function bothWays(cause: SlipCause, size: number, chance: number): SlipKind[] {
  return [
    { cause, correction: size, chance: chance / 2 },
    { cause, correction: -size, chance: chance / 2 },
  ];
}

function circleSlips(bench: Bench, readingDeg: number): SlipKind[] {
  const division = bench.scaleDivisionArcmin ?? 60;
  const halfDegree = bench.decimalCircle === true ? SLIP_CHANCE.halfDegreeOfDecimals : SLIP_CHANCE.halfDegree;
  return [
    ...bothWays({ kind: 'main-scale', divisions: 1 }, division, SLIP_CHANCE.division),
    ...bothWays({ kind: 'main-scale', divisions: 2 }, 2 * division, SLIP_CHANCE.twoDivisions),
    ...bothWays({ kind: 'half-division' }, division / 2, SLIP_CHANCE.halfDivision),
    ...bothWays({ kind: 'half-degree' }, 30, halfDegree),
    ...bothWays({ kind: 'degree' }, 60, SLIP_CHANCE.degree),
    ...bothWays({ kind: 'ten-degrees' }, 600, SLIP_CHANCE.tenDegrees),
    ...digitSlips(bench, readingDeg),
    ...minutesAsSeconds(bench.leastCount, readingDeg),
  ];
}

/** A reading of seconds alone that this vernier does not show: they are minutes. */
function minutesAsSeconds(leastCountArcmin: number, readingDeg: number): SlipKind[] {
  const seconds = (readingDeg * 3600) % 3600;
  const ticks = seconds / 60 / leastCountArcmin;
  const isOnATick = Math.abs(ticks - Math.round(ticks)) < 1e-3;
  if (seconds < 0.5 || seconds >= 60 || isOnATick) return [];
  const correction = seconds - seconds / 60;
  return [{ cause: { kind: 'minutes-as-seconds' }, correction, chance: SLIP_CHANCE.minutesAsSeconds }];
}

/** Two digits of the minutes, of the vernier part or of the degrees in the wrong order. */
function digitSlips(bench: Bench, readingDeg: number): SlipKind[] {
  const division = bench.scaleDivisionArcmin ?? 60;
  const totalMinutes = Math.round(((readingDeg % 1) + 1) * 60 * 1e6) / 1e6 - 60;
  const wholeMinutes = Math.floor(totalMinutes + 1e-9);
  const slips: SlipKind[] = [];
  const add = (part: number, limit: number, unitArcmin: number, chance: number): void => {
    const swapped = swapDigits(part);
    if (swapped === part || swapped >= limit) return;
    const cause: SlipCause = { kind: 'digits', written: String(part), meant: String(swapped) };
    slips.push({ cause, correction: (swapped - part) * unitArcmin, chance });
  };
  add(wholeMinutes, 60, 1, SLIP_CHANCE.digitsOfMinutes);
  const vernier = wholeMinutes % division;
  if (division < 60) add(vernier, division, 1, SLIP_CHANCE.digits);
  const degrees = Math.floor(readingDeg + 1e-9);
  add(degrees % 100, 100, 60, SLIP_CHANCE.digitsOfDegrees);
  return slips;
}

/** Of a number below 100. */
function swapDigits(part: number): number {
  return (part % 10) * 10 + Math.floor(part / 10);
}

function scaleSlips(step: number, reading: number): SlipKind[] {
  const slips: SlipKind[] = [];
  const isPossible = (size: number): boolean => size >= 3 * step && size <= Math.abs(reading);
  for (const size of [1, 10, 100, 1000]) {
    for (const { times, chance } of SLIP_CHANCE.scaleMarks) {
      const units = times * size;
      if (isPossible(units)) slips.push(...bothWays({ kind: 'scale-mark', units }, units, chance));
    }
    if (!isPossible(size)) continue;
    const part = Math.floor(Math.abs(reading) / size) % 100;
    const swapped = swapDigits(part);
    // Nobody writes the leading zero that would be swapped.
    if (swapped === part || (part < 10 && Math.abs(reading) < 10 * size)) continue;
    const twoDigits = (digits: number): string => String(digits).padStart(2, '0');
    const cause: SlipCause = { kind: 'digits', written: twoDigits(part), meant: twoDigits(swapped) };
    slips.push({ cause, correction: (swapped - part) * size, chance: SLIP_CHANCE.digits });
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
