/** What each tube shows through each view of the bench, worked out once. */
import type { Component, TubeSpectrum } from '../../lines/spectrum.ts';
import type { BenchLine } from '../../record/bench.ts';
import type { BenchView } from '../bench/bench-hypothesis.ts';
import { isLookedAt, isRead, type LookedPlace } from '../bench/looked-places.ts';
import type { UnknownReading } from '../bench/unknown-reading.ts';
import { remembered } from '../evidence/remembered.ts';
import {
  boundedLooking,
  chanceSeenLooking,
  chancesOf,
  type Looking,
  visibilityClass,
  waysOfLooking,
} from './detection.ts';
import { type ModelLine, mergedLines, placedLines, prominenceWith } from './expected-lines.ts';
import { hasNotes, NoteFactors } from './notes.ts';
import { type Strengths, strengthNodes } from './strengths.ts';

export interface Resolution {
  /** Lines closer than this are read as one; unit of the ordinate. */
  readonly size: number;
  readonly logWeight: number;
}

/** Chances of all lines for one way of looking and one set of strengths of the tube's components. */
export interface Scene {
  /** Chance that a line is seen over the chance that it is missed. */
  readonly odds: readonly number[];
  /** ln of the chance that every line is missed, prior weight of the scene included. */
  readonly logAllMissed: number;
  readonly looking: Looking;
  /** Its place among the ways of looking. */
  readonly way: number;
  readonly strengths: Strengths;
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

/** A line that was looked for in vain is hardly among the readings. */
const READ_ALL_THE_SAME = 0.1;

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
        scenes: this.#scenesOf(lines, tube.components, view.shift),
      };
    });
  }

  #scenesOf(
    lines: readonly ModelLine[],
    components: readonly Component[],
    shift: number,
  ): SeenThrough['scenes'] {
    const fresh = () => this.#newScenes(lines, components, shift);
    if (this.#looked.length > 0) return fresh();
    // Where nobody looked at a place on purpose the places do not matter: mostly all views share their scenes.
    return remembered(this.#scenesByLook, `${strengthsKey(components)} ${lines.map(lookKey).join()}`, fresh);
  }

  #newScenes(
    lines: readonly ModelLine[],
    components: readonly Component[],
    shift: number,
  ): SeenThrough['scenes'] {
    const brightest = components.map((_, component) =>
      lines.reduce(
        (most, line) => (line.component === component ? Math.max(most, line.prominence) : most),
        Number.NEGATIVE_INFINITY,
      ),
    );
    const nodes = strengthNodes(components, brightest).map((strengths) => ({
      strengths,
      lines: lines.map((line) => ({ ...line, prominence: prominenceWith(line, strengths.gains) })),
    }));
    const classes = nodes.map((node) => node.lines.map(visibilityClass));
    const made = new Map<number, Scene>();
    const inVain = [...lines.keys()].filter((j) => {
      const { ordinate } = lines[j]!;
      return isLookedAt(this.#looked, ordinate, shift) && !isRead(this.#readings, ordinate);
    });
    const scene = (node: number, way: number): Scene =>
      remembered(made, node * this.ways.length + way, () =>
        this.#scene(nodes[node]!.lines, classes[node]!, way, nodes[node]!.strengths, inVain),
      );
    const lists = new Map<Care, readonly Scene[]>();
    return (care) =>
      remembered(lists, care, () => {
        const ways = [...this.ways.keys()].filter((way) => care === 'full' || way % GLANCE_STEP === 0);
        return [...nodes.keys()].flatMap((node) => ways.map((way) => scene(node, way)));
      });
  }

  /** `lines` as prominent as `strengths` make them, `classes` those of their visibility. */
  #scene(
    lines: readonly ModelLine[],
    classes: readonly number[],
    way: number,
    strengths: Strengths,
    inVain: readonly number[],
  ): Scene {
    const looking = boundedFor(this.ways[way]!, classes);
    const chances = chancesOf(looking);
    const odds: number[] = [];
    let logAllMissed = Math.log(looking.weight) + strengths.logWeight;
    for (let j = 0; j < lines.length; j += 1) {
      const chance = chances.of(classes[j]!);
      odds.push(chance.odds);
      logAllMissed += chance.logMissed;
    }
    // Looked for in vain once or three times, a line is missing once.
    for (const j of inVain) {
      const seen = chanceSeenLooking(lines[j]!, looking.limit);
      logAllMissed += Math.log(1 - seen);
      odds[j] = (odds[j]! * READ_ALL_THE_SAME) / (1 - seen);
    }
    return { odds, logAllMissed, looking, way, strengths };
  }
}

/** A way of looking with a bound, as it is at a tube with these lines. */
function boundedFor(looking: Looking, classes: readonly number[]): Looking {
  if (looking.atMost >= classes.length) return looking;
  const chances = chancesOf(looking);
  const expected = classes.reduce((sum, lineClass) => {
    const { odds } = chances.of(lineClass);
    return sum + odds / (1 + odds);
  }, 0);
  return boundedLooking(looking, expected);
}

const strengthsKey = (components: readonly Component[]): string =>
  components.map(({ strengthSd }) => strengthSd).join();

/** What makes the chances of a line, as a key. */
function lookKey(line: ModelLine): string {
  const key = `${visibilityClass(line)}/${line.component}`;
  if (line.members.every(({ component }) => component === line.component)) return key;
  return `${key}/${line.members.map(({ prominence, component }) => `${prominence}*${component}`).join('+')}`;
}
