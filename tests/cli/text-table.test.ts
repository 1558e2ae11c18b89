import { describe, expect, it } from 'vitest';
import { bullet, textTable, wrapText } from '../../src/present/text-table.ts';

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
