/** What each tube shows through each view of the bench, worked out once. */
import type { CalibrationCurve } from '../../calibrate/types.ts';
import type { Component, TubeSpectrum } from '../../lines/spectrum.ts';
import { once, remembered } from '../../numeric/remembered.ts';
import type { BenchLine } from '../../record/bench.ts';
import { READ_ALL_THE_SAME, STRAYS_ANYWHERE, STRAYS_AT_IMPURITIES } from '../assumptions.ts';
import type { BenchView } from '../bench/bench-hypothesis.ts';
import { isLookedAt, isRead, type LookedPlace } from '../bench/looked-places.ts';
import type { UnknownReading } from '../bench/unknown-reading.ts';
import {
  boundedLooking,
  chanceSeenLooking,
  chancesOf,
  type Looking,
  type Visibility,
  visibilityClass,
  type WeighedLooking,
  waysOfLooking,
} from './detection.ts';
import {
  isOfOneComponent,
  type LineOnCurve,
  type LinePlaces,
  linePlaces,
  linesOnCurve,
  type ModelLine,
  mergedLines,
  placedLines,
  prominenceWith,
} from './expected-lines.ts';
import { hasNotes, NoteFactors } from './notes.ts';
import { type Strengths, strengthNodes } from './strengths.ts';

export interface Resolution {
  /** Lines closer than this are read as one; unit of the ordinate. */
  readonly size: number;
  readonly logWeight: number;
}

/** Chances of all lines for one way of looking and one set of strengths of the tube's components. */
export interface DetectionModel {
  /** Chance that a line is seen over the chance that it is missed. */
  readonly odds: readonly number[];
  /** ln of the chance that every line is missed, prior weight included. */
  readonly logAllMissed: number;
  readonly looking: Looking;
  /** Its place among the ways of looking. */
  readonly way: number;
  readonly strengths: Strengths;
  /** Their place among the sets of strengths. */
  readonly strength: number;
}

export interface SeenThrough {
  /** Ascending in ordinate; made when first asked for, as of most tubes nobody asks more than the places. */
  readonly lines: readonly ModelLine[];
  readonly places: LinePlaces;
  /** Largest class of variance among them. */
  readonly widest: number;
  /** What the notes of a reading say of the lines; null for one without notes. */
  notes(reading: BenchLine): NoteFactors | null;
  readonly detections: DetectionModels;
}

/** All detection models of a tube, each worked out when first asked for. */
export interface DetectionModels {
  /** How many sets of strengths there are; the ordinary one is the first. */
  readonly strengths: number;
  /** The one of a set of strengths and a way of looking, both by their places. */
  at(strength: number, way: number): DetectionModel;
}

const HUGE = 1e200;
/** Readings that are no line of the tube, in one bench. */
const STRAYS = STRAYS_ANYWHERE + STRAYS_AT_IMPURITIES;

/** What a tube shows through a curve, the same through all views of the bench with that curve. */
interface ResolvedTube {
  /** Ascending in ordinate, those that are read as one merged. */
  readonly lines: readonly LineOnCurve[];
  readonly notes: SeenThrough['notes'];
  /** Where nobody looked at a place on purpose the places do not matter; null where somebody did. */
  readonly detections: DetectionModels | null;
}

/** A class, for an object literal with a getter is a dictionary to V8: ten times as slow to make, and slow to read. */
class SeenOnBench implements SeenThrough {
  readonly places: LinePlaces;
  readonly widest: number;
  readonly notes: SeenThrough['notes'];
  readonly detections: DetectionModels;
  readonly #lines: () => readonly ModelLine[];

  constructor({ lines, notes }: ResolvedTube, places: LinePlaces, detections: DetectionModels) {
    this.places = places;
    this.widest = places.varianceClasses.reduce((most, each) => Math.max(most, each), 0);
    this.notes = notes;
    this.detections = detections;
    this.#lines = once(() => placedLines(lines, places));
  }

  get lines(): readonly ModelLine[] {
    return this.#lines();
  }
}

/** Spectra as one tube's bench shows them, each made once: by curve, by resolution, by view. */
export class SpectraThrough {
  readonly #onCurves = new Map<CalibrationCurve, Map<TubeSpectrum, readonly LineOnCurve[]>>();
  readonly #resolved = new Map<Resolution, Map<CalibrationCurve, Map<TubeSpectrum, ResolvedTube>>>();
  readonly #seen = new Map<Resolution, Map<BenchView, Map<TubeSpectrum, SeenThrough>>>();
  readonly #detectionsByLook = new Map<string, DetectionModels>();
  readonly #looked: readonly LookedPlace[];
  readonly #readings: readonly UnknownReading[];
  /** All ways of looking that are thought of. */
  readonly ways: readonly WeighedLooking[];

  constructor(looked: readonly LookedPlace[], readings: readonly UnknownReading[], complete: boolean) {
    this.#looked = looked;
    this.#readings = readings;
    this.ways = waysOfLooking(complete, readings.length);
  }

  /** Lines ascending in ordinate, none merged. */
  onCurve(tube: TubeSpectrum, curve: CalibrationCurve): readonly LineOnCurve[] {
    return remembered(
      remembered(this.#onCurves, curve, () => new Map<TubeSpectrum, readonly LineOnCurve[]>()),
      tube,
      () => linesOnCurve(tube, curve),
    );
  }

  #resolvedOn(tube: TubeSpectrum, curve: CalibrationCurve, resolution: Resolution): ResolvedTube {
    const curves = remembered(
      this.#resolved,
      resolution,
      () => new Map<CalibrationCurve, Map<TubeSpectrum, ResolvedTube>>(),
    );
    const byTube = remembered(curves, curve, () => new Map<TubeSpectrum, ResolvedTube>());
    return remembered(byTube, tube, () => {
      const lines = mergedLines(this.onCurve(tube, curve), resolution.size);
      const notes = new Map<BenchLine, NoteFactors>();
      return {
        lines,
        notes: (reading) =>
          hasNotes(reading) ? remembered(notes, reading, () => new NoteFactors(reading, lines)) : null,
        detections: this.#looked.length > 0 ? null : this.#detectionsOf(lines, tube.components),
      };
    });
  }

  through(tube: TubeSpectrum, view: BenchView, resolution: Resolution): SeenThrough {
    const views = remembered(
      this.#seen,
      resolution,
      () => new Map<BenchView, Map<TubeSpectrum, SeenThrough>>(),
    );
    const byTube = remembered(views, view, () => new Map<TubeSpectrum, SeenThrough>());
    return remembered(byTube, tube, () => {
      const resolved = this.#resolvedOn(tube, view.curve, resolution);
      const places = linePlaces(resolved.lines, view);
      const detections =
        resolved.detections ?? this.#newDetections(resolved.lines, tube.components, places, view.shift);
      return new SeenOnBench(resolved, places, detections);
    });
  }

  /** Of another curve or resolution they are mostly the same, for they go by the lines' prominence only. */
  #detectionsOf(lines: readonly LineOnCurve[], components: readonly Component[]): DetectionModels {
    return remembered(this.#detectionsByLook, strengthsKey(components) + lookKey(lines), () =>
      this.#newDetections(lines, components, null, 0),
    );
  }

  /** `places`: where somebody may have looked; null where nobody did. */
  #newDetections(
    lines: readonly LineOnCurve[],
    components: readonly Component[],
    places: LinePlaces | null,
    shift: number,
  ): DetectionModels {
    const brightest = components.map(() => Number.NEGATIVE_INFINITY);
    for (const { component, prominence } of lines)
      brightest[component] = Math.max(brightest[component]!, prominence);
    const strengths = strengthNodes(components, brightest);
    const classes = strengths.map(({ gains }) =>
      lines.map((line) => visibilityClass(prominenceWith(line, gains), line.prominenceSd)),
    );
    const inVain = (places?.ordinates ?? []).flatMap((ordinate, j) =>
      isLookedAt(this.#looked, ordinate, shift) && !isRead(this.#readings, ordinate) ? [j] : [],
    );
    const made: DetectionModel[] = [];
    return {
      strengths: strengths.length,
      at: (strength, way) => {
        const place = strength * this.ways.length + way;
        const known = made[place];
        if (known) return known;
        const gained = strengths[strength]!;
        const missed = inVain.map((j) => ({
          j,
          prominence: prominenceWith(lines[j]!, gained.gains),
          prominenceSd: lines[j]!.prominenceSd,
        }));
        const fresh = this.#detection(classes[strength]!, way, strength, gained, missed);
        made[place] = fresh;
        return fresh;
      },
    };
  }

  /** `classes`: of the lines' visibility with these strengths; `inVain`: lines that were looked for and not seen. */
  #detection(
    classes: readonly number[],
    way: number,
    strength: number,
    strengths: Strengths,
    inVain: readonly (Visibility & { readonly j: number })[],
  ): DetectionModel {
    const { looking: unbounded, weight } = this.ways[way]!;
    const looking = boundedFor(unbounded, classes);
    const chances = chancesOf(looking);
    // A loop that fills a list: what a callback returns is put into an object of its own, ten thousand times a record.
    const odds: number[] = [];
    let logAllMissed = Math.log(weight) + strengths.logWeight;
    // The product is kept within what a number holds: a logarithm for each line would cost more than all else here.
    let seenOverMissed = 1;
    for (const lineClass of classes) {
      const chance = chances.oddsOf(lineClass);
      odds.push(chance);
      seenOverMissed *= 1 + chance;
      if (seenOverMissed < HUGE) continue;
      logAllMissed -= Math.log(seenOverMissed);
      seenOverMissed = 1;
    }
    logAllMissed -= Math.log(seenOverMissed);
    // Looked for in vain once or three times, a line is missing once.
    for (const line of inVain) {
      const seen = chanceSeenLooking(line, looking.limit);
      logAllMissed += Math.log(1 - seen);
      odds[line.j] = (odds[line.j]! * READ_ALL_THE_SAME) / (1 - seen);
    }
    const strays = looking.strays ?? 1;
    if (strays !== 1) {
      // Everything is told against all readings being strays.
      for (let j = 0; j < odds.length; j += 1) odds[j]! /= strays;
      logAllMissed += this.#readings.length * Math.log(strays) - (strays - 1) * STRAYS;
    }
    return { odds, logAllMissed, looking, way, strengths, strength };
  }
}

/** A way of looking with a bound, as it is at a tube with these lines. */
function boundedFor(looking: Looking, classes: readonly number[]): Looking {
  if (looking.atMost >= classes.length) return looking;
  const chances = chancesOf(looking);
  const expected = classes.reduce((sum, lineClass) => {
    const odds = chances.oddsOf(lineClass);
    return sum + odds / (1 + odds);
  }, 0);
  return boundedLooking(looking, expected);
}

const strengthsKey = (components: readonly Component[]): string =>
  `${components.map(({ strengthSd }) => strengthSd).join()};`;

/** More than the components of any two tubes. */
const COMPONENTS = 16;

/**
 * What makes the chances of lines, as a key: the class and component of each, and of lines read as one what each adds,
 * between zeros. Made for every tube, view and resolution: one character for each number.
 */
function lookKey(lines: readonly LineOnCurve[]): string {
  const codes: number[] = [];
  const add = (lineClass: number, component: number) => codes.push(1 + lineClass * COMPONENTS + component);
  for (const line of lines) {
    const isOne = isOfOneComponent(line);
    if (!isOne) codes.push(0);
    add(visibilityClass(line.prominence, line.prominenceSd), line.component);
    if (isOne) continue;
    for (const { prominence, component } of line.members) add(visibilityClass(prominence, 0), component);
    codes.push(0);
  }
  return String.fromCharCode(...codes);
}
