/** The place where a look would help most. */
import type { NextLook } from '../analysis/types.ts';
import { tubeAnalysis } from './ranking.ts';
import type { ScreenState } from './state.ts';

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
