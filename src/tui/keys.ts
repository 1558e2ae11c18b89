/**
 * The key reader: what a terminal sends, turned into key events. Pure: a state and a chunk go in, a state and
 * events come out, so that every oddity of terminals has its place in a test.
 *
 * It handles what Ink 6.8's own reader does not: Enter inside a chunk of text, Backspace sent as DEL and in runs,
 * runs of arrow keys, pasted text with or without the bracketed-paste marks, and keys nobody has a name for
 * (Ctrl+F1), which are simply ignored here.
 */

/** Keys that have a name here, with what comes behind the escape of those that send a sequence. */
const SEQUENCES = {
  up: ['[A', 'OA'],
  down: ['[B', 'OB'],
  right: ['[C', 'OC'],
  left: ['[D', 'OD'],
  enter: ['OM'],
  escape: [],
  backspace: [],
  tab: [],
  'back-tab': ['[Z'],
  home: ['[H', 'OH', '[1~', '[7~'],
  end: ['[F', 'OF', '[4~', '[8~'],
  delete: ['[3~'],
  'page-up': ['[5~'],
  'page-down': ['[6~'],
  'ctrl-left': ['[1;5D', '[5D', 'Od'],
  'ctrl-right': ['[1;5C', '[5C', 'Oc'],
  F2: ['OQ', '[12~', '[[B'],
  F3: ['OR', '[13~', '[[C'],
  F4: ['OS', '[14~', '[[D'],
} as const;

export type NamedKey = keyof typeof SEQUENCES;

const KEY_OF = new Map<string, NamedKey>(
  Object.entries(SEQUENCES).flatMap(([name, all]) => all.map((each) => [each, name as NamedKey] as const)),
);

export type KeyEvent =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'named'; readonly name: NamedKey }
  /** Ctrl with a letter, lower case. */
  | { readonly kind: 'ctrl'; readonly letter: string }
  | Paste;

/** `isCut`: it was longer than what is kept of a paste. */
interface Paste {
  readonly kind: 'paste';
  readonly text: string;
  readonly isCut: boolean;
}

/** Text pasted so far while the terminal's closing mark has not come; null outside a paste. */
export interface KeyReaderState {
  readonly pasted: string | null;
}

export const KEY_READER_START: KeyReaderState = { pasted: null };

export interface KeysRead {
  readonly state: KeyReaderState;
  readonly events: readonly KeyEvent[];
}

const PASTE_BEGINS = '\u001b[200~';
const PASTE_ENDS = '\u001b[201~';
/** At the end of a chunk inside a paste: the key, pressed because the paste has no end. */
const CTRL_C = '\u0003';

/** So many filled lines in one chunk are not typed, even with the carriage returns that the Enter key sends. */
const NEVER_TYPED = 6;

/** Longest paste kept; a whole file pasted by mistake must not stall the bench. */
const LONGEST_PASTE = 65_536;

/** The numeric keypad in application mode sends these instead of characters. */
const KEYPAD: Readonly<Record<string, string>> = {
  ...Object.fromEntries(Array.from({ length: 10 }, (_, digit) => [`O${'pqrstuvwxy'[digit]}`, String(digit)])),
  On: '.',
  Ol: '+',
  Ok: '+',
  Om: '-',
  Oj: '*',
  Oo: '/',
};

const ESCAPE_SEQUENCE = /^\u001b(?:\[\[?[0-?]*[ -/]*[@-~]|O[@-~])/;

/**
 * Reads one chunk.
 * Two filled lines parted by a line feed, which no Enter key sends, are a paste from a terminal that does not mark
 * its pastes; a few lines with carriage returns are keys typed ahead.
 */
export function readKeys(state: KeyReaderState, chunk: string): KeysRead {
  const events: KeyEvent[] = [];
  let { pasted } = state;
  let rest = chunk;
  while (rest !== '') {
    if (pasted === null) {
      const begin = rest.indexOf(PASTE_BEGINS);
      const plain = begin < 0 ? rest : rest.slice(0, begin);
      if (plain !== '') events.push(...(looksPasted(plain) ? [pasteOf(plain)] : keysOf(plain)));
      if (begin < 0) break;
      pasted = '';
      rest = rest.slice(begin + PASTE_BEGINS.length);
      continue;
    }
    // The closing mark may have come apart.
    const from = Math.max(0, pasted.length - PASTE_ENDS.length);
    pasted += rest;
    const end = pasted.indexOf(PASTE_ENDS, from);
    if (end < 0) break;
    events.push(pasteOf(pasted.slice(0, end)));
    rest = pasted.slice(end + PASTE_ENDS.length);
    pasted = null;
  }
  if (pasted?.endsWith(CTRL_C)) {
    // The paste goes on: what follows must not be taken for keys because the text pasted holds this one.
    events.push(...endPaste({ pasted: pasted.slice(0, -CTRL_C.length) }).events, {
      kind: 'ctrl',
      letter: 'c',
    });
    pasted = '';
  }
  // One character more than is kept shows that there was more; what else exceeds it is passed over up to the mark.
  return { state: { pasted: pasted?.slice(0, LONGEST_PASTE + 1) ?? null }, events };
}

/** After a pause in which nothing came: a paste whose closing mark was lost is over, or the keyboard would be dead. */
export function endPaste({ pasted }: KeyReaderState): KeysRead {
  return { state: KEY_READER_START, events: pasted === null || pasted === '' ? [] : [pasteOf(pasted)] };
}

function looksPasted(chunk: string): boolean {
  if (chunk.includes('\u001b')) return false;
  const filled = chunk.split(/\r\n|\r|\n/).filter((line) => line.trim() !== '').length;
  return filled >= NEVER_TYPED || (filled >= 2 && /[^\r]\n/.test(chunk));
}

function pasteOf(text: string): Paste {
  return { kind: 'paste', text: text.slice(0, LONGEST_PASTE), isCut: text.length > LONGEST_PASTE };
}

function keysOf(chunk: string): readonly KeyEvent[] {
  // The tail of an arrow key whose escape came in an earlier chunk: not something a person types in one go.
  if (/^\[\[?[0-9;]*[A-Z~]$/.test(chunk)) return [];
  const events: KeyEvent[] = [];
  let text = '';
  const flush = (): void => {
    if (text !== '') events.push({ kind: 'text', text });
    text = '';
  };
  const name = (key: NamedKey): void => {
    flush();
    events.push({ kind: 'named', name: key });
  };
  let at = 0;
  while (at < chunk.length) {
    const character = String.fromCodePoint(chunk.codePointAt(at)!);
    if (character === '\u001b') {
      const sequence = ESCAPE_SEQUENCE.exec(chunk.slice(at))?.[0];
      if (sequence === undefined) {
        // Escape and a character typed quickly look the same as Alt with the character; the first is likelier here.
        name('escape');
        at += 1;
        continue;
      }
      const key = KEY_OF.get(sequence.slice(1));
      if (key !== undefined) name(key);
      else text += KEYPAD[sequence.slice(1)] ?? '';
      at += sequence.length;
      continue;
    }
    at += character.length;
    if (character === '\r') {
      if (chunk[at] === '\n') at += 1;
      name('enter');
    } else if (character === '\n') name('enter');
    else if (character === '\u007f' || character === '\b') name('backspace');
    else if (character === '\t') name('tab');
    else if (character < ' ') {
      flush();
      events.push({ kind: 'ctrl', letter: String.fromCharCode(character.charCodeAt(0) + 96) });
    } else if (character !== '\ufeff' && !(character >= '\u0080' && character < '\u00a0')) text += character;
  }
  flush();
  return events;
}
