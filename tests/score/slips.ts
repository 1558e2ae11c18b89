/** Misreadings of a circle or scale, planted one raw reading at a time (one side, one window, one repeat). */
import type { Random } from './random.ts';

export type SlipKind =
  | 'half-degree'
  | 'degree'
  | 'division'
  | 'ten-degrees'
  | 'digits-swapped'
  | 'minutes-as-seconds'
  | 'wrong-side'
  | 'other-minutes';

/** How often each kind is made; common practice, no source. */
const kinds: readonly { readonly kind: SlipKind; readonly weight: number }[] = [
  { kind: 'half-degree', weight: 27 },
  { kind: 'degree', weight: 20 },
  { kind: 'division', weight: 20 },
  { kind: 'ten-degrees', weight: 8 },
  { kind: 'digits-swapped', weight: 12 },
  { kind: 'minutes-as-seconds', weight: 3 },
  { kind: 'wrong-side', weight: 5 },
  { kind: 'other-minutes', weight: 5 },
];

/** What is needed to misread: the reading as it should be, its least count, and the same line on the other side. */
export interface ReadingAtHand {
  readonly shownDeg: number;
  readonly leastCountArcmin: number;
  readonly divisionArcmin: number;
  /** Null where there is no other side (the central image, or both sides are read). */
  readonly otherSideDeg: number | null;
}

/** Degrees and minutes as a person reads them off, the minutes to the least count. */
function degreesAndMinutes({ shownDeg, leastCountArcmin }: ReadingAtHand): [number, number] {
  const minutes = Math.round((shownDeg * 60) / leastCountArcmin) * leastCountArcmin;
  return [Math.floor(minutes / 60), minutes % 60];
}

function swapDigits(reading: ReadingAtHand): number | null {
  const [degrees, minutes] = degreesAndMinutes(reading);
  const whole = Math.floor(minutes);
  const swapped = (whole % 10) * 10 + Math.floor(whole / 10);
  if (swapped === whole || swapped >= 60) return null;
  return degrees + (swapped + minutes - whole) / 60;
}

/** The reading as the slip makes it, degrees; null where this kind changes nothing or cannot happen. */
export function misread(random: Random, kind: SlipKind, reading: ReadingAtHand): number | null {
  const { shownDeg } = reading;
  switch (kind) {
    case 'half-degree':
      return shownDeg + random.sign() * 0.5;
    case 'degree':
      return shownDeg + random.sign();
    case 'division':
      return shownDeg + (random.sign() * (random.chance(0.7) ? 1 : 2) * reading.divisionArcmin) / 60;
    case 'ten-degrees':
      return shownDeg + random.sign() * 10;
    case 'digits-swapped':
      return swapDigits(reading);
    case 'minutes-as-seconds': {
      const [degrees, minutes] = degreesAndMinutes(reading);
      return minutes === 0 ? null : degrees + minutes / 3600;
    }
    case 'wrong-side':
      return reading.otherSideDeg;
    case 'other-minutes': {
      const steps = random.whole(1, Math.floor(59 / reading.leastCountArcmin));
      return Math.floor(shownDeg) + (((shownDeg % 1) * 60 + steps * reading.leastCountArcmin) % 60) / 60;
    }
  }
}

/** A slip of any kind that changes this reading. */
export function misreadSomehow(random: Random, reading: ReadingAtHand): { kind: SlipKind; shownDeg: number } {
  for (;;) {
    const { kind } = random.pickWeighted(kinds);
    const shownDeg = misread(random, kind, reading);
    if (shownDeg !== null) return { kind, shownDeg };
  }
}

/** What a misread reading may have been, with the chance of each, given that it is a slip. */
export interface BeforeSlip {
  readonly readings: readonly { readonly readingDeg: number; readonly chance: number }[];
  /** Chance of minutes that have nothing to do with the right ones. */
  readonly otherMinutes: number;
}

/** `misreadSomehow` the other way round: from the reading written down to those that it may stand for. */
export function beforeSlip({
  shownDeg,
  leastCountArcmin,
  divisionArcmin,
  otherSideDeg,
}: ReadingAtHand): BeforeSlip {
  const total = kinds.reduce((sum, { weight }) => sum + weight, 0);
  const chanceOf = (wanted: SlipKind): number => kinds.find(({ kind }) => kind === wanted)!.weight / total;
  const bothWays = (stepDeg: number, chance: number) =>
    [-stepDeg, stepDeg].map((step) => ({ readingDeg: shownDeg + step, chance: chance / 2 }));
  const one = (readingDeg: number | null, chance: number) =>
    readingDeg === null ? [] : [{ readingDeg, chance }];
  const minutes = (((shownDeg % 1) + 1) % 1) * 60;
  const wholeMinutes = Math.round(minutes * 60);
  const isOnATick = Math.abs(minutes / leastCountArcmin - Math.round(minutes / leastCountArcmin)) < 1e-6;
  const asMinutes = isOnATick || wholeMinutes >= 60 ? null : Math.floor(shownDeg) + wholeMinutes / 60;
  return {
    readings: [
      ...bothWays(0.5, chanceOf('half-degree')),
      ...bothWays(1, chanceOf('degree')),
      ...bothWays(divisionArcmin / 60, 0.7 * chanceOf('division')),
      ...bothWays(divisionArcmin / 30, 0.3 * chanceOf('division')),
      ...bothWays(10, chanceOf('ten-degrees')),
      ...one(
        swapDigits({ shownDeg, leastCountArcmin, divisionArcmin, otherSideDeg }),
        chanceOf('digits-swapped'),
      ),
      ...one(asMinutes, chanceOf('minutes-as-seconds')),
      ...one(otherSideDeg, chanceOf('wrong-side')),
    ],
    otherMinutes: chanceOf('other-minutes'),
  };
}
