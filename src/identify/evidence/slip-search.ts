/** What slips in the unknown's readings add to a candidate's evidence. */
import type { TubeSpectrum } from '../../lines/spectrum.ts';
import { logAdd } from '../../numeric/log-sum.ts';
import { remembered } from '../../numeric/remembered.ts';
import type { ReadingAlternative } from '../../observe/slip-hypotheses.ts';
import { logOddsOfFurtherSlip } from '../../observe/slips.ts';
import { BEATEN, BEYOND_SLIPS, MOST_GAIN, NEGLIGIBLE_SLIPS, SLIP_STEPS } from '../assumptions.ts';
import type { ModelLine } from '../spectrum/expected-lines.ts';
import {
  type Assumption,
  type CandidateEvidence,
  candidateEvidence,
  type Evidence,
  matchedLines,
  withReadingMoved,
} from './candidate-evidence.ts';
import { placeAt } from './pairings.ts';
import type { ReadingLikelihoods } from './reading-likelihood.ts';

/** A few slips that explain the readings better for a candidate. */
export interface SlipHypothesis {
  /** By the line's index in its tube. */
  readonly slips: ReadonlyMap<number, ReadingAlternative>;
  /** ln odds of these slips beforehand. */
  readonly logPrior: number;
  readonly evidence: Evidence;
  readonly found: CandidateEvidence;
  /** ln weight, prior of the slips included. */
  readonly log: number;
}

export interface SlipEvidence {
  /** ln evidence with and without slips. */
  readonly log: number;
  /** Likeliest first. */
  readonly hypotheses: readonly SlipHypothesis[];
}

/** `lead`: ln evidence of the leading candidate. */
export function slipEvidence(
  tube: TubeSpectrum,
  evidence: Evidence,
  plain: CandidateEvidence,
  lead: number,
): SlipEvidence {
  if (plain.best === null || plain.log < lead + BEYOND_SLIPS) return { log: plain.log, hypotheses: [] };
  const likelihoods = [plain.best.likelihoods];
  const resolutions = evidence.resolutions.slice(0, 1);
  const trialsOfLikelihoods = remembered(
    keptTrials,
    likelihoods[0]!,
    () => new Map<TubeSpectrum, Map<string, Trial>>(),
  );
  const trials = remembered(trialsOfLikelihoods, tube, () => new Map<string, Trial>());
  // The gain is taken under the likeliest view alone, and applied to the whole.
  let base: CandidateEvidence | null = null;
  let log = plain.log;
  let hypotheses: SlipHypothesis[] = [];
  let front: SlipHypothesis[] = [{ slips: new Map(), logPrior: 0, evidence, found: plain, log: plain.log }];
  for (const [made, { tried: most, followed }] of SLIP_STEPS.entries()) {
    if (front.length === 0 || evidence.allowance.isSpent) break;
    const likeliest = front[0]!.log;
    const deeper = followed > 0 ? MOST_GAIN : 0;
    const tried = front
      .flatMap((hypothesis) => furtherSlips(hypothesis))
      .filter(({ bound }) => bound > NEGLIGIBLE_SLIPS + plain.log && bound + deeper > lead + BEATEN)
      .sort((a, b) => b.bound - a.bound)
      .slice(0, most);
    if (tried.length === 0) break;
    base ??= candidateEvidence(tube, evidence, likelihoods, resolutions);
    const start = base.log;
    const next = tried.map(({ hypothesis, position, alternative }): SlipHypothesis => {
      const { index } = hypothesis.evidence.readings[position]!.line;
      const logPrior = hypothesis.logPrior + alternative.logOdds + logOddsOfFurtherSlip(made);
      const slips = new Map([...hypothesis.slips, [index, alternative] as const]);
      const trial = remembered(trials, nameOf(slips), (): Trial => {
        const moved = withReadingMoved(hypothesis.evidence, position, alternative.correction);
        const here = moved.allLikelihoods.filter(({ view }) => view === likelihoods[0]!.view);
        return { evidence: moved, found: candidateEvidence(tube, moved, here, resolutions) };
      });
      return { slips, logPrior, log: plain.log + trial.found.log - start + logPrior, ...trial };
    });
    const different = withoutDoubles(next).filter(
      (hypothesis) => hypothesis.log > plain.log + NEGLIGIBLE_SLIPS,
    );
    for (const hypothesis of different) log = logAdd(log, hypothesis.log);
    // A further slip is worth a look only where the one before made the readings likelier.
    front = different
      .filter((hypothesis) => hypothesis.log > likeliest)
      .sort((a, b) => b.log - a.log)
      .slice(0, followed);
    hypotheses = [...hypotheses, ...different];
  }
  return { log, hypotheses: hypotheses.sort((a, b) => b.log - a.log) };
}

/** The readings with some slips corrected, and what they say of a tube. */
interface Trial {
  readonly evidence: Evidence;
  readonly found: CandidateEvidence;
}

/** Trials through one view of the bench, kept where the same readings are ranked once more with a further view of the bench. */
const keptTrials = new WeakMap<ReadingLikelihoods, Map<TubeSpectrum, Map<string, Trial>>>();

/** What one look at a line costs there, in steps of a sum over alignments (measured). */
const COST_OF_GAIN = 4;

interface Further {
  readonly hypothesis: SlipHypothesis;
  readonly position: number;
  readonly alternative: ReadingAlternative;
  /** ln weight of the hypothesis with this slip, estimated from the best alignment alone. */
  readonly bound: number;
}

/** Slips that would take a reading to a line it can be matched with. */
function furtherSlips(hypothesis: SlipHypothesis): Further[] {
  const assumption = hypothesis.found.best;
  if (assumption === null) return [];
  const matched = matchedLines(hypothesis.evidence, assumption);
  return hypothesis.evidence.readings.flatMap((reading, position) => {
    if (hypothesis.slips.has(reading.line.index)) return [];
    hypothesis.evidence.allowance.spend(
      COST_OF_GAIN * reading.alternatives.length * assumption.seen.lines.length,
    );
    const now = matched[position] ? gainOf(assumption, hypothesis.evidence, position, 0) : 0;
    const loss = Math.max(0, now - gainOfSuccessor(assumption, hypothesis.evidence, matched, position));
    return reading.alternatives.map((alternative): Further => {
      const then = gainOf(assumption, hypothesis.evidence, position, alternative.correction);
      return {
        hypothesis,
        position,
        alternative,
        bound:
          hypothesis.log + alternative.logOdds + logOddsOfFurtherSlip(hypothesis.slips.size) + then - loss,
      };
    });
  });
}

/** What the best of the readings without a line gains, 0 at the least, where the reading at a position leaves its line to it. */
function gainOfSuccessor(
  assumption: Assumption,
  evidence: Evidence,
  matched: readonly (ModelLine | null)[],
  position: number,
): number {
  const line = matched[position];
  if (!line) return 0;
  const gains = matched.map((other, i) => (other ? 0 : gainOf(assumption, evidence, i, 0, line)));
  return Math.max(0, ...gains);
}

/**
 * ln of what a reading, moved by `correction`, gains at the line nearest in likelihood, or at the `only` one, over being a stray
 * where it is.
 */
function gainOf(
  { seen, detection, node, likelihoods }: Assumption,
  evidence: Evidence,
  position: number,
  correction: number,
  only: ModelLine | null = null,
): number {
  const reading = evidence.readings[position]!;
  const { stray } = likelihoods.densities.get(reading)!;
  const row = evidence.densities.row(reading);
  let best = Number.NEGATIVE_INFINITY;
  seen.lines.forEach((line, j) => {
    if (only !== null && line !== only) return;
    const off = reading.ordinate + correction - placeAt(line, node);
    const density = row.table(line.varianceClass).at(off);
    if (density === 0) return;
    best = Math.max(best, Math.log((detection.odds[j]! * density) / stray));
  });
  return best;
}

/** Two slips found in either order are one hypothesis. */
function withoutDoubles(hypotheses: readonly SlipHypothesis[]): SlipHypothesis[] {
  const byName = new Map<string, SlipHypothesis>();
  for (const hypothesis of hypotheses) {
    const name = nameOf(hypothesis.slips);
    if (!byName.has(name)) byName.set(name, hypothesis);
  }
  return [...byName.values()];
}

function nameOf(slips: SlipHypothesis['slips']): string {
  return [...slips]
    .map(
      ([index, { part, correction }]) => `${index}:${part.repeat}:${part.side}:${part.window}:${correction}`,
    )
    .sort()
    .join(' ');
}
