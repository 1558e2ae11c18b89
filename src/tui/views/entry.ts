/** The line being typed: its prompt, how it is understood, and what is odd about it. */
import { drawVernier } from '../../angle/draw-vernier.ts';
import { parseAngle } from '../../angle/parse-angle.ts';
import { fieldLabel } from '../circle-fields.ts';
import { decimalsAtHand, understandParts } from '../decimals.ts';
import { isCheckList } from '../edits.ts';
import { instrumentShape, readingParts } from '../instrument.ts';
import { rowAtCursor } from '../rows.ts';
import type { EntryPurpose, ScreenState } from '../state.ts';
import { isCentral, targetOf } from '../target.ts';
import { readTypedLine } from '../typed.ts';
import { untakenText } from '../untaken.ts';
import { type Area, fitting, type Line, line, paragraph } from './spans.ts';
import type { Look, Tone } from './theme.ts';

export function promptText(state: ScreenState): string {
  const { entry } = state;
  const { kind } = entry.purpose;
  const label = kind === 'row' ? rowText(state) : PURPOSES[kind];
  const shape = instrumentShape(state.history.record);
  const wanted = readingParts(shape, isCentral(state));
  const part = isReading(state) ? (wanted[entry.parts.length] ?? '') : '';
  const taken = entry.parts.length === 0 ? '' : ` ${entry.parts.join(' / ')} /`;
  return `${label}${part === '' ? '' : `, ${part}`}${taken}`;
}

const PURPOSES: Readonly<Record<Exclude<EntryPurpose['kind'], 'row'>, string>> = {
  edit: 'edit the reading',
  'edit-central': 'edit the reading',
  'tube-central': 'central image, read again',
  'not-seen': 'looked, nothing there, at',
  'quick-check': 'quick check',
  note: 'note',
  label: 'label of the tube',
  'save-as': 'keep the record in',
  report: 'write the report to',
};

function rowText(state: ScreenState): string {
  const row = rowAtCursor(state);
  const target = targetOf(state);
  if (row?.kind === 'field') return fieldLabel(row.field);
  if (state.history.place.stage === 'circle') return 'central image';
  if (state.history.place.stage === 'answer') return 'your answer';
  if (target?.line !== null && target !== null) {
    if (target.list.of === 'tube') return `repeat of line ${target.line + 1}`;
    const which = target.wavelengthNm?.toFixed(1) ?? 'this line';
    return isCheckList(target.list) ? `repeat of the check ${which}` : `repeat of ${which}`;
  }
  if (row?.kind === 'expected') return `${row.expected.wavelengthNm.toFixed(1)} ${row.expected.colour}`;
  return state.looking ? 'seen at' : state.history.place.stage === 'lamp' ? 'another line' : 'next line';
}

/** True where the text typed is meant as a reading. */
function isReading(state: ScreenState): boolean {
  const { purpose } = state.entry;
  if (['note', 'label', 'save-as', 'report'].includes(purpose.kind)) return false;
  if (purpose.kind !== 'row') return true;
  return rowAtCursor(state)?.kind !== 'field' && state.history.place.stage !== 'answer';
}

export function entryLine(state: ScreenState, look: Look): Line {
  const { text, caret } = state.entry;
  return [
    { text: ` ${promptText(state)} ${look.glyphs.prompt} `, tone: 'accent' },
    { text: text.slice(0, caret), tone: 'strong' },
    { text: look.glyphs.caret, tone: 'accent' },
    { text: text.slice(caret), tone: 'strong' },
  ];
}

/**
 * What the program says about the line typed, about what was typed before and not taken, and about the last thing
 * done; nothing when it has nothing to say.
 */
export function messageLines({ state, width, height, look }: Area): readonly Line[] {
  const { entry, notice } = state;
  const { bad, doubt, done } = look.glyphs;
  const said = (text: string, tone: Tone) => paragraph(text, width, tone, height);
  const untaken = untakenText(state);
  if (entry.refusal !== null) {
    const cure = entry.suggestion === null ? '' : ` Tab writes ${entry.suggestion}.`;
    return said(`${bad} ${entry.refusal}${cure}`, 'bad');
  }
  if (entry.query !== null) {
    const take =
      entry.purpose.kind === 'report'
        ? 'Enter writes over it, Esc leaves it as it is.'
        : entry.suggestion === null
          ? 'Enter takes it all the same.'
          : `Enter takes ${entry.decimals === null ? 'it as typed' : 'the first'}, Tab writes ${entry.suggestion}.`;
    const sentences = [...entry.query.map(asSentence), take, ...(untaken === null ? [] : [untaken])];
    return said(`${doubt} ${sentences.join(' ')}`, 'doubt');
  }
  if (untaken !== null) {
    const also = notice === null ? '' : ` ${notice.text}`;
    return said(`${doubt} ${untaken}${also}`, 'doubt');
  }
  if (notice !== null) {
    if (notice.tone === 'plain') return said(notice.text, 'normal');
    return said(`${notice.tone === 'doubt' ? doubt : done} ${notice.text}`, notice.tone);
  }
  return state.result?.problem == null ? [] : said(`${doubt} ${state.result.problem}`, 'doubt');
}

function asSentence(text: string): string {
  return /[.?!]$/.test(text) ? text : `${text}.`;
}

/** The part of the reading that is being typed; null while it is no angle. */
function typedAngle(state: ScreenState): { readonly degrees: number; readonly said: string } | null {
  if (!isReading(state)) return null;
  const { circle } = instrumentShape(state.history.record);
  const part = readTypedLine(state.entry.text, circle).parts.at(-1);
  if (circle === null || part === undefined) return null;
  const first = decimalsAtHand(state);
  const { texts, said, open } = understandParts([part], circle, first ?? 'degrees');
  const angle = parseAngle(texts[0]!, circle);
  if (!angle.ok) return null;
  const or = open.map(({ otherSaid }) => ` or ${otherSaid}?`);
  return { degrees: angle.degrees, said: said.length === 0 ? '' : said[0] + or.join('') };
}

/** A drawing cut at its edge without a mark: the scale simply goes on. */
function cutTo(text: string, columns: number): string {
  return text.slice(0, columns).padEnd(columns);
}

/** The vernier as it was understood, both looks side by side where there is room; null when nothing is typed. */
export function vernierLines({ state, width, look }: Omit<Area, 'height'>): readonly Line[] | null {
  const { circle } = instrumentShape(state.history.record);
  const typed = typedAngle(state);
  if (circle === null || typed === null) return null;
  const { degrees, said } = typed;
  const half = Math.floor((width - 2) / 2);
  const { lines, sentence } = drawVernier(degrees, circle, { width: Math.max(40, half), ascii: look.ascii });
  const second = lines.findIndex((text, at) => at > 0 && /^\s+[a-z ]+$/.test(text));
  const left = second < 0 ? lines : lines.slice(0, second);
  const right = second < 0 ? [] : lines.slice(second);
  const rows = Array.from({ length: Math.max(left.length, right.length) }, (_, at): Line => {
    const tone = at === 0 ? 'faint' : 'normal';
    return [
      { text: ` ${cutTo(left[at] ?? '', half)}`, tone },
      { text: cutTo(right[at] ?? '', half).trimEnd(), tone },
    ];
  });
  const texts = said === '' ? [`understood as ${sentence}`, sentence] : [said];
  return [line(` ${fitting(texts, width - 1)}`, 'strong'), ...rows];
}
