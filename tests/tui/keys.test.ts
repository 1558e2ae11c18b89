import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KEY_READER_START, type KeyEvent, type KeyReaderState, readKeys } from '../../src/tui/keys.ts';

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
      { kind: 'paste', text: '229 39\r231 26\r228 52' },
      text('7'),
    ]);
  });

  it('takes unmarked text with line feeds as a paste, a few carriage returns as typing', () => {
    expect(read('229 39\n231 26\n')).toEqual([{ kind: 'paste', text: '229 39\n231 26\n' }]);
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
