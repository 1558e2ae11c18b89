/** Hands: how a setting scatters, what is read off for it, and the slips people make. */
import type { ReadingValue, SideValue } from '../../../src/record/schema.ts';
import type { Random } from '../random.ts';
import { hands, prisms } from './assumptions.ts';
import { heavyBelow } from './gauss.ts';
import { type Instrument, wholeCircle } from './instrument.ts';

/** Those who read at one bench, and what the bench does meanwhile. Lengths in units of the instrument. */
export interface Hand {
  readonly scatter: number;
  readonly slipChance: number;
  readonly repeats: number;
  /** Reading of the central image; side on which lines are read; the circle's eccentricity. */
  readonly central: number;
  readonly side: 1 | -1;
  readonly eccentricity: { readonly size: number; readonly atArcmin: number };
}

/** One number read off one window: what is shown is about zero + sign × (ordinate + excess). */
export interface RawReading {
  readonly shown: number;
  readonly zero: number;
  readonly sign: 1 | -1;
  /** What a slip added to it; 0 where there is none. */
  readonly slip: number;
}

export function drawHand(random: Random, instrument: Instrument, slipChance: number): Hand {
  const { median, logSpread, from, to } = hands.scatterCounts;
  const counts = Math.min(to, Math.max(from, random.logNormal(median, logSpread)));
  const isDial = instrument.method === 'scale';
  const scatter = counts * instrument.leastCount;
  return {
    scatter: isDial ? scatter : Math.max(hands.leastArcmin, scatter),
    slipChance,
    repeats: random.pickWeighted(hands.repeats).count,
    central: isDial ? 0 : random.between(0, wholeCircle),
    side: isDial ? 1 : random.sign(),
    eccentricity: {
      size: isDial ? 0 : random.normal(0, instrument.windows === 2 ? 2 : 0.3),
      atArcmin: random.between(0, wholeCircle),
    },
  };
}

/** Student's law, four degrees of freedom, standard deviation 1: one setting in a hundred is 3.3 of them off. */
export function heavyTailed(random: Random): number {
  const chiSquared = -2 * Math.log((1 - random.uniform()) * (1 - random.uniform()));
  return random.normal() / Math.sqrt(chiSquared / 4) / Math.SQRT2;
}

/** Chance that just this number is read off where the line stands at `expected`. */
export function chanceShown(
  unslipped: number,
  expected: number,
  scatter: number,
  leastCount: number,
): number {
  const off = unslipped - expected;
  return heavyBelow((off + leastCount / 2) / scatter) - heavyBelow((off - leastCount / 2) / scatter);
}

const slipsOnCircle = [
  { weight: 0.35, kind: 'division' },
  { weight: 0.13, kind: 'half a degree' },
  { weight: 0.17, kind: 'degree' },
  { weight: 0.1, kind: 'ten degrees' },
  { weight: 0.13, kind: 'digits swapped' },
  { weight: 0.12, kind: 'vernier backwards' },
] as const;
const slipsOnDial = [
  { weight: 0.5, kind: 'division' },
  { weight: 0.2, kind: 'five divisions' },
  { weight: 0.3, kind: 'digits swapped' },
] as const;

/** What a slip adds to a reading; 0 where the slip drawn changes nothing there (44 swapped is 44). */
function slipSize(random: Random, shown: number, { method, division, leastCount }: Instrument): number {
  const { kind } = method === 'scale' ? random.pickWeighted(slipsOnDial) : random.pickWeighted(slipsOnCircle);
  const sign = random.sign();
  switch (kind) {
    case 'division':
      return sign * division;
    case 'five divisions':
      return 5 * sign * division;
    case 'half a degree':
      return 30 * sign;
    case 'degree':
      return 60 * sign;
    case 'ten degrees':
      return 600 * sign;
    case 'vernier backwards': {
      const ticks = Math.round((shown - Math.floor(shown / division) * division) / leastCount);
      return ticks === 0 ? 0 : division - 2 * ticks * leastCount;
    }
    case 'digits swapped': {
      // The last two digits of the minutes, or of a dial's whole units.
      const from = method === 'scale' ? 100 : 60;
      const digits = ((Math.floor(shown) % from) + from) % from;
      const [tens, ones] = [Math.floor(digits / 10), digits % 10];
      const isPossible = method === 'scale' || ones < 6;
      return isPossible ? 9 * (ones - tens) : 0;
    }
  }
}

/** One setting on a line read in one window; `place` with the excess of this setting in it. */
function readWindow(
  random: Random,
  instrument: Instrument,
  hand: Hand,
  role: { readonly zero: number; readonly sign: 1 | -1; readonly window: 0 | 1 },
  place: number,
  excess: number,
): RawReading {
  const { leastCount } = instrument;
  const turned = role.zero + role.sign * (place + excess);
  const { size, atArcmin } = hand.eccentricity;
  const eccentric = size * Math.sin(((turned - atArcmin) / wholeCircle) * 2 * Math.PI);
  const zero = role.zero + (role.window === 1 ? wholeCircle / 2 - eccentric : eccentric);
  const setting = zero + role.sign * (place + excess) + hand.scatter * heavyTailed(random);
  const shown = Math.round(setting / leastCount) * leastCount;
  const slip = random.chance(hand.slipChance) ? slipSize(random, shown, instrument) : 0;
  return { shown: shown + slip, zero, sign: role.sign, slip };
}

/** What stands in the record for some raw readings of one side, and those readings. */
interface Taken<Value> {
  readonly value: Value;
  readonly raw: readonly RawReading[];
}

function readSide(
  random: Random,
  instrument: Instrument,
  hand: Hand,
  zero: number,
  sign: 1 | -1,
  nm: number | null,
): Taken<SideValue> {
  const place = nm === null ? 0 : instrument.ordinate(nm);
  const excess = nm === null ? 0 : instrument.excess(nm, random.normal(0, prisms.missetDeg));
  const read = (window: 0 | 1) => readWindow(random, instrument, hand, { zero, sign, window }, place, excess);
  const first = read(0);
  if (instrument.windows === 1) return { value: instrument.write(first.shown), raw: [first] };
  const second = read(1);
  return { value: [instrument.write(first.shown), instrument.write(second.shown)], raw: [first, second] };
}

/** All repeats of a line (nm), at a bench that stands `shift` from where its central image was. */
export function readLine(
  random: Random,
  instrument: Instrument,
  hand: Hand,
  shift: number,
  nm: number,
): { readonly readings: ReadingValue[]; readonly raw: readonly RawReading[] } {
  const zero = hand.central + shift;
  const takes = Array.from({ length: hand.repeats }, (): Taken<ReadingValue> => {
    if (instrument.method !== 'both-sides') return readSide(random, instrument, hand, zero, hand.side, nm);
    const left = readSide(random, instrument, hand, zero, 1, nm);
    const right = readSide(random, instrument, hand, zero, -1, nm);
    return { value: { left: left.value, right: right.value }, raw: [...left.raw, ...right.raw] };
  });
  return { readings: takes.map(({ value }) => value), raw: takes.flatMap(({ raw }) => raw) };
}

/** The central image, by the central method only. */
export function readCentral(random: Random, instrument: Instrument, hand: Hand, shift: number): SideValue[] {
  return Array.from(
    { length: hand.repeats },
    () => readSide(random, instrument, hand, hand.central + shift, 1, null).value,
  );
}
