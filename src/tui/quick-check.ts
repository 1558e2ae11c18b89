/** The quick check: one reading turned into a wavelength, nothing is written down. */
import { tubes } from '../lines/table.ts';
import { wavelengthText } from '../present/quantity-text.ts';
import { instrumentShape } from './instrument.ts';
import { judge } from './judge.ts';
import { rankingIsHeldBack } from './ranking.ts';
import { EMPTY_ENTRY, type ScreenState } from './state.ts';
import { readingOf, readingText, readTypedLine } from './typed.ts';

const NAMED_LINES = 3;

export function quickCheck(state: ScreenState): ScreenState {
  const shape = instrumentShape(state.history.record);
  const reading = readingOf(readTypedLine(state.entry.text).parts, shape, false);
  const { result } = state;
  if (reading === null) return refused(state, 'That is not a whole reading of this instrument.');
  const judged = judge(reading, { kind: 'place' }, shape, result);
  if (!judged.ok) return refused(state, judged.problem);
  if (result?.analysis?.calibration.curve == null)
    return refused(state, 'No curve yet: read two or three lines of the known lamp first.');
  const text = readingText(reading);
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
  const kept: ScreenState = { ...state, entry: { ...EMPTY_ENTRY, purpose: { kind: 'quick-check' } } };
  if (wavelengthNm === null) {
    return {
      ...kept,
      notice: { tone: 'doubt', text: `${text}: no visible light falls there on this bench.` },
    };
  }
  const names = near.slice(0, NAMED_LINES).map((line) => `${line.substance} ${line.wavelengthNm.toFixed(1)}`);
  const others = near.length > NAMED_LINES ? ` and ${near.length - NAMED_LINES} more` : '';
  const beyond = extrapolated ? ', beyond the known lines' : '';
  const listed = rankingIsHeldBack(state)
    ? 'no gas is named before your answer is written'
    : names.length === 0
      ? 'no listed line so near'
      : `could be ${names.join(', ')}${others}`;
  return {
    ...kept,
    notice: {
      tone: 'plain',
      text: `${text}: ${wavelengthText(wavelengthNm, standardUncertaintyNm)} nm, ${colour}${beyond}; ${listed}.`,
    },
  };
}

function refused(state: ScreenState, refusal: string): ScreenState {
  return { ...state, entry: { ...state.entry, refusal } };
}
