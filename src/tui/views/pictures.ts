/** Which pictures go with a stage, and the lines of one of them. */
import type { Analysis } from '../../analysis/types.ts';
import { wayTo } from '../action-list.ts';
import { comparedSubstance, rankingIsHeldBack, shownCandidates, tubeAnalysis } from '../ranking.ts';
import type { Picture } from '../state.ts';
import { analysisNow } from '../target.ts';
import { curveLines, residualLines } from './curve.ts';
import { doubtLines, saidBelow } from './doubts.ts';
import { type Area, type Line, line, paragraph } from './spans.ts';
import { stripKey, stripLines } from './strip.ts';
import { candidateLine, candidateResiduals, reasonLines, shelfText, verdictLines } from './tubes.ts';

const WAITING = line(' The computation has nothing to show yet.', 'faint');

export function pictureLines(picture: Picture, area: Area): readonly Line[] {
  const analysis = analysisNow(area.state);
  if (analysis === null) return [WAITING];
  switch (picture) {
    case 'curve':
      return curveLines(analysis, area);
    case 'residuals':
      return residualsHere(analysis, area);
    case 'tubes':
      return tubesLines(area);
    case 'table':
      return [];
  }
}

export function stripWithKey({ state, width, look }: Area): readonly Line[] {
  const analysis = analysisNow(state);
  if (analysis === null) return [WAITING];
  const { place, record } = state.history;
  const isLamp = place.stage === 'circle' || place.stage === 'lamp';
  const substance = isLamp ? null : comparedSubstance(state);
  const subject = isLamp
    ? ({ kind: 'lamp', lamp: place.lamp } as const)
    : ({ kind: 'tube', tube: place.tube, substance } as const);
  const strip = stripLines({ analysis, subject, width, look });
  const shown = tubeAnalysis(state)?.candidates.find((each) => each.substance === substance);
  const name = isLamp ? (record.known[place.lamp]?.lamp ?? null) : substance;
  const hasMissing = !isLamp && (shown?.missing.length ?? 0) > 0;
  const hasNothing = !isLamp && (record.unknown[place.tube]?.notSeen?.length ?? 0) > 0;
  const { unit } = analysis.calibration;
  return [...strip, stripKey({ name, unit, hasMissing, hasNothing, width, look })];
}

/** At the lamp its residuals; at the tube those of the tube compared with. */
function residualsHere(analysis: Analysis, area: Area): readonly Line[] {
  const { state, height, look } = area;
  const tube = tubeAnalysis(state);
  const substance = comparedSubstance(state);
  const { stage } = state.history.place;
  const isOfTube = (stage === 'tube' || stage === 'answer') && !rankingIsHeldBack(state);
  if (isOfTube && tube !== null && substance !== null)
    return candidateResiduals(analysis, tube, substance, height, look);
  const doubts = doubtLines(analysis, { ...area, height: Math.floor(height / 2) }, saidBelow(state, look));
  return [...residualLines(analysis, { ...area, height: height - doubts.length }), ...doubts];
}

/** Beside the list of possible tubes: what speaks for and against the first ones, and what is doubtful. */
export function whyLines(area: Area): readonly Line[] {
  const { state, width, height, look } = area;
  const tube = rankingIsHeldBack(state) ? null : tubeAnalysis(state);
  const reasons = tube === null ? [] : reasonLines(tube, width, height - 1, look);
  return reasons.length === 0
    ? pictureLines('curve', area)
    : [line(' What the readings say:', 'strong'), ...reasons];
}

function tubesLines({ state, width, height, look }: Area): readonly Line[] {
  const tube = tubeAnalysis(state);
  if (rankingIsHeldBack(state))
    return paragraph(
      `The possible tubes are kept back until your answer is written (${wayTo('answer')}).`,
      width,
      'faint',
    );
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
