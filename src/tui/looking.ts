/** "Where to look next": the place where a look would help most, opening it, and what was seen there. */
import type { NextLook } from '../analysis/types.ts';
import { commit, say } from './commit.ts';
import { addNotSeen } from './edits.ts';
import { tubeAnalysis } from './ranking.ts';
import { EMPTY_ENTRY, type ScreenState } from './state.ts';
import { analysisNow } from './target.ts';

/** For the tube at hand; null where none would help, and while nothing is computed. */
export function nextLookHere(state: ScreenState): NextLook | null {
  return tubeAnalysis(state)?.verdict.nextLook ?? null;
}

/** The place is written down as looked at already: the computation has not come to it yet. */
export function isLookedAt({ history: { record, place }, result }: ScreenState, look: NextLook): boolean {
  if (result?.form === record) return false;
  const notSeen = record.unknown[place.tube]?.notSeen ?? [];
  return notSeen.some(
    ({ reading, wavelengthNm }) => reading === look.reading || wavelengthNm === look.wavelengthNm,
  );
}

/** While looking: the place was looked at and nothing was there. */
export function nothingThere(state: ScreenState): ScreenState {
  const { record, place } = state.history;
  const look = nextLookHere(state);
  if (!state.looking || look === null || place.stage !== 'tube') {
    return { ...state, entry: { ...EMPTY_ENTRY, purpose: { kind: 'not-seen' } }, notice: null };
  }
  if (isLookedAt(state, look))
    return say(
      state,
      `"Nothing there" at ${look.reading} is written down; the next place comes in a moment.`,
    );
  const { method, windows = 1 } = record.instrument;
  const single = method === 'central' && windows === 1;
  const where = single ? { reading: look.reading } : { wavelengthNm: look.wavelengthNm };
  return commit(state, addNotSeen(record, place.tube, where), `nothing seen at ${look.reading}`, {
    ...place,
    row: Number.MAX_SAFE_INTEGER,
  });
}

/** Opens the prompt at the place to look at; without such a place one sentence says so. */
export function toggleLooking(state: ScreenState): ScreenState {
  if (state.looking) return { ...state, looking: false, notice: null };
  if (nextLookHere(state) !== null) return { ...state, looking: true, notice: null };
  const analysis = analysisNow(state);
  const tube = analysis?.tubes[state.history.place.tube];
  const isReady = analysis?.calibration.curve != null && tube !== undefined && tube.lines.length > 0;
  return say(
    state,
    isReady
      ? 'No single look would help further now.'
      : 'Where to look next can be said once the known lamp and some lines of the tube are read.',
  );
}

/** The prompt goes with the place that it asked one to look at. */
export function closedWhenNoLook(state: ScreenState): ScreenState {
  if (!state.looking || nextLookHere(state) !== null) return state;
  return say(
    { ...state, looking: false },
    'No single look would help further now: "where to look next" is closed.',
  );
}
