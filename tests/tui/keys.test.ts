import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  endPaste,
  KEY_READER_START,
  type KeyEvent,
  type KeyReaderState,
  readKeys,
} from '../../src/tui/keys.ts';

const read = (chunk: string): readonly KeyEvent[] => readKeys(KEY_READER_START, chunk).events;

function readAll(chunks: readonly string[]): readonly KeyEvent[] {
  let state: KeyReaderState = KEY_READER_START;
  return chunks.flatMap((chunk) => {
    const result = readKeys(state, chunk);
    state = result.state;
    return result.events;
  });
}

const text = (value: string): KeyEvent => ({ kind: 'text', text: value });
const key = (name: Extract<KeyEvent, { kind: 'named' }>['name']): KeyEvent => ({ kind: 'named', name });

const paste = (value: string, isCut = false): KeyEvent => ({ kind: 'paste', text: value, isCut });
const ctrlC: KeyEvent = { kind: 'ctrl', letter: 'c' };

describe('the key reader', () => {
  it('finds Enter inside a chunk', () => {
    expect(read('229 39\r')).toEqual([text('229 39'), key('enter')]);
    expect(read('229 39\r231 26\r')).toEqual([text('229 39'), key('enter'), text('231 26'), key('enter')]);
  });

  it('reads CR and CRLF as one Enter each', () => {
    expect(read('1\r\n2')).toEqual([text('1'), key('enter'), text('2')]);
    expect(read('\r\r')).toEqual([key('enter'), key('enter')]);
    expect(read('\n')).toEqual([key('enter')]);
  });

  it('reads DEL and BS as Backspace, in runs and inside text', () => {
    expect(read('\x7f\x7f\x7f')).toEqual([key('backspace'), key('backspace'), key('backspace')]);
    expect(read('12\x7f3\b')).toEqual([text('12'), key('backspace'), text('3'), key('backspace')]);
  });

  it('reads runs of arrow keys one by one', () => {
    expect(read('\x1b[B\x1b[B\x1b[A')).toEqual([key('down'), key('down'), key('up')]);
    expect(read('\x1bOA\x1bOD')).toEqual([key('up'), key('left')]);
  });

  it('ignores keys nobody has a name for', () => {
    expect(read('\x1b[1;5P')).toEqual([]);
    expect(read('\x1b[[A')).toEqual([]);
    expect(read('\x1bOP\x1b[15~')).toEqual([]);
  });

  it('takes a lone Escape, and Escape typed quickly before a digit', () => {
    expect(read('\x1b')).toEqual([key('escape')]);
    expect(read('\x1b5')).toEqual([key('escape'), text('5')]);
  });

  it('drops the tail of an arrow key that came apart', () => {
    expect(readAll(['\x1b', '[A'])).toEqual([key('escape')]);
  });

  it('gathers a marked paste over several chunks and strips the marks', () => {
    expect(readAll(['\x1b[200~229 39\r', '231 26\r228', ' 52\x1b[201~7'])).toEqual([
      paste('229 39\r231 26\r228 52'),
      text('7'),
    ]);
  });

  it('finds the mark that ends a paste where it comes apart', () => {
    const whole = 'a\x1b[201~7';
    for (let at = 1; at < whole.length; at += 1)
      expect(readAll(['\x1b[200~', whole.slice(0, at), whole.slice(at)])).toEqual([paste('a'), text('7')]);
  });

  it('ends a paste that has no end after a pause, and keeps what was pasted', () => {
    const { state, events } = readKeys(KEY_READER_START, '\x1b[200~229 39\r231 26');
    expect(events).toEqual([]);
    const ended = endPaste(state);
    expect(ended).toEqual({ state: KEY_READER_START, events: [paste('229 39\r231 26')] });
    expect(endPaste(ended.state).events).toEqual([]);
    expect(endPaste(readKeys(KEY_READER_START, '\x1b[200~').state).events).toEqual([]);
  });

  it('hears Ctrl+C inside a paste without an end, every time', () => {
    expect(readAll(['\x1b[200~229', ' 39', '\x03', '\x03', 'y\x03'])).toEqual([
      paste('229 39'),
      ctrlC,
      ctrlC,
      paste('y'),
      ctrlC,
    ]);
  });

  it('takes nothing that is pasted behind a Ctrl+C for keys', () => {
    expect(readAll(['\x1b[200~a\x03', 'ddd\ry', '\x1b[201~b'])).toEqual([
      paste('a'),
      ctrlC,
      paste('ddd\ry'),
      text('b'),
    ]);
    expect(readAll(['\x1b[200~a\x03b\x1b[201~'])).toEqual([paste('a\x03b')]);
  });

  it.each([65_535, 65_536])('keeps a paste of %i characters whole', (length) => {
    expect(readAll(['\x1b[200~', 'x'.repeat(length), '\x1b[201~'])).toEqual([paste('x'.repeat(length))]);
  });

  it('says of a longer paste that it is cut, and passes over the rest', () => {
    for (const chunks of [['x'.repeat(65_537)], Array<string>(9).fill('x'.repeat(10_000))])
      expect(readAll(['\x1b[200~', ...chunks, '\x1b[201~b'])).toEqual([
        paste('x'.repeat(65_536), true),
        text('b'),
      ]);
  });

  it('lives through many marks in one chunk', () => {
    expect(read('\x1b[200~a\x1b[201~'.repeat(20_000))).toHaveLength(20_000);
  });

  it('takes unmarked text with line feeds as a paste, a few carriage returns as typing', () => {
    expect(read('229 39\n231 26\n')).toEqual([paste('229 39\n231 26\n')]);
    expect(read('1\r2\r3\r')).toHaveLength(6);
  });

  it('reads the keypad in application mode', () => {
    expect(read('\x1bOr\x1bOr\x1bOy\x1bOM')).toEqual([text('229'), key('enter')]);
  });

  it('reads Ctrl with a letter', () => {
    expect(read('\x03')).toEqual([{ kind: 'ctrl', letter: 'c' }]);
  });

  it('never throws, and never lets a control character into text', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'binary' })), (chunks) => {
        for (const event of readAll(chunks)) {
          if (event.kind === 'text') expect(event.text).not.toMatch(/[\u0000-\u001f\u007f-\u009f]/);
        }
      }),
    );
  });
});
