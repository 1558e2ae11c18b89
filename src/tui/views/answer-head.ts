/** Above the possible tubes: the answer, the verdict, or the wavelengths while the ranking is kept back. */
import { wavelengthText } from '../../present/quantity-text.ts';
import { rankingIsHeldBack, tubeAnalysis } from '../ranking.ts';
import type { ScreenState } from '../state.ts';
import { type Line, line, type Span, widthOf, wrap } from './spans.ts';
import { shelfText, verdictLines } from './tubes.ts';

export function answerHead(state: ScreenState, width: number): readonly Line[] {
  const { record, place } = state.history;
  const tube = record.unknown[place.tube];
  const answer = tube?.answer ?? record.answer ?? '';
  const answered: Span[] = [
    { text: ' Your answer: ', tone: 'faint' },
    answer === '' ? { text: 'not written yet', tone: 'doubt' } : { text: answer, tone: 'strong' },
    {
      text:
        answer !== '' && tube?.answerBeforeRanking === true ? '  (written before the ranking was seen)' : '',
      tone: 'faint',
    },
  ];
  const analysis = tubeAnalysis(state);
  const room = width - widthOf(answered) - 2;
  const shelf = shelfText(state, room);
  if (shelf !== null) answered.push({ text: `  ${shelf}`, tone: 'faint' });
  if (rankingIsHeldBack(state))
    return [
      answered,
      line(' Possible tubes: kept back until your answer is written.'),
      ...wavelengthLines(state, width),
    ];
  return analysis === null ? [answered] : [answered, ...verdictLines(analysis, width, 3)];
}

/** While the ranking is kept back: the wavelengths to decide by. */
function wavelengthLines(state: ScreenState, width: number): readonly Line[] {
  const lines = tubeAnalysis(state)?.lines ?? [];
  const texts = lines.map(({ wavelengthNm, standardUncertaintyNm }) =>
    wavelengthText(wavelengthNm, standardUncertaintyNm),
  );
  return wrap(texts.map((text) => text.replaceAll(' ', '\u00a0')).join(',  '), width - 3).map((text) =>
    line(`  ${text.replaceAll('\u00a0', ' ')}`, 'strong'),
  );
}
