/** What slips in the unknown's readings add to a candidate's evidence. */
import type { ReadingAlternative } from '../calibrate/reading-alternatives.ts';
import type { TubeSpectrum } from '../lines/spectrum.ts';
import { logAdd } from '../numeric/log-sum.ts';
import { type CandidateEvidence, candidateEvidence, type Evidence } from './evidence.ts';
import { readingReach, type UnknownReading } from './unknown-reading.ts';

/** One or two slips that explain the readings better for a candidate. */
export interface SlipScene {
  /** By the line's index in its tube. */
  readonly slips: ReadonlyMap<number, ReadingAlternative>;
  readonly evidence: Evidence;
  readonly found: CandidateEvidence;
  /** ln weight, prior of the slips included. */
  readonly log: number;
}

export interface SlipEvidence {
  /** ln evidence with and without slips. */
  readonly log: number;
  /** Likeliest first. */
  readonly scenes: readonly SlipScene[];
}

/** Slips unlikelier than this are not tried on the unknown. */
const LOWEST_LOG_ODDS = -10;
/** A scene this far behind the plain reading adds nothing. */
const NEGLIGIBLE = -7;
const MOST_FOLLOWED = 3;
const DEEPEST = 2;

export function slipEvidence(tube: TubeSpectrum, evidence: Evidence, plain: CandidateEvidence): SlipEvidence {
  if (plain.best === null) return { log: plain.log, scenes: [] };
  const { view } = plain.best;
  const resolutions = evidence.resolutions.slice(0, 1);
  // The gain is taken under the likeliest view alone, and applied to the whole.
  const base = candidateEvidence(tube, evidence, [view], resolutions);
  let log = plain.log;
  let scenes: SlipScene[] = [];
  let front: SlipScene[] = [{ slips: new Map(), evidence, found: base, log: plain.log }];
  for (let depth = 0; depth < DEEPEST && front.length > 0; depth += 1) {
    const next = front
      .flatMap((scene) => furtherSlips(scene))
      .map(({ scene, index, alternative, moved }): SlipScene => {
        const found = candidateEvidence(tube, moved, [view], resolutions);
        const gain = found.log - base.log;
        const odds = [...scene.slips.values()].reduce((sum, slip) => sum + slip.logOdds, alternative.logOdds);
        const slips = new Map([...scene.slips, [index, alternative] as const]);
        return { slips, evidence: moved, found, log: plain.log + gain + odds };
      })
      .filter((scene) => scene.log > log + NEGLIGIBLE);
    const different = withoutDoubles(next);
    for (const scene of different) log = logAdd(log, scene.log);
    front = different.sort((a, b) => b.log - a.log).slice(0, MOST_FOLLOWED);
    // A second slip is worth a look only where the first one was worth it.
    if (front[0] && front[0].log < plain.log - 1) front = [];
    scenes = [...scenes, ...different];
  }
  return { log, scenes: scenes.sort((a, b) => b.log - a.log) };
}

interface Further {
  readonly scene: SlipScene;
  readonly index: number;
  readonly alternative: ReadingAlternative;
  readonly moved: Evidence;
}

/** Slips that take a reading to the neighbourhood of some line. */
function furtherSlips(scene: SlipScene): Further[] {
  const assumption = scene.found.best;
  if (assumption === null) return [];
  return scene.evidence.readings.flatMap((reading, position) => {
    const { index } = reading.line;
    if (scene.slips.has(index)) return [];
    return reading.alternatives
      .filter((alternative) => alternative.logOdds > LOWEST_LOG_ODDS)
      .filter((alternative) => {
        const ordinate = reading.ordinate + alternative.correction;
        return assumption.lines.some(
          (line) =>
            line.prominence > -3.2 &&
            Math.abs(line.ordinate - ordinate) < readingReach(reading, line.variance),
        );
      })
      .map((alternative) => ({
        scene,
        index,
        alternative,
        moved: withCorrection(scene.evidence, position, alternative),
      }));
  });
}

function withCorrection(evidence: Evidence, position: number, alternative: ReadingAlternative): Evidence {
  const readings = evidence.readings.map(
    (reading, i): UnknownReading =>
      i === position ? { ...reading, ordinate: reading.ordinate + alternative.correction } : reading,
  );
  return { ...evidence, readings: readings.sort((a, b) => a.ordinate - b.ordinate) };
}

/** Two slips found in either order are one scene. */
function withoutDoubles(scenes: readonly SlipScene[]): SlipScene[] {
  const byName = new Map<string, SlipScene>();
  for (const scene of scenes) {
    const name = [...scene.slips]
      .map(
        ([index, slip]) =>
          `${index}:${slip.part.repeat}:${slip.part.side}:${slip.part.window}:${slip.correction}`,
      )
      .sort()
      .join(' ');
    if (!byName.has(name)) byName.set(name, scene);
  }
  return [...byName.values()];
}
