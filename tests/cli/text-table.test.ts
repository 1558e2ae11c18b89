import measured from 'fast-string-width';
import { describe, expect, it } from 'vitest';
import { bullet, textTable, wrapText } from '../../src/present/text-table.ts';
import { textWidth } from '../../src/present/text-width.ts';

describe('a text table', () => {
  it('aligns by what a terminal draws, not by the number of code units', () => {
    const table = textTable(
      [{ title: 'tube' }, { title: 'nm', align: 'right' }],
      [
        ['氖', '640.2'],
        ['neon', '5.9'],
      ],
    );
    expect(table).toBe('tube     nm\n氖    640.2\nneon    5.9');
  });
});

describe('the width of a text', () => {
  it('is for every character up to U+2FFF what the library measures', () => {
    const characters = Array.from({ length: 0x3000 }, (_, code) => String.fromCharCode(code));
    const wrong = characters.filter((character) => textWidth(character) !== measured(character));
    expect(wrong).toEqual([]);
  });
});

describe('a paragraph', () => {
  it('breaks at spaces within the width', () => {
    const text = wrapText('one two three four', '  ', 9);
    expect(text).toBe('one two\n  three\n  four');
  });

  it('keeps a word that is longer than the line', () => {
    expect(wrapText('a reallylongword b', '', 6)).toBe('a\nreallylongword\nb');
  });

  it('lines up under its bullet', () => {
    for (const line of bullet('word '.repeat(40).trim()).split('\n')) {
      expect(line.length).toBeLessThanOrEqual(80);
      expect(line).toMatch(/^(- | {2})word/);
    }
  });
});
