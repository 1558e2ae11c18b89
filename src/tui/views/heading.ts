/** The two lines at the top: what is open and how safe it is; the four stages. */
import { basename } from '../plain-path.ts';
import type { ScreenState, Stage } from '../state.ts';
import { STAGES } from '../state.ts';
import { type Line, type Span, toWidth, widthOf } from './spans.ts';
import type { Look, Tone } from './theme.ts';

export function titleLine(state: ScreenState, width: number, look: Look): Line {
  const { record } = state.history;
  const title = record.title ?? 'a new bench';
  const { text, tone } = keepingText(state, look);
  const left = ` whichgas  ${title}`;
  const right = `${basename(state.fileName)}: ${text} `;
  const room = width - right.length - 1;
  return [
    { text: toWidth(left, Math.max(10, room)), tone: 'strong' },
    { text: ` ${right}`, tone },
  ];
}

export function keepingText(
  { keeping }: ScreenState,
  look: Look,
): { readonly text: string; readonly tone: Tone } {
  switch (keeping.kind) {
    case 'nothing-yet':
      return { text: 'nothing to save yet', tone: 'faint' };
    case 'demonstration':
      return { text: 'nothing is written', tone: 'faint' };
    case 'saved':
      return { text: `saved ${look.glyphs.done}`, tone: 'good' };
    case 'memory-only':
      return { text: `${look.glyphs.doubt} NOT SAVED, in memory only`, tone: 'bad' };
  }
}

/** The stages with what each holds; the one where one is stands in brackets. */
export function stageLine(state: ScreenState, width: number, look: Look): Line {
  const spans = STAGES.flatMap((stage, at): Span[] => {
    const isHere = stage === state.history.place.stage;
    const text = `${at + 1} ${stageText(stage, state, look)}`;
    return [{ text: isHere ? `[${text}]` : ` ${text} `, tone: isHere ? 'accent' : 'faint' }, { text: ' ' }];
  });
  const used = widthOf(spans);
  return used > width
    ? spans.map((span) => ({ ...span, text: span.text.replace(/\s+/g, ' ') }))
    : [{ text: ' ' }, ...spans];
}

function stageText(stage: Stage, state: ScreenState, look: Look): string {
  const { record, place } = state.history;
  switch (stage) {
    case 'circle': {
      const isReady = record.instrument.method !== 'central' || (record.central?.length ?? 0) > 0;
      return `Circle${isReady ? ` ${look.glyphs.done}` : ''}`;
    }
    case 'lamp': {
      const lamp = record.known[place.lamp];
      const others = record.known.length > 1 ? ` (${place.lamp + 1} of ${record.known.length})` : '';
      return `Known lamp${lamp?.lamp === undefined ? '' : `: ${toWidth(lamp.lamp, Math.min(lamp.lamp.length, 16))}`}${others}, ${count(lamp?.lines.length ?? 0)}`;
    }
    case 'tube': {
      const tube = record.unknown[place.tube];
      const others = record.unknown.length > 1 ? ` (${place.tube + 1} of ${record.unknown.length})` : '';
      const label = tube?.label ?? 'Unknown tube';
      return `${toWidth(label, Math.min(label.length, 14))}${others}, ${count(tube?.lines.length ?? 0)}`;
    }
    case 'answer': {
      const answer = record.unknown[place.tube]?.answer ?? record.answer;
      return answer === undefined ? 'Answer' : `Answer: ${toWidth(answer, Math.min(answer.length, 12))}`;
    }
  }
}

function count(lines: number): string {
  return lines === 1 ? '1 line' : `${lines} lines`;
}
