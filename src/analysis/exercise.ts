/** An exercise stays one: until an answer is written, nothing is shown that would give the gas away. */
import type { UnknownTube } from '../record/bench.ts';
import { READ_TWICE } from '../words/tube-findings.ts';
import type { Analysis, TubeAnalysis } from './types.ts';

/** Does the exercise keep the ranking of this tube back? */
export function isHeldBack({ ranking, answer }: Pick<UnknownTube, 'ranking' | 'answer'>): boolean {
  return ranking === 'after-answer' && answer === null;
}

/** Does it for any tube of the bench? Then no gas is named beside a reading either. */
export function anyHeldBack({ bench }: Pick<Analysis, 'bench'>): boolean {
  return bench.tubes.some(isHeldBack);
}

/**
 * The analysis without the ranking of tubes whose exercise keeps it back: wavelengths and what is wrong with the
 * readings stay, candidates, reasons and the next look go. The instructor's commands do without this.
 */
export function withRankingHeldBack(analysis: Analysis): Analysis {
  if (!anyHeldBack(analysis)) return analysis;
  const tubes = analysis.tubes.map((tube) => {
    const written = analysis.bench.tubes[tube.tubeIndex];
    return written !== undefined && isHeldBack(written) ? heldBack(tube) : tube;
  });
  // The warnings of the whole hold those of its tubes.
  const kept = new Set(tubes.flatMap(({ warnings }) => warnings));
  const gone = new Set(analysis.tubes.flatMap(({ warnings }) => warnings).filter((each) => !kept.has(each)));
  return { ...analysis, tubes, warnings: analysis.warnings.filter((each) => !gone.has(each)) };
}

function heldBack(tube: TubeAnalysis): TubeAnalysis {
  return {
    ...tube,
    candidates: [],
    verdict: {
      kind: 'held-back',
      substance: null,
      sentence: `The possible tubes of ${tube.label} are kept back until an answer is written: compare the wavelengths with the line table, and write what you conclude as "answer" in the record.`,
      nextLook: null,
    },
    reasons: [],
    // What is light of the room is told by the lines of the likeliest tube.
    doubts: tube.doubts.filter(({ kind }) => kind !== 'room-light'),
    // So is which of two readings is left over.
    warnings: tube.warnings.filter(({ code }) => code !== READ_TWICE),
    readTwice: [],
  };
}
