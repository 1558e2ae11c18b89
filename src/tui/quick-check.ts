/** The quick check: one reading turned into a wavelength, nothing is written down. */
import { tubes } from '../lines/table.ts';
import { wavelengthText } from '../present/quantity-text.ts';
import { otherReading, understandParts } from './decimals.ts';
import { type InstrumentShape, instrumentShape } from './instrument.ts';
import { judge } from './judge.ts';
import { rankingIsHeldBack } from './ranking.ts';
import { EMPTY_ENTRY, type ScreenState } from './state.ts';
import { readingOf, readingText, readTypedLine } from './typed.ts';

const NAMED_LINES = 3;

type Checked =
  | { readonly ok: true; readonly text: string; readonly isSeen: boolean }
  | { readonly ok: false; readonly problem: string };

export function quickCheck(state: ScreenState): ScreenState {
  const shape = instrumentShape(state.history.record);
  const { parts } = readTypedLine(state.entry.text);
  const first = state.history.decimals ?? 'degrees';
  const understood = understandParts(parts, shape.circle, first);
  const checked = checkReading(state, understood.texts, understood.said.join(' / '), shape);
  if (!checked.ok) return { ...state, entry: { ...state.entry, refusal: checked.problem } };
  const kept: ScreenState = { ...state, entry: { ...EMPTY_ENTRY, purpose: { kind: 'quick-check' } } };
  if (understood.open.length === 0)
    return { ...kept, notice: { tone: checked.isSeen ? 'plain' : 'doubt', text: checked.text } };
  // Nothing is written down, so both meanings are answered instead of asked about.
  const other = understandParts(parts, shape.circle, otherReading(first));
  const also = checkReading(state, other.texts, other.said.join(' / '), shape);
  return { ...kept, notice: { tone: 'doubt', text: `${checked.text}${also.ok ? ` Or ${also.text}` : ''}` } };
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
  if (result?.analysis?.calibration.curve == null)
    return { ok: false, problem: 'No curve yet: read two or three lines of the known lamp first.' };
  const text = understood === '' ? readingText(reading) : understood;
  const { wavelengthNm, standardUncertaintyNm, colour, near, extrapolated } =
    result.computation.convertReading(
      result.analysis.bench,
      result.analysis.calibration,
      { text, setting: judged.setting },
      tubes,
      result.analysis.bench,
      state.history.place.stage === 'tube'
        ? (result.analysis.bench.tubes[state.history.place.tube] ?? null)
        : null,
    );
  if (wavelengthNm === null)
    return { ok: true, isSeen: false, text: `${text}: no visible light falls there on this bench.` };
  const names = near.slice(0, NAMED_LINES).map((line) => `${line.substance} ${line.wavelengthNm.toFixed(1)}`);
  const others = near.length > NAMED_LINES ? ` and ${near.length - NAMED_LINES} more` : '';
  const beyond = extrapolated ? ', beyond the known lines' : '';
  const listed = rankingIsHeldBack(state)
    ? 'no gas is named before your answer is written'
    : names.length === 0
      ? 'no listed line so near'
      : `could be ${names.join(', ')}${others}`;
  const wavelength = wavelengthText(wavelengthNm, standardUncertaintyNm);
  return { ok: true, isSeen: true, text: `${text}: ${wavelength} nm, ${colour}${beyond}; ${listed}.` };
}
