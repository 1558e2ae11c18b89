/** The quick check, both ways: a reading into a wavelength, a wavelength or a gas into readings. Nothing is written down. */
import type { NearLine } from '../analysis/convert.ts';
import { wantedLines } from '../analysis/predict.ts';
import { readingFrame } from '../analysis/reading-frame.ts';
import { cribOnBench } from '../analysis/station-lines.ts';
import type { Analysis } from '../analysis/types.ts';
import { quoteText } from '../angle/quote-text.ts';
import { colourAt } from '../lines/colour.ts';
import { substancesIn } from '../lines/mixed-lamps.ts';
import { findTube } from '../lines/names.ts';
import { spectraOnShelf, tubes } from '../lines/table.ts';
import { wavelengthText } from '../present/quantity-text.ts';
import type { UnknownTube } from '../record/bench.ts';
import { statedNm } from '../record/limits.ts';
import { writingText } from '../words/rounded-readings.ts';
import { wayTo } from './action-list.ts';
import { otherReading, understandParts } from './decimals.ts';
import { expectedReading } from './expected-reading.ts';
import { type InstrumentShape, instrumentShape } from './instrument.ts';
import { judge } from './judge.ts';
import { whyNoCurveInShort } from './no-curve.ts';
import { rankingIsHeldBack, shelfOf, shownCandidates } from './ranking.ts';
import { EMPTY_ENTRY, type ScreenState } from './state.ts';
import { analysisNow } from './target.ts';
import { readingOf, readingText, readTypedLine } from './typed.ts';

const NAMED_LINES = 3;
/** Lines of a gas that are named with their readings. */
const NAMED_PLACES = 5;
/** Tubes less likely than this weigh alike. */
const LEAST_CHANCE = 0.01;

type Checked =
  | { readonly ok: true; readonly text: string; readonly isSeen: boolean }
  | { readonly ok: false; readonly problem: string };

export function quickCheck(state: ScreenState): ScreenState {
  const shape = instrumentShape(state.history.record);
  const wayBack = checkWayBack(state, state.entry.text.trim(), shape);
  if (wayBack !== null) return answered(state, wayBack);
  const { parts } = readTypedLine(state.entry.text, shape.circle);
  const first = state.history.decimals ?? 'degrees';
  const understood = understandParts(parts, shape.circle, first);
  const checked = checkReading(state, understood.texts, understood.said.join(' / '), shape);
  if (!checked.ok || understood.open.length === 0) return answered(state, checked);
  // Nothing is written down, so both meanings are answered instead of asked about.
  const other = understandParts(parts, shape.circle, otherReading(first));
  const also = checkReading(state, other.texts, other.said.join(' / '), shape);
  const text = `${checked.text}${also.ok ? ` Or ${also.text}` : ''}`;
  return answered(state, { ok: true, text, isSeen: false });
}

/** The prompt stays open for the next one. */
function answered(state: ScreenState, checked: Checked): ScreenState {
  if (!checked.ok) return { ...state, entry: { ...state.entry, refusal: checked.problem } };
  const entry = { ...EMPTY_ENTRY, purpose: { kind: 'quick-check' } } as const;
  return { ...state, entry, notice: { tone: checked.isSeen ? 'plain' : 'doubt', text: checked.text } };
}

/** `587.56 nm`, `helium`: where such a line stands on this bench. Null where a reading was typed. */
function checkWayBack(state: ScreenState, text: string, shape: InstrumentShape): Checked | null {
  const wavelengthNm = typedWavelength(text, shape);
  const isName = /\p{L}/u.test(text) && !/\d/.test(text);
  if (wavelengthNm === null && !isName) return null;
  const analysis = analysisNow(state);
  if (analysis === null || analysis.calibration.curve === null) return noCurve(state);
  const of = tubeInHand(state, analysis);
  if (wavelengthNm !== null) {
    const reading = expectedReading(state, wavelengthNm, of);
    return reading === null
      ? { ok: false, problem: `The curve does not reach ${wavelengthNm} nm on this bench.` }
      : {
          ok: true,
          isSeen: true,
          text: `${reading}: there ${wavelengthNm} nm stands, ${colourAt(wavelengthNm)}.`,
        };
  }
  const found = findTube(text);
  if (!('substance' in found)) {
    const near = found.suggestions.length === 0 ? '' : `; did you mean ${found.suggestions.join(' or ')}?`;
    return { ok: false, problem: `${quoteText(text)} is no gas of the line table${near}` };
  }
  const lines = wantedLines(found.substance).filter((line) => line.prominence !== undefined);
  const brightest = [...lines].sort((a, b) => b.prominence! - a.prominence!).slice(0, NAMED_PLACES);
  const places = cribOnBench(
    readingFrame(analysis.bench, analysis.calibration, of),
    lines.filter((line) => brightest.includes(line)),
  ).flatMap(({ reading, wavelengthNm: nm, colour }) =>
    reading === null ? [] : [`${reading} ${nm.toFixed(1)} ${colour}`],
  );
  return places.length === 0
    ? { ok: false, problem: `The curve reaches no line of ${found.substance} on this bench.` }
    : { ok: true, isSeen: true, text: `${found.substance}, its brightest: ${places.join(', ')}.` };
}

/** The tube that is being read or answered; null at the stages before it. */
function tubeInHand({ history: { place } }: ScreenState, { bench }: Analysis): UnknownTube | null {
  return place.stage === 'tube' || place.stage === 'answer' ? (bench.tubes[place.tube] ?? null) : null;
}

function noCurve(state: ScreenState): Checked {
  const why = whyNoCurveInShort(analysisNow(state)?.calibration);
  const problem = why ?? 'No curve yet: read two or three lines of the known lamp first.';
  return { ok: false, problem };
}

/** A number with `nm`, or one that no circle has. */
function typedWavelength(text: string, { circle }: InstrumentShape): number | null {
  const [, number, unit] = /^(\d{3,4}(?:[.,]\d+)?)\s*(nm)?$/i.exec(text) ?? [];
  const value = Number(number?.replace(',', '.'));
  return unit !== undefined || (circle !== null && value > 360 && value <= statedNm.longest) ? value : null;
}

/** The sentence that answers it, which begins with what was understood. */
function checkReading(
  state: ScreenState,
  parts: readonly string[],
  understood: string,
  shape: InstrumentShape,
): Checked {
  const reading = readingOf(parts, shape, false);
  const { result } = state;
  if (reading === null) return { ok: false, problem: 'That is not a whole reading of this instrument.' };
  const judged = judge(reading, { kind: 'place' }, shape, result);
  if (!judged.ok) return judged;
  if (result?.analysis?.calibration.curve == null) return noCurve(state);
  const text = understood === '' ? readingText(reading) : understood;
  const { bench, calibration } = result.analysis;
  const shelf = shelfOf(state.history.record, state.history.place.tube);
  const { wavelengthNm, standardUncertaintyNm, colour, near, extrapolated, writing } =
    result.computation.convertReading(
      bench,
      calibration,
      { text, setting: judged.setting },
      shelf.length === 0 ? tubes : spectraOnShelf(shelf),
      bench,
      tubeInHand(state, result.analysis),
    );
  if (wavelengthNm === null)
    return { ok: true, isSeen: false, text: `${text}: no visible light falls there on this bench.` };
  const written = writing === null ? '' : `, ${writingText(bench, writing)}`;
  const beyond = extrapolated ? ', beyond the known lines' : '';
  const listed = rankingIsHeldBack(state)
    ? 'no gas is named before your answer is written'
    : linesText(state, shelf.length > 0, near);
  const wavelength = wavelengthText(wavelengthNm, standardUncertaintyNm);
  return {
    ok: true,
    isSeen: true,
    text: `${text}: ${wavelength} nm, ${colour}${beyond}${written}; ${listed}.`,
  };
}

/**
 * The likeliest of the lines near: bright, where the reading is, and of a tube that the ranking finds likely. `isNarrowed`: only
 * tubes that it can be were asked.
 */
function linesText(state: ScreenState, isNarrowed: boolean, near: readonly NearLine[]): string {
  const chances = new Map<string, number>();
  for (const { substance, probability } of shownCandidates(state))
    for (const part of substancesIn(substance))
      chances.set(part, Math.max(probability, chances.get(part) ?? LEAST_CHANCE));
  const worth = ({ substance, weight }: NearLine): number =>
    weight + Math.log(chances.get(substance) ?? LEAST_CHANCE);
  const names = [...near]
    .sort((a, b) => worth(b) - worth(a))
    .slice(0, NAMED_LINES)
    .map((line) => `${line.substance} ${line.wavelengthNm.toFixed(1)}`);
  const narrower = !isNarrowed && near.length > NAMED_LINES ? ` (${wayTo('shelf')} narrows it)` : '';
  if (names.length > 0) return `could be ${names.join(', ')}${narrower}`;
  return isNarrowed
    ? 'no line of the tubes it can be within twice the uncertainty'
    : 'no listed line within twice the uncertainty';
}
