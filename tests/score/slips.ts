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
