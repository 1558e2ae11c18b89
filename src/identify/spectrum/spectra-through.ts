/** What each tube shows through each view of the bench, worked out once. */
import type { TubeSpectrum } from '../../lines/spectrum.ts';
import type { BenchLine } from '../../record/bench.ts';
import type { BenchView } from '../bench/bench-hypothesis.ts';
import { isLookedAt, isRead, type LookedPlace } from '../bench/looked-places.ts';
import type { UnknownReading } from '../bench/unknown-reading.ts';
import { remembered } from '../evidence/remembered.ts';
import { chanceSeenLooking, chancesOf, type Looking, prominenceClass, waysOfLooking } from './detection.ts';
import { type ModelLine, mergedLines, placedLines } from './expected-lines.ts';
import { hasNotes, NoteFactors } from './notes.ts';

export interface Resolution {
  /** Lines closer than this are read as one; unit of the ordinate. */
  readonly size: number;
  readonly logWeight: number;
}

/** Chances of all lines for one way of looking, with or without the lines that a tube may lack. */
export interface Scene {
  /** Chance that a line is seen over the chance that it is missed. */
  readonly odds: readonly number[];
  /** ln of the chance that every line is missed, prior weight of the scene included. */
  readonly logAllMissed: number;
  readonly looking: Looking;
  /** Its place among the ways of looking. */
  readonly way: number;
  readonly shown: boolean;
}

export interface SeenThrough {
  /** Ascending in ordinate. */
  readonly lines: readonly ModelLine[];
  /** Largest class of variance among them. */
  readonly widest: number;
  /** What the notes of a reading say of the lines; null for one without notes. */
  notes(reading: BenchLine): NoteFactors | null;
  /** Scenes of all ways of looking, or of the few that a glance takes; worked out when first asked for. */
  scenes(care: Care): readonly Scene[];
}

/** Every way of looking, or a few of them that stand for all. */
export type Care = 'full' | 'glance';
/** A glance takes every third way. */
const GLANCE_STEP = 3;

/** Chance that a tube shows the lines which an ordinary one may well lack. */
const SHOWN = 0.35;
/** A line that was looked for in vain is hardly among the readings. */
const READ_ALL_THE_SAME = 0.1;
/** Optional lines fainter than this make no scene of their own. */
const WORTH_A_SCENE = -3;

export class SpectraThrough {
  readonly #placed = new Map<BenchView, Map<TubeSpectrum, ModelLine[]>>();
  readonly #seen = new Map<Resolution, Map<BenchView, Map<TubeSpectrum, SeenThrough>>>();
  readonly #scenesByLook = new Map<string, SeenThrough['scenes']>();
  readonly #looked: readonly LookedPlace[];
  readonly #readings: readonly UnknownReading[];
  /** All ways of looking that are thought of. */
  readonly ways: readonly Looking[];

  constructor(looked: readonly LookedPlace[], readings: readonly UnknownReading[], complete: boolean) {
    this.#looked = looked;
    this.#readings = readings;
    this.ways = waysOfLooking(complete);
  }

  /** Lines ascending in ordinate, none merged. */
  placed(tube: TubeSpectrum, view: BenchView): readonly ModelLine[] {
    return remembered(
      remembered(this.#placed, view, () => new Map<TubeSpectrum, ModelLine[]>()),
      tube,
      () => placedLines(tube, view),
    );
  }

  through(tube: TubeSpectrum, view: BenchView, resolution: Resolution): SeenThrough {
    const views = remembered(
      this.#seen,
      resolution,
      () => new Map<BenchView, Map<TubeSpectrum, SeenThrough>>(),
    );
    const byTube = remembered(views, view, () => new Map<TubeSpectrum, SeenThrough>());
    return remembered(byTube, tube, () => {
      const lines = mergedLines(this.placed(tube, view), resolution.size);
      const notes = new Map<BenchLine, NoteFactors>();
      return {
        lines,
        widest: lines.reduce((most, line) => Math.max(most, line.varianceClass), 0),
        notes: (reading) =>
          hasNotes(reading) ? remembered(notes, reading, () => new NoteFactors(reading, lines)) : null,
        scenes: this.#scenesOf(lines, view.shift),
      };
    });
  }

  #scenesOf(lines: readonly ModelLine[], shift: number): SeenThrough['scenes'] {
    const classes = lines.map(({ prominence }) => prominenceClass(prominence));
    const optional = lines.some((line) => !line.expected && line.prominence > WORTH_A_SCENE);
    const fresh = () => this.#newScenes(lines, classes, optional, shift);
    if (this.#looked.length > 0) return fresh();
    // Where nobody looked at a place on purpose the places do not matter: mostly all views share their scenes.
    const look = lines.map(({ expected }, j) => (expected ? classes[j]! : -1 - classes[j]!)).join();
    return remembered(this.#scenesByLook, `${optional} ${look}`, fresh);
  }

  /** `classes`: of the lines' prominence; `optional`: is there a line that a tube may lack and that matters? */
  #newScenes(
    lines: readonly ModelLine[],
    classes: readonly number[],
    optional: boolean,
    shift: number,
  ): SeenThrough['scenes'] {
    const made = new Map<number, Scene>();
    const inVain = [...lines.keys()].filter((j) => {
      const { ordinate } = lines[j]!;
      return isLookedAt(this.#looked, ordinate, shift) && !isRead(this.#readings, ordinate);
    });
    const scene = (shown: boolean, way: number): Scene =>
      remembered(made, shown ? way : -1 - way, () =>
        this.#scene(lines, classes, way, shown, optional, inVain),
      );
    const lists = new Map<Care, readonly Scene[]>();
    return (care) =>
      remembered(lists, care, () => {
        const ways = [...this.ways.keys()].filter((way) => care === 'full' || way % GLANCE_STEP === 0);
        return (optional ? [true, false] : [true]).flatMap((shown) => ways.map((way) => scene(shown, way)));
      });
  }

  #scene(
    lines: readonly ModelLine[],
    classes: readonly number[],
    way: number,
    shown: boolean,
    optional: boolean,
    inVain: readonly number[],
  ): Scene {
    const looking = this.ways[way]!;
    const chances = chancesOf(looking);
    const odds: number[] = [];
    let logAllMissed = Math.log(looking.weight) + (optional ? Math.log(shown ? SHOWN : 1 - SHOWN) : 0);
    for (let j = 0; j < lines.length; j += 1) {
      const chance = chances.of(classes[j]!, shown || lines[j]!.expected);
      odds.push(chance.odds);
      logAllMissed += chance.logMissed;
    }
    // Looked for in vain once or three times, a line is missing once.
    for (const j of inVain) {
      const line = lines[j]!;
      const seen = shown || line.expected ? chanceSeenLooking(line.prominence, looking.limit) : 0;
      logAllMissed += Math.log(1 - seen);
      odds[j] = (odds[j]! * READ_ALL_THE_SAME) / (1 - seen);
    }
    return { odds, logAllMissed, looking, way, shown };
  }
}
