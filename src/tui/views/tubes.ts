/** The possible tubes: probabilities as bars, why the runner-up loses, and the residuals of one of them. */
import type { Analysis, Candidate, TubeAnalysis } from '../../analysis/types.ts';
import { candidateName } from '../../present/identify-text.ts';
import { probabilityText, signedText } from '../../present/quantity-text.ts';
import { ROUNDED_READINGS } from '../../words/rounded-readings.ts';
import { leadingSentences } from '../no-curve.ts';
import { shelfOf } from '../ranking.ts';
import type { ScreenState } from '../state.ts';
import { offNumber } from './off-text.ts';
import { fitting, type Line, line, paragraph, toWidth, wholeBlocks, widthOf } from './spans.ts';
import { offLine } from './strip-marks.ts';
import type { Look } from './theme.ts';

const SHARE_WIDTH = 8;
/** The cursor's column, two spaces, and the longest usual words about the fit. */
const FIT_WIDTH = 44;
const MARK_WIDTH = 3;

/** One row of the list: name, bar, probability, and how the readings fit. */
export function candidateLine(candidate: Candidate, width: number, isAtCursor: boolean, look: Look): Line {
  const nameWidth = width >= 70 ? 23 : 19;
  const barWidth = Math.max(4, Math.min(24, width - nameWidth - SHARE_WIDTH - FIT_WIDTH));
  const room = width - MARK_WIDTH - nameWidth - barWidth - SHARE_WIDTH - 2;
  const fits = fitTexts(candidate);
  const bar = look.glyphs.bar.repeat(Math.round(candidate.probability * barWidth));
  const tone = isAtCursor ? 'strong' : candidate.probability < 0.01 ? 'faint' : 'normal';
  return [
    { text: ` ${isAtCursor ? look.glyphs.cursor : ' '} `, tone: 'accent' },
    { text: `${toWidth(fittingName(candidate, nameWidth - 1), nameWidth - 1)} `, tone },
    { text: toWidth(bar, barWidth), tone: 'accent' },
    { text: toWidth(probabilityText(candidate.probability), SHARE_WIDTH, true), tone },
    { text: `  ${toWidth(fitting(fits, room), room).trimEnd()}`, tone: 'faint' },
  ];
}

/** `hydrogen or 2 more` where there is no room for the names of the two that look the same here. */
function fittingName(candidate: Candidate, width: number): string {
  const name = candidateName(candidate);
  const { indistinguishable, substance } = candidate;
  if (widthOf(line(name)) <= width || indistinguishable.length === 0) return name;
  const short = `${substance} or ${indistinguishable.length} more`;
  return candidateName({ ...candidate, substance: short, indistinguishable: [] });
}

/**
 * `8 of 8 fit, not seen: 462, 467 nm`: how many readings fit, and what speaks against the tube; the whole sentence
 * stands below the list when the cursor is on the row.
 */
function fitTexts({ substance, matches, unexplained, missing, reasonInShort }: Candidate): readonly string[] {
  if (substance === 'unlisted') return [''];
  const all = matches.length + unexplained.length;
  const fit = `${matches.length} of ${all} ${all === 1 ? 'fits' : 'fit'}`;
  const misread = matches.filter(({ asRead }) => !asRead).length;
  const seldom = misread > 0 ? `, ${misread} if misread` : '';
  const unseen = missing.length > 0 ? `, ${missing.length} not seen` : '';
  return [reasonInShort ?? [], fit + unseen + seldom, fit + unseen, fit].flat();
}

/** As many whole sentences of the verdict as `most` rows hold, the first in any case. */
export function verdictLines(tube: TubeAnalysis, width: number, most: number): readonly Line[] {
  const rows = (text: string) => paragraph(text, width, 'strong');
  return rows(leadingSentences(tube.verdict.sentence, (shorter) => rows(shorter).length <= most));
}

/** Which tubes it can be, where they are said to be fewer than all; null where they are not, or without room. */
export function shelfText({ history: { record, place } }: ScreenState, width: number): string | null {
  const shelf = shelfOf(record, place.tube);
  if (shelf.length === 0) return null;
  const texts = [
    `it can be: ${shelf.join(', ')}`,
    `it can be: ${shelf.length} ${shelf.length === 1 ? 'tube' : 'tubes'}`,
  ];
  return texts.find((text) => widthOf(line(text)) <= width) ?? null;
}

export function reasonLines(tube: TubeAnalysis, width: number, most: number, look: Look): readonly Line[] {
  const reasons = tube.reasons.map((reason) => paragraph(reason, width));
  // What concerns all readings comes before what concerns one.
  const ofAll = tube.doubts.filter(({ index }) => index === null);
  const isOfWriting = ({ code }: { code: string }): boolean => code === ROUNDED_READINGS;
  const sentences = [
    ...tube.warnings.filter(isOfWriting).map(({ message }) => message),
    ...ofAll.map(({ message }) => message),
    ...tube.lines.flatMap(({ message }) => (message === null ? [] : [message])),
    ...tube.doubts.map(({ message }) => message),
    ...tube.warnings.map(({ message }) => message),
  ];
  const doubts = [...new Set(sentences)].map((sentence) =>
    paragraph(`${look.glyphs.doubt} ${sentence}`, width, 'doubt'),
  );
  return wholeBlocks([...doubts, ...reasons], most, (left) =>
    line(` (${left} more ${left === 1 ? 'sentence' : 'sentences'} in a larger window)`, 'faint'),
  );
}

/** The readings against one tube's lines, as numbers and as a small picture: one row a reading. */
export function candidateResiduals(
  analysis: Analysis,
  tube: TubeAnalysis,
  substance: string,
  most: number,
  look: Look,
): readonly Line[] {
  const candidate = tube.candidates.find((each) => each.substance === substance);
  if (candidate === undefined) return [line(` ${substance} is not among the possible tubes here.`, 'faint')];
  const { curve, unit } = analysis.calibration;
  const rows = tube.lines.map((each): Line => {
    const { index, wavelengthNm } = each;
    const match = candidate.matches.find((found) => found.index === index);
    const number = ` ${toWidth(String(index + 1), 2, true)}  ${toWidth(wavelengthNm?.toFixed(1) ?? '-', 6, true)}`;
    if (match === undefined) return [{ text: `${number}  fits no line of ${substance}`, tone: 'doubt' }];
    if (!match.asRead)
      return [
        { text: `${number}  ${match.wavelengthNm.toFixed(1)}` },
        { text: '  (misread?)', tone: 'doubt' },
      ];
    const offUnits = curve === null ? null : offLine(each, match, curve);
    const numbers = `  ${match.wavelengthNm.toFixed(1)}  ${toWidth(signedText(match.residualNm, 1), 6, true)}  ${toWidth(offNumber(offUnits, analysis.bench), 6, true)}`;
    return [
      { text: number + numbers },
      { text: `  ${gauge(match.residualSigma, look)}`, tone: 'accent' },
      { text: ` ${signedText(match.residualSigma, 1)}`, tone: 'faint' },
    ];
  });
  const missing = candidate.missing.map(({ wavelengthNm, chanceSeen }) =>
    line(
      `  ${look.glyphs.missing}           ${wavelengthNm.toFixed(1)}  not seen yet (likely seen: ${probabilityText(chanceSeen)})`,
      'doubt',
    ),
  );
  return [
    line(` readings against ${substance}; at the right in uncertainties:`, 'strong'),
    line(`  #   read    line  off nm  ${unit === 'arcmin' ? "   off'" : '  units'}  -3    0    +3`, 'faint'),
    ...[...rows, ...missing].slice(0, Math.max(0, most - 2)),
  ];
}

const GAUGE_WIDTH = 13;

/** A point on a scale from -3 to +3 standard uncertainties. */
function gauge(sigmas: number, look: Look): string {
  const middle = (GAUGE_WIDTH - 1) / 2;
  const cells = Array<string>(GAUGE_WIDTH).fill(look.ascii ? '.' : '·');
  cells[middle] = look.glyphs.upright;
  const clamped = Math.max(-3, Math.min(3, sigmas));
  cells[Math.round(middle + (clamped / 3) * middle)] =
    Math.abs(sigmas) > 3 ? look.glyphs.doubt : look.glyphs.point;
  return cells.join('');
}
