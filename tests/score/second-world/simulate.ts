/** One bench of the second world: its record, and the truth behind it. */
import type { BenchRecord } from '../../../src/record/schema.ts';
import { benchSeed } from '../options.ts';
import { Random } from '../random.ts';
import { hands, notes, writing } from './assumptions.ts';
import { drawHand, type Hand, type RawReading, readCentral, readLine } from './hand.ts';
import { drawInstrument, type Instrument } from './instrument.ts';
import { readLamp } from './lamp.ts';
import { drawObserver, type Feature, look } from './look.ts';
import { type BrightnessWord, brightnessWord, drawColour, drawVocabulary, type Vocabulary } from './notes.ts';
import type { WorldColumn } from './plan.ts';
import { drawGlow, type Origin, type WorldTube, worldTubes } from './tubes.ts';

/** A line of the tube as it was read. */
export interface TrueLine {
  readonly nm: number;
  readonly raw: readonly RawReading[];
  readonly colour: string | null;
  readonly brightness: BrightnessWord | null;
  readonly origin: Origin | 'ghost';
}

export interface WorldBench {
  readonly record: BenchRecord;
  readonly tube: WorldTube;
  readonly instrument: Instrument;
  readonly hand: Hand;
  readonly words: Vocabulary | null;
  readonly isComplete: boolean;
  /** By how much the tube's readings stand off together, unnoticed by any central reading; units. */
  readonly shift: number;
  readonly lines: readonly TrueLine[];
}

interface Sighting {
  readonly nm: number;
  readonly brightness: BrightnessWord;
  readonly origin: TrueLine['origin'];
}

/** Seen by itself each, and then written down or not. */
function sightings(random: Random, features: readonly Feature[]): Sighting[] {
  const seen = features.flatMap((feature): Sighting[] => {
    const above = random.normal(feature.above, feature.scatter);
    const nm = feature.nm + feature.depthNm * random.uniform();
    if (above <= 0 || !random.chance(feature.written)) return [];
    return [{ nm, brightness: brightnessWord(above), origin: feature.origin }];
  });
  if (!random.chance(writing.ghostChance)) return seen;
  const nm = random.between(writing.ghostFromNm, writing.ghostToNm);
  return [...seen, { nm, brightness: 'weak', origin: 'ghost' }];
}

/** Two observers differ by so much, and the bench has moved by so much, between lamp and tube; units. */
function changesAtTube(random: Random, { leastCount }: Instrument, { scatter }: Hand) {
  const bias = random.chance(hands.twoObserversChance) ? random.normal(0, hands.observerBias * scatter) : 0;
  const moved = random.normal(0, random.pickWeighted(hands.drift).counts * leastCount);
  return { bias, moved };
}

/** Null where the draw gives no record to score: fewer than three known lines or two of the tube. */
function attempt(random: Random, column: WorldColumn): WorldBench | null {
  const tube = random.pick(worldTubes);
  const instrument = drawInstrument(random, column.family, column.instrument);
  const hand = drawHand(random, instrument, column.slipChance);
  const words = random.chance(notes.coloursChance) ? drawVocabulary(random) : null;
  const fault = column.faults.length === 0 ? null : random.pick(column.faults);
  const lamp = readLamp(random, instrument, hand, words, { fault, isMixed: column.isMixed });
  const isComplete = random.chance(writing.completeChance);
  const features = look(drawGlow(random, tube), drawObserver(random, isComplete), instrument.optics);
  const seen = sightings(random, features).sort((a, b) => b.nm - a.nm);
  if (lamp === null || seen.length < 2) return null;

  const hasBrightness = random.chance(notes.brightnessChance);
  const { bias, moved } = changesAtTube(random, instrument, hand);
  const read = seen.map(({ nm, brightness, origin }) => ({
    ...readLine(random, instrument, hand, moved + bias, nm),
    nm,
    origin,
    colour: words === null ? null : drawColour(random, words, nm),
    brightness: hasBrightness ? brightness : null,
  }));
  const hasCentral = instrument.method === 'central';
  const isReread = hasCentral && random.chance(hands.rereadCentralChance);
  const record: BenchRecord = {
    whichgas: 1,
    title: 'Harbour Lane, simulated',
    instrument: instrument.record,
    ...(hasCentral ? { central: readCentral(random, instrument, hand, 0) } : {}),
    known: [lamp],
    unknown: [
      {
        label: 'tube',
        ...(isReread ? { central: readCentral(random, instrument, hand, moved) } : {}),
        lines: read.map(({ readings, colour, brightness }) => ({
          readings,
          ...(colour === null ? {} : { color: colour }),
          ...(brightness === null ? {} : { brightness }),
        })),
        ...(isComplete ? { complete: true } : {}),
      },
    ],
  };
  const shift = instrument.method === 'both-sides' ? 0 : isReread ? bias : bias + moved;
  return { record, tube, instrument, hand, words, isComplete, shift, lines: read };
}

/** Other benches than those of the first world, whatever the columns are called. */
export const worldSeed = (column: string, bench: number, seed: number): number =>
  benchSeed(seed, `second world: ${column}`, bench);

/** Draws tubes and benches until one gives a record to score: a tube that rarely shows two lines is rarely met. */
export function simulateWorldBench(seed: number, column: WorldColumn): WorldBench {
  const random = new Random(seed);
  for (;;) {
    const bench = attempt(random, column);
    if (bench !== null) return bench;
  }
}
