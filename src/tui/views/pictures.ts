/** Which pictures go with a stage, and the lines of one of them. */
import { wayTo } from '../action-list.ts';
import { checksOnCurve } from '../check-line.ts';
import { comparedSubstance, rankingIsHeldBack, shownCandidates, tubeAnalysis } from '../ranking.ts';
import type { Picture, ScreenState } from '../state.ts';
import { curveLines, residualLines } from './curve.ts';
import { doubtLines, saidBelow } from './doubts.ts';
import { type Line, line, wrap } from './spans.ts';
import { stripKey, stripLines } from './strip.ts';
import type { Look } from './theme.ts';
import { candidateLine, candidateResiduals, reasonLines, shelfText, verdictLines } from './tubes.ts';

const WAITING = line(' The computation has nothing to show yet.', 'faint');

export function pictureLines(
  picture: Picture,
  state: ScreenState,
  width: number,
  height: number,
  look: Look,
): readonly Line[] {
  const analysis = state.result?.analysis ?? null;
  if (analysis === null) return [WAITING];
  switch (picture) {
    case 'curve':
      return curveLines({ analysis, width, height, look });
    case 'residuals':
      return residualsHere(state, width, height, look);
    case 'tubes':
      return tubesLines(state, width, height, look);
    case 'table':
      return [];
  }
}

export function stripWithKey(state: ScreenState, width: number, look: Look): readonly Line[] {
  const analysis = state.result?.analysis ?? null;
  if (analysis === null) return [WAITING];
  const { place, record } = state.history;
  const isLamp = place.stage === 'circle' || place.stage === 'lamp';
  const substance = isLamp ? null : comparedSubstance(state);
  const subject = isLamp
    ? ({ kind: 'lamp', lamp: place.lamp } as const)
    : ({ kind: 'tube', tube: place.tube, substance } as const);
  const strip = stripLines({ analysis, subject, width, look });
  const shown = tubeAnalysis(state)?.candidates.find((each) => each.substance === substance);
  const key = stripKey({
    name: isLamp ? (record.known[place.lamp]?.lamp ?? null) : substance,
    unit: analysis.calibration.unit,
    hasMissing: !isLamp && (shown?.missing.length ?? 0) > 0,
    hasNothing: !isLamp && (record.unknown[place.tube]?.notSeen?.length ?? 0) > 0,
    width,
    look,
  });
  return [...strip, key];
}

/** At the lamp its residuals; at the tube those of the tube compared with. */
function residualsHere(state: ScreenState, width: number, height: number, look: Look): readonly Line[] {
  const analysis = state.result!.analysis!;
  const tube = tubeAnalysis(state);
  const substance = comparedSubstance(state);
  const { stage } = state.history.place;
  if (
    (stage === 'tube' || stage === 'answer') &&
    tube !== null &&
    substance !== null &&
    !rankingIsHeldBack(state)
  ) {
    return candidateResiduals(analysis, tube, substance, height, look);
  }
  const doubts = doubtLines(analysis, width, Math.floor(height / 2), look, saidBelow(state, look));
  const checks = checksOnCurve(state);
  return [...residualLines({ analysis, checks, width, height: height - doubts.length, look }), ...doubts];
}

/** Beside the list of possible tubes: what speaks for and against the first ones, and what is doubtful. */
export function whyLines(state: ScreenState, width: number, height: number, look: Look): readonly Line[] {
  const tube = rankingIsHeldBack(state) ? null : tubeAnalysis(state);
  const reasons = tube === null ? [] : reasonLines(tube, width, height - 1, look);
  return reasons.length === 0
    ? pictureLines('curve', state, width, height, look)
    : [line(' What the readings say:', 'strong'), ...reasons];
}

function tubesLines(state: ScreenState, width: number, height: number, look: Look): readonly Line[] {
  const tube = tubeAnalysis(state);
  if (rankingIsHeldBack(state))
    return wrap(
      `The possible tubes are kept back until your answer is written (${wayTo('answer')}).`,
      width - 2,
    ).map((text) => line(` ${text}`, 'faint'));
  if (tube === null || tube.candidates.length === 0)
    return [line(' Possible tubes: they need readings and a curve.', 'faint')];
  const shelf = shelfText(state, width - 2);
  const verdict = [...verdictLines(tube, width, 4), ...(shelf === null ? [] : [line(` ${shelf}`, 'faint')])];
  const reasons = reasonLines(tube, width, Math.max(0, Math.floor((height - verdict.length) / 2)), look);
  const room = Math.max(1, height - verdict.length - reasons.length);
  const compared = comparedSubstance(state);
  const rows = shownCandidates(state)
    .slice(0, room)
    .map((candidate) => candidateLine(candidate, width, candidate.substance === compared, look));
  return [...verdict, ...rows, ...reasons];
}
