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
  const full = stageSpans(state, look, false);
  return widthOf(full) <= width ? full : stageSpans(state, look, true);
}

function stageSpans(state: ScreenState, look: Look, isShort: boolean): Line {
  return [
    { text: ' ' },
    ...STAGES.flatMap((stage, at): Span[] => {
      const isHere = stage === state.history.place.stage;
      const text = `${at + 1} ${stageText(stage, state, look, isShort)}`;
      return [
        { text: isHere ? `[${text}]` : ` ${text} `, tone: isHere ? 'accent' : 'faint' },
        { text: isShort ? '' : ' ' },
      ];
    }),
  ];
}

function stageText(stage: Stage, state: ScreenState, look: Look, isShort: boolean): string {
  const { record, place } = state.history;
  const tube = record.unknown[place.tube];
  switch (stage) {
    case 'circle': {
      const isReady = record.instrument.method !== 'central' || (record.central?.length ?? 0) > 0;
      return `Circle${isReady ? ` ${look.glyphs.done}` : ''}`;
    }
    case 'lamp': {
      const lamp = record.known[place.lamp];
      const name =
        lamp?.lamp === undefined ? '' : isShort ? ` ${cut(lamp.lamp, 12)}` : `: ${cut(lamp.lamp, 16)}`;
      const which = numbered(place.lamp, record.known.length);
      const checks = (lamp?.check?.length ?? 0) + (place.lamp === 0 ? (record.check?.length ?? 0) : 0);
      const checked = isShort || checks === 0 ? '' : `, ${checks} check`;
      return `${isShort && name !== '' ? 'Lamp' : 'Known lamp'}${name}${which}, ${count(lamp?.lines.length ?? 0)}${checked}`;
    }
    case 'tube':
      return `${cut(tube?.label ?? 'Unknown tube', 14)}${numbered(place.tube, record.unknown.length)}, ${count(tube?.lines.length ?? 0)}`;
    case 'answer': {
      const answer = tube?.answer ?? record.answer;
      if (answer === undefined) return 'Answer';
      return isShort ? `Answer ${look.glyphs.done}` : `Answer: ${cut(answer, 12)}`;
    }
  }
}

function numbered(at: number, count: number): string {
  return count > 1 ? ` (${at + 1} of ${count})` : '';
}

function cut(text: string, most: number): string {
  return toWidth(text, most).trimEnd();
}

function count(lines: number): string {
  return lines === 1 ? '1 line' : `${lines} lines`;
}
