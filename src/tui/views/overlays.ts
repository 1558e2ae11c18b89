/** What lies over the stage for a moment: lists to choose from, the paste preview, help, questions. */
import { DECIMAL_READING_NAMES } from '../../angle/decimal-meaning.ts';
import { actionsHere, OPENS_LIST } from '../action-list.ts';
import { otherReading } from '../decimals.ts';
import { cautions } from '../guidance.ts';
import { leftOutText, type PastedLine, readPaste } from '../paste.ts';
import { pickItems } from '../picker.ts';
import { choicesOf, type Question } from '../questions.ts';
import { type OverlayOf as Of, type Overlay, PICK_TITLES, type Stage } from '../state.ts';
import { SHORT_COLOURS } from '../typed.ts';
import { untakenText } from '../untaken.ts';
import {
  type Area,
  type Line,
  line,
  paragraph,
  toWidth,
  wholeBlocks,
  widthOf,
  windowStart,
  wrap,
} from './spans.ts';
import type { Look } from './theme.ts';

export function overlayLines(overlay: Overlay, area: Area): readonly Line[] {
  switch (overlay.kind) {
    case 'help':
      return helpLines(overlay.first, area);
    case 'pick':
      return pickLines(overlay, area);
    case 'paste':
      return pasteLines(overlay, area);
    case 'quit':
      return [...quitLines(area), ...choiceLines(overlay, area)];
    case 'changed-outside':
      return [...changedLines(overlay, area), ...choiceLines(overlay, area)];
  }
}

/** The columns of the cursor and the name, before the rest. */
const DETAIL_AT = 27;

function pickLines(pick: Of<'pick'>, { state, width, height, look }: Area): readonly Line[] {
  const items = pickItems(state, pick.purpose, pick.query);
  const { detail = '' } = items[pick.cursor] ?? {};
  const isCut = DETAIL_AT + widthOf(line(detail)) > width;
  const foot = isCut
    ? wrap(detail.trim().replace(/ {2,}/, ': '), width - 4)
    : [`${items.length > height - 3 ? `${items.length} in the list; ` : ''}Enter takes it, Esc leaves`];
  const room = Math.max(1, height - 2 - foot.length);
  const first = windowStart(pick.cursor, room, items.length);
  const rows = items.slice(first, first + room).map((item, at): Line => {
    const isAtCursor = first + at === pick.cursor;
    return [
      { text: ` ${isAtCursor ? look.glyphs.cursor : ' '} `, tone: 'accent' },
      { text: toWidth(item.label, 24), tone: isAtCursor ? 'strong' : 'normal' },
      { text: beginning(item.detail, width - DETAIL_AT), tone: 'faint' },
    ];
  });
  return [
    line(` ${PICK_TITLES[pick.purpose]}`, 'accent'),
    [
      { text: ` type to search ${look.glyphs.prompt} `, tone: 'faint' },
      { text: `${pick.query}${look.glyphs.caret}`, tone: 'strong' },
    ],
    ...(rows.length > 0 ? rows : [line('   nothing fits', 'doubt')]),
    ...foot.map((text) => line(`   ${text}`, 'faint')),
  ];
}

/** As much of a line of help as has room and still says something: up to a stop in it. The whole stands below the list. */
function beginning(text: string, columns: number): string {
  const stops = [...text.matchAll(/[,;:]| \(/g)].map(({ index }) => text.slice(0, index));
  return [text, ...stops.reverse()].find((part) => widthOf(line(part)) <= columns) ?? '';
}

function pasteLines(overlay: Of<'paste'>, { state, width, height, look }: Area): readonly Line[] {
  const lines = readPaste(state, overlay);
  const good = lines.filter(({ ok }) => ok).length;
  const rest = leftOutText(overlay);
  const open = lines.filter((pasted) => pasted.ok && pasted.isOpen).length;
  const other = DECIMAL_READING_NAMES[otherReading(overlay.decimals)];
  const so = open === 1 ? 'it' : 'them';
  const foot = [
    open > 0 && `${look.glyphs.doubt} ${open} may be ${other}: Tab takes ${so} so.`,
    rest !== null && `${look.glyphs.doubt} ${rest}`,
    `Enter takes the ${good}, Esc takes none. What cannot be read is left out.`,
  ].flatMap((text) => paragraph(text || '', width, 'faint'));
  const shown = wholeBlocks(
    lines.map((pasted) => pastedLines(pasted, width, look)),
    Math.max(1, height - 1 - foot.length),
    (left) => line(`   and ${left} more`, 'faint'),
  );
  return [line(` Pasted: ${lines.length} lines, ${good} can be taken`, 'accent'), ...shown, ...foot];
}

/** A line of the paste, and below it, whole, why it cannot be taken or what is odd about it. */
function pastedLines(pasted: PastedLine, width: number, { glyphs }: Look): readonly Line[] {
  const said = pasted.ok ? pasted.odd.join(' ') : pasted.problem;
  const isDoubtful = said !== '' || (pasted.ok && pasted.isOpen);
  const tone = !pasted.ok ? 'bad' : isDoubtful ? 'doubt' : 'normal';
  const mark = !pasted.ok ? glyphs.bad : isDoubtful ? glyphs.doubt : glyphs.done;
  const text = pasted.ok && pasted.understood !== '' ? `${pasted.understood}: ${pasted.text}` : pasted.text;
  return [
    line(` ${toWidth(mark, 3)}${toWidth(text, width - 5).trimEnd()}`, tone),
    ...wrap(said, width - 6).map((text) => line(`     ${text}`, tone)),
  ];
}

/** Keys that are no actions of the list. */
const FIXED_KEYS = [
  { key: 'Tab', does: 'next stage (Shift+Tab or Ctrl+Left: the one before)' },
  { key: 'Esc', does: 'leave what is open, clear what is typed' },
  { key: 'Ctrl+U', does: 'empty the line typed' },
  { key: 'arrows', does: 'up, down: lines; left, right: lamps, tubes, choices' },
];

const SHORT_COLOUR_LIST = Object.entries(SHORT_COLOURS)
  .map(([short, colour]) => `${short} ${colour}`)
  .join(', ');

/** The signs in the list of a stage, and what is peculiar to it. */
function signs(stage: Stage, { glyphs }: Look): string {
  switch (stage) {
    case 'circle':
      return '';
    case 'lamp':
      return `${glyphs.done} on the curve, within twice its uncertainty; ? farther off, or all lines scatter more than is usual: read again; ${glyphs.doubt} see the sentence at the line. A check line is kept out of the curve and compared with it. Behind a reading short words will do: ${SHORT_COLOUR_LIST}; s strong, m medium, w weak.`;
    case 'answer':
      return 'Letters spell the name of your answer. "8 of 9 fit" counts your readings that lie on lines of the tube. Behind it stands what speaks against the tube: "not seen: 462 nm", lines of it that you would probably have seen; "not 588 nm", a reading on no line of it; "if 1 is misread": it fits only if that reading is misread; "or 2 more": two more tubes look the same here.';
    case 'tube':
      return `beyond: outside the known lines, less certain. At the right a line of the tube compared with, and how far the reading is from it, nm (+: towards the red); in the strip the same as deviation (+: too large; ?: no line of that tube). "misread?": it fits only if this reading is misread. Behind a reading short words will do: ${SHORT_COLOUR_LIST}; s strong, m medium, w weak.`;
  }
}

const KEY_WIDTH = 8;
const NAME_WIDTH = 26;

/** Signs, keys, the list of actions and cautions of the stage, scrolled where there is no room for all. */
function helpLines(first: number, { state, width, height, look }: Area): readonly Line[] {
  const { stage } = state.history.place;
  const described = (name: string, does: string, nameWidth: number): readonly Line[] =>
    wrap(does, width - nameWidth - 2).map(
      (text, at): Line => [
        { text: ` ${toWidth(at === 0 ? name : '', nameWidth)}`, tone: 'strong' },
        { text },
      ],
    );
  const here = actionsHere(state);
  const keys = [
    {
      key: 'Enter',
      does: stage === 'answer' ? 'the list of names for your answer' : 'take what is typed; next line',
    },
    ...FIXED_KEYS,
    ...here.flatMap(({ key, label, help }) =>
      key === undefined ? [] : [{ key, does: `${label}: ${help}` }],
    ),
    { key: OPENS_LIST, does: 'the list of all that can be done; type a word of it:' },
  ].flatMap(({ key, does }) => described(key, does, KEY_WIDTH));
  const others = here.flatMap(({ key, label, help }) =>
    key === undefined ? described(`  ${label}`, help, NAME_WIDTH) : [],
  );
  const safety = cautions(state).flatMap((text) => paragraph(`! ${text}`, width, 'doubt'));
  const lines = [...paragraph(signs(stage, look), width), ...keys, ...others, ...safety];
  const room = height - 1;
  const from = Math.max(0, Math.min(first, lines.length - room));
  const scroll = lines.length > room ? '; up, down: the rest' : '';
  return [line(` Help (? closes${scroll})`, 'accent'), ...lines.slice(from, from + room)];
}

function quitLines({ state, width, look }: Area): readonly Line[] {
  const { keeping, entry } = state;
  const text = [...entry.parts, entry.text].filter(Boolean).join(' / ');
  const typed = text === '' ? '' : `What you are typing ("${text}") is not taken yet. `;
  const untaken = untakenText(state) ?? '';
  const memory = keeping.kind === 'memory-only' ? `The record is in memory only (${keeping.why}) ` : '';
  return [
    line(' Leave now? (Ctrl+C again leaves, Esc stays)', 'accent'),
    ...paragraph(`${look.glyphs.doubt} ${memory}${typed}${untaken}`, width, 'doubt'),
  ];
}

function changedLines({ theirs }: Of<'changed-outside'>, { state, width, look }: Area): readonly Line[] {
  const what =
    theirs === null
      ? 'Another program has changed, so that it is no bench record any more,'
      : 'Another program has changed';
  return paragraph(`${look.glyphs.doubt} ${what} ${state.fileName} on disk.`, width, 'doubt');
}

/** The answers, one at the cursor. */
function choiceLines(question: Question, { state, width, look }: Area): readonly Line[] {
  const choices = choicesOf(question, state).flatMap(({ label }, at) =>
    wrap(label, width - 4).map((text, row): Line => {
      const isAtCursor = at === question.cursor;
      return [
        { text: ` ${isAtCursor && row === 0 ? look.glyphs.cursor : ' '} `, tone: 'accent' },
        { text, tone: isAtCursor ? 'strong' : 'normal' },
      ];
    }),
  );
  return [...choices, line(' Up and down choose, Enter does it', 'faint')];
}
