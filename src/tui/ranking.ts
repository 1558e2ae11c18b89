/** Whether the possible tubes may be shown, and which one the pictures show. */
import type { Candidate, TubeAnalysis } from '../analysis/types.ts';
import { benchRanking } from '../record/ranking.ts';
import type { BenchForm } from './form.ts';
import type { ScreenState } from './state.ts';

/** True while an exercise keeps the ranking back: no answer has been written for this tube. */
export function rankingIsHeldBack(state: ScreenState, tube = state.history.place.tube): boolean {
  const { record } = state.history;
  const unknown = record.unknown[tube];
  const ranking = unknown?.ranking ?? benchRanking(record);
  return ranking === 'after-answer' && answerOf(record, tube) === '';
}

/** The answer written for a tube, or for all; empty without one. */
export function answerOf(record: BenchForm, tube: number): string {
  return (record.unknown[tube]?.answer ?? record.answer ?? '').trim();
}

/** The tubes that stand on the shelf of a tube, as they were written; empty for all. */
export function shelfOf(record: BenchForm, tube: number): readonly string[] {
  return record.unknown[tube]?.shelf ?? record.shelf ?? [];
}

/** The analysis of the tube at hand; null while there is none. */
export function tubeAnalysis(state: ScreenState): TubeAnalysis | null {
  return state.result?.analysis?.tubes[state.history.place.tube] ?? null;
}

/** The candidates to show, best first; empty while they are held back. */
export function shownCandidates(state: ScreenState): readonly Candidate[] {
  return rankingIsHeldBack(state) ? [] : (tubeAnalysis(state)?.candidates ?? []);
}

/** The tube whose lines the strip and the residuals show; null when there is none to show. */
export function comparedSubstance(state: ScreenState): string | null {
  if (state.compareWith !== null) return state.compareWith;
  const { place } = state.history;
  const atCursor = place.stage === 'answer' ? shownCandidates(state)[place.row]?.substance : undefined;
  if (atCursor !== undefined && atCursor !== 'unlisted') return atCursor;
  const best = shownCandidates(state).find(({ substance }) => substance !== 'unlisted');
  return (tubeAnalysis(state)?.lines.length ?? 0) === 0 ? null : (best?.substance ?? null);
}
