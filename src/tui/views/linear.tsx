/** The screen for a screen reader: sentences from top to bottom, no columns and no pictures. */
import { candidateName } from '../../present/identify-text.ts';
import { probabilityText } from '../../present/quantity-text.ts';
import { isExercise } from '../../record/ranking.ts';
import { isUsedAsRead, linesInCurve } from '../../words/lines-in-curve.ts';
import { guidance } from '../guidance.ts';
import { namesTogether } from '../known-lamp.ts';
import { whyNoCurve } from '../no-curve.ts';
import { comparedSubstance, shownCandidates, tubeAnalysis } from '../ranking.ts';
import { rowsOf } from '../rows.ts';
import type { ScreenState } from '../state.ts';
import { doubtLines, saidBelow } from './doubts.ts';
import { messageLines, promptText, vernierLines } from './entry.ts';
import { keepingText, stageLine } from './heading.ts';
import { Sentences } from './lines.tsx';
import { cursorMessage, listLines, reasonAtCursor } from './list.ts';
import { offText } from './off-text.ts';
import { overlayLines } from './overlays.ts';
import { type Line, plainText } from './spans.ts';
import { type Look, lookOf } from './theme.ts';

const WIDTH = 200;
const MOST_LINES = 40;

export function LinearScreen({ state, ascii }: { readonly state: ScreenState; readonly ascii: boolean }) {
  return <Sentences sentences={linearSentences(state, ascii)} />;
}

/** Everything on the screen as sentences, in the order in which one wants to hear them. */
export function linearSentences(state: ScreenState, ascii: boolean): readonly string[] {
  const look = lookOf('plain', ascii);
  const squeeze = (text: string): string => text.replace(/\s+/g, ' ').trim();
  const area = { state, width: WIDTH, height: MOST_LINES, look };
  const spoken = (lines: readonly Line[]) => lines.map((spans) => squeeze(plainText(spans)));
  const said = spoken(messageLines({ ...area, height: 3 }));
  const place = [
    `whichgas. ${state.history.record.title ?? 'A new bench'}. ${isExercise(state.history.record) ? 'Exercise. ' : ''}${keepingText(state, look).text}.`,
    ...spoken([stageLine(area)]),
  ];
  if (state.overlay !== null)
    return [...place, ...spoken(overlayLines(state.overlay, area)), ...said].filter(Boolean);
  return [
    ...place,
    ...spoken(listLines({ ...area, height: rowsOf(state).length + 8 })),
    ...resultSentences(state, look),
    ...said,
    said.length > 0 ? '' : (cursorMessage(state) ?? ''),
    ...spoken(vernierLines(area)?.slice(0, 1) ?? []),
    reasonAtCursor(state) ?? guidance(state),
    `${promptText(state)}: ${state.entry.text}`,
  ].filter(Boolean);
}

/** The curve in words, and what is doubtful about the known lines. */
function curveSentences(state: ScreenState, look: Look): readonly string[] {
  const analysis = state.result?.analysis ?? null;
  if (analysis === null) return [];
  if (analysis.calibration.curve === null) return [whyNoCurve(analysis.calibration) ?? ''];
  const used = analysis.calibration.lines.filter(isUsedAsRead);
  const [largest] = [...used].sort((a, b) => Math.abs(b.residual ?? 0) - Math.abs(a.residual ?? 0));
  const off =
    largest?.residual == null
      ? ''
      : `; the largest residual is ${offText(largest.residual, analysis.bench)} at ${largest.wavelengthNm?.toFixed(1)} nm`;
  const area = { width: Number.POSITIVE_INFINITY, height: MOST_LINES, look };
  const doubts = doubtLines(analysis, area, saidBelow(state, look), namesTogether(state));
  return [
    `Curve through ${linesInCurve(analysis.calibration.lines)}${off}.`,
    ...doubts.map((spans) => plainText(spans).trim()),
  ];
}

function resultSentences(state: ScreenState, look: Look): readonly string[] {
  const tube = tubeAnalysis(state);
  if (!['tube', 'answer'].includes(state.history.place.stage)) return curveSentences(state, look);
  const candidates = shownCandidates(state);
  if (tube === null || candidates.length === 0) return [];
  const likely = candidates.filter(({ probability }) => probability >= 0.005).slice(0, 5);
  return [
    ...(state.history.place.stage === 'answer' ? [] : [tube.verdict.sentence]),
    `Possible tubes: ${likely.map((each) => `${candidateName(each)} ${probabilityText(each.probability)}`).join('; ')}.`,
    `Compared with ${comparedSubstance(state) ?? 'nothing'}.`,
    ...tube.reasons,
  ];
}
