/** What lies over the stage for a moment: lists to choose from, the paste preview, help, questions. */
import { DECIMAL_READING_NAMES } from '../../angle/decimal-meaning.ts';
import { commandsHere } from '../command-list.ts';
import { otherReading } from '../decimals.ts';
import { cautions } from '../guidance.ts';
import { leftOutText, type PastedLine, readPaste } from '../paste.ts';
import { PICK_TITLES, pickItems } from '../picker.ts';
import { takesLetters } from '../rows.ts';
import type { Overlay, ScreenState, Stage } from '../state.ts';
import { untakenText } from '../untaken.ts';
import { type Line, line, toWidth, wholeBlocks, wrap } from './spans.ts';
import type { Look } from './theme.ts';

export function overlayLines(
  overlay: Overlay,
  state: ScreenState,
  width: number,
  height: number,
  look: Look,
): readonly Line[] {
  switch (overlay.kind) {
    case 'help':
      return helpLines(overlay.first, state, width, height, look);
    case 'pick':
      return pickLines(overlay, state, height, look);
    case 'paste':
      return pasteLines(overlay, state, width, height, look);
    case 'quit':
      return quitLines(state, width, look);
    case 'changed-outside':
      return changedLines(overlay.theirs !== null, state, width, look);
  }
}

function pickLines(
  pick: Extract<Overlay, { kind: 'pick' }>,
  state: ScreenState,
  height: number,
  look: Look,
): readonly Line[] {
  const items = pickItems(state, pick.purpose, pick.query);
  const room = Math.max(1, height - 3);
  const first = Math.max(0, Math.min(pick.cursor - Math.floor(room / 2), items.length - room));
  const rows = items.slice(first, first + room).map((item, at): Line => {
    const isAtCursor = first + at === pick.cursor;
    return [
      { text: ` ${isAtCursor ? look.glyphs.cursor : ' '} `, tone: 'accent' },
      { text: toWidth(item.label, 24), tone: isAtCursor ? 'strong' : 'normal' },
      { text: item.detail, tone: 'faint' },
    ];
  });
  return [
    line(` ${PICK_TITLES[pick.purpose]}`, 'accent'),
    [
      { text: ` type to search ${look.glyphs.prompt} `, tone: 'faint' },
      { text: `${pick.query}${look.glyphs.caret}`, tone: 'strong' },
    ],
    ...(rows.length > 0 ? rows : [line('   nothing fits', 'doubt')]),
    line(
      `   ${items.length > room ? `${items.length} in the list; ` : ''}Enter takes it, Esc leaves`,
      'faint',
    ),
  ];
}

function pasteLines(
  overlay: Extract<Overlay, { kind: 'paste' }>,
  state: ScreenState,
  width: number,
  height: number,
  look: Look,
): readonly Line[] {
  const lines = readPaste(state, overlay);
  const good = lines.filter(({ ok }) => ok).length;
  const rest = leftOutText(overlay);
  const open = lines.filter((pasted) => pasted.ok && pasted.isOpen).length;
  const other = DECIMAL_READING_NAMES[otherReading(overlay.decimals)];
  const foot = [
    ...(open === 0
      ? []
      : wrap(
          `${look.glyphs.doubt} ${open} may be ${other}: Tab takes ${open === 1 ? 'it' : 'them'} so.`,
          width - 2,
        )),
    ...(rest === null ? [] : wrap(`${look.glyphs.doubt} ${rest}`, width - 2)),
    ...wrap(`Enter takes the ${good}, Esc takes none. What cannot be read is left out.`, width - 2),
  ];
  const shown = wholeBlocks(
    lines.map((pasted) => pastedLines(pasted, width, look)),
    Math.max(1, height - 1 - foot.length),
    (left) => line(`   and ${left} more`, 'faint'),
  );
  return [
    line(` Pasted: ${lines.length} lines, ${good} can be taken`, 'accent'),
    ...shown,
    ...foot.map((text) => line(` ${text}`, 'faint')),
  ];
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

const ENTER = { key: 'Enter', does: 'take what is typed; next line' };
const ENTER_ANSWER = { key: 'Enter', does: 'the list of names for your answer' };

const FIXED_KEYS = [
  { key: 'Tab', does: 'next stage (Shift+Tab: the one before)' },
  { key: 'Ctrl+U', does: 'clear the line typed' },
  { key: 'Ctrl+P', does: 'bring back what was typed and not taken' },
  { key: 'Esc', does: 'leave what is open, clear what is typed' },
  { key: 'arrows', does: 'up, down: lines; left, right: lamps, tubes, choices' },
];

/** In place of the letters u, y and q. */
const WHERE_LETTERS_ARE_TYPED = [
  { key: 'Ctrl+Z', does: 'undo' },
  { key: 'Ctrl+Y', does: 'do again what was undone' },
  { key: 'Ctrl+C', does: 'leave (everything is saved already)' },
];

/** The signs in the list of a stage, and what is peculiar to it. */
function signs(stage: Stage, { glyphs }: Look): string {
  switch (stage) {
    case 'circle':
      return 'On the rows of title, station and observers letters are typed; Ctrl+Z undoes there too.';
    case 'lamp':
      return `${glyphs.done} within 2 u of the curve (u: standard uncertainty); ? further off, or all lines scatter more than is usual: read again; ${glyphs.doubt} see the sentence at the line. Check lines are kept out of the fit and compared with it.`;
    case 'answer':
      return 'Letters spell the name of your answer here; the other letter keys act on stages 1 to 3. 8/9 ± 0.6 u: eight of nine readings fit, off by 0.6 u (root mean square; u: standard uncertainty); missing: would probably have been seen; mended: fits with a slip undone; (+2): two more tubes look the same here.';
    case 'tube':
      return 'beyond: outside the known lines, less certain. At the right a line of the tube compared with, and how far the reading is from it, nm (+: towards the red); in the strip the same as deviation (+: too large; ?: no line of that tube). mended: fits with a slip undone; (+2): two more tubes look the same here.';
  }
}

const KEY_WIDTH = 7;

/** Keys, signs and cautions of the stage, scrolled where there is no room for all. */
function helpLines(
  first: number,
  state: ScreenState,
  width: number,
  height: number,
  look: Look,
): readonly Line[] {
  const { stage } = state.history.place;
  const keys = commandsHere(state).map(({ key, does }) => ({ key: key === ' ' ? 'Space' : key, does }));
  const rows = [
    stage === 'answer' ? ENTER_ANSWER : ENTER,
    ...FIXED_KEYS,
    ...(takesLetters(state) ? WHERE_LETTERS_ARE_TYPED : []),
    ...keys,
  ].flatMap(({ key, does }) =>
    wrap(does, width - KEY_WIDTH - 2).map(
      (text, at): Line => [{ text: ` ${toWidth(at === 0 ? key : '', KEY_WIDTH)}`, tone: 'strong' }, { text }],
    ),
  );
  const safety = cautions(state).flatMap((text) =>
    wrap(`! ${text}`, width - 2).map((each) => line(` ${each}`, 'doubt')),
  );
  const legend = wrap(signs(stage, look), width - 2).flatMap((text) =>
    text === '' ? [] : [line(` ${text}`)],
  );
  const lines = [...legend, ...rows, ...safety];
  const room = height - 1;
  const from = Math.max(0, Math.min(first, lines.length - room));
  const scroll = lines.length > room ? '; up, down: the rest' : '';
  return [
    line(` Keys while nothing is typed (? closes${scroll})`, 'accent'),
    ...lines.slice(from, from + room),
  ];
}

function quitLines(state: ScreenState, width: number, look: Look): readonly Line[] {
  const { keeping, entry } = state;
  const text = [...entry.parts, entry.text].filter(Boolean).join(' / ');
  const typed = text === '' ? '' : `What you are typing ("${text}") is not taken yet. `;
  const untaken = untakenText(state) ?? '';
  const isInMemory = keeping.kind === 'memory-only';
  const memory = isInMemory ? `The record is in memory only (${keeping.why}) ` : '';
  const elsewhere = isInMemory ? ' and w then keeps the record in another place' : '';
  return [
    line(' Leave now?', 'accent'),
    ...wrap(`${look.glyphs.doubt} ${memory}${typed}${untaken}`, width - 2).map((text) =>
      line(` ${text}`, 'doubt'),
    ),
    ...wrap(`y or Ctrl+C leaves and loses it; Esc stays${elsewhere}.`, width - 2).map((text) =>
      line(` ${text}`),
    ),
  ];
}

function changedLines(isReadable: boolean, state: ScreenState, width: number, look: Look): readonly Line[] {
  const what = isReadable
    ? 'Another program has changed'
    : 'Another program has changed, so that it is no bench record any more,';
  return [
    ...wrap(`${look.glyphs.doubt} ${what} ${state.fileName} on disk.`, width - 2).map((text) =>
      line(` ${text}`, 'doubt'),
    ),
    line(' m  keep mine; the other version is kept beside it under another name'),
    ...(isReadable ? [line(' t  take theirs; mine is one undo away')] : []),
    line(' Esc  decide later; until then nothing is written to the file', 'faint'),
  ];
}
