/** The two lines at the top: what is open and how safe it is; the four stages. */
import { isExercise } from '../../record/ranking.ts';
import { needsCentral } from '../instrument.ts';
import { basename } from '../plain-path.ts';
import { type ScreenState, STAGES, type Stage } from '../state.ts';
import { type Area, type Line, type Span, toWidth, widthOf } from './spans.ts';
import type { Look } from './theme.ts';

export function titleLine({ state, width, look }: Area): Line {
  const { record } = state.history;
  const title = record.title ?? 'a new bench';
  const { text, tone } = keepingText(state, look);
  const left = ` whichgas  ${isExercise(record) ? 'exercise: ' : ''}${title}`;
  const right = `${basename(state.fileName)}: ${text} `;
  const room = width - right.length - 1;
  return [
    { text: toWidth(left, Math.max(10, room)), tone: 'strong' },
    { text: ` ${right}`, tone },
  ];
}

export function keepingText({ keeping }: ScreenState, look: Look) {
  switch (keeping.kind) {
    case 'nothing-yet':
      return { text: 'nothing to save yet', tone: 'faint' } as const;
    case 'demonstration':
      return { text: 'nothing is written', tone: 'faint' } as const;
    case 'saved':
      return { text: `saved ${look.glyphs.done}`, tone: 'good' } as const;
    case 'memory-only':
      return { text: `${look.glyphs.doubt} NOT SAVED, in memory only`, tone: 'bad' } as const;
  }
}

/** The stages with what each holds; the one where one is stands in brackets. */
export function stageLine({ state, width, look }: Omit<Area, 'height'>): Line {
  const lines = (['full', 'short', 'bare'] as const).map((wording) => stageSpans(state, look, wording));
  return lines.find((spans) => widthOf(spans) <= width) ?? lines[2]!;
}

/** How much each stage says: `Known lamp: mercury, 8 lines`, `Lamp mercury, 8 lines`, `mercury, 8`. */
type Wording = 'full' | 'short' | 'bare';

function stageSpans(state: ScreenState, look: Look, wording: Wording): Line {
  return [
    { text: ' ' },
    ...STAGES.flatMap((stage, at): Span[] => {
      const isHere = stage === state.history.place.stage;
      const text = `${at + 1} ${stageText(stage, state, look, wording)}`;
      return [
        { text: isHere ? `[${text}]` : ` ${text} `, tone: isHere ? 'accent' : 'faint' },
        { text: wording === 'full' ? ' ' : '' },
      ];
    }),
  ];
}

function stageText(stage: Stage, state: ScreenState, look: Look, wording: Wording): string {
  const { record, place } = state.history;
  const tube = record.unknown[place.tube];
  const isFull = wording === 'full';
  switch (stage) {
    case 'circle': {
      // A scale or a drum is no circle.
      const name = record.instrument.method === 'scale' ? 'Scale' : 'Circle';
      return `${name}${needsCentral(record) ? '' : ` ${look.glyphs.done}`}`;
    }
    case 'lamp': {
      const lamp = record.known[place.lamp];
      const which = numbered(place.lamp, record.known.length, wording);
      const lines = count(lamp?.lines.length ?? 0, wording);
      const checks = (lamp?.check?.length ?? 0) + (place.lamp === 0 ? (record.check?.length ?? 0) : 0);
      const checked = !isFull || checks === 0 ? '' : `, ${checks} check`;
      return `${lampName(lamp?.lamp, wording)}${which}, ${lines}${checked}`;
    }
    case 'tube': {
      const name = cut(tube?.label ?? (isFull ? 'Unknown tube' : 'Tube'), wording === 'bare' ? 8 : 14);
      return `${name}${numbered(place.tube, record.unknown.length, wording)}, ${count(tube?.lines.length ?? 0, wording)}`;
    }
    case 'answer': {
      const answer = tube?.answer ?? record.answer;
      if (answer === undefined) return 'Answer';
      return isFull ? `Answer: ${cut(answer, 12)}` : `Answer ${look.glyphs.done}`;
    }
  }
}

function lampName(name: string | undefined, wording: Wording): string {
  if (name === undefined) return wording === 'bare' ? 'Lamp' : 'Known lamp';
  if (wording === 'full') return `Known lamp: ${cut(name, 16)}`;
  return wording === 'short' ? `Lamp ${cut(name, 12)}` : cut(name, 10);
}

function numbered(at: number, of: number, wording: Wording): string {
  if (of === 1) return '';
  return wording === 'bare' ? ` ${at + 1}/${of}` : ` (${at + 1} of ${of})`;
}

function cut(text: string, most: number): string {
  return toWidth(text, most).trimEnd();
}

function count(lines: number, wording: Wording): string {
  if (wording === 'bare') return String(lines);
  return lines === 1 ? '1 line' : `${lines} lines`;
}
