import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvCell, csvRow } from '../../src/present/csv.ts';
import { jsonLine, safeShortText, safeText } from '../../src/present/safe-text.ts';

describe('text from a record on its way to a terminal', () => {
  it.each([
    ['colours', '\x1b[31mred\x1b[0m', 'red'],
    ['the 8-bit opener', '\x9b31mred', 'red'],
    ['a window title', '\x1b]0;owned\x07tube', 'tube'],
    ['a window title ended by ST', '\x1b]0;owned\x1b\\tube', 'tube'],
    ['a device control string', '\x1bPq#0\x1b\\tube', 'tube'],
    ['a lone escape', '\x1bctube', 'tube'],
    ['an unfinished sequence', 'tube\x1b[', 'tube'],
    ['backspaces', 'ne\b\bon', 'neon'],
    ['a bidirectional override', '\u202eneon\u202c', 'neon'],
    ['isolates and zero-width joiners', '\u2066ne\u200don\u2069', 'neon'],
    ['line breaks, as spaces', 'a\r\nb\tc\u2028d', 'a b c d'],
    ['a half surrogate', 'a\ud800b', 'ab'],
  ])('loses %s', (_what, hostile, clean) => {
    expect(safeText(hostile)).toBe(clean);
  });

  it('keeps the letters of any language, primes and degree signs', () => {
    const text = 'Röhre Ä, трубка, 氖, 228°52′30″ ± 1';
    expect(safeText(text)).toBe(text);
  });

  it('never holds a control or format character, whatever comes in', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(safeText(text)).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u);
      }),
    );
  });

  it('is cut by whole characters', () => {
    expect(safeShortText('𝛌𝛌𝛌𝛌', 3)).toBe('𝛌𝛌…');
    expect(safeShortText('𝛌𝛌𝛌', 3)).toBe('𝛌𝛌𝛌');
  });
});

describe('a line of JSON', () => {
  it('is the same value again, without a character that a terminal obeys', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        const hostile = { text: `${text}\x1b[2J\x9b2J\u202e\u{e0041}\u2028` };
        const line = jsonLine(hostile);
        expect(JSON.parse(line)).toEqual(hostile);
        expect(line).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
      }),
    );
  });
});

describe('a cell of a CSV', () => {
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', ' =1', '\x00=1', '\ufeff=1'])(
    'never starts a formula: %j',
    (text) => {
      expect(csvCell(text).replace(/^"/, '')).toMatch(/^'/);
    },
  );

  it('leaves numbers and ordinary text alone', () => {
    expect(csvRow(['tube C', -1.5, null, true, 'a-b'])).toBe('tube C,-1.5,,true,a-b');
  });

  it('never starts a formula behind a semicolon, where that separates cells', () => {
    expect(csvCell('a;=1+1; @b;c')).toBe(`"a;'=1+1;' @b;c"`);
  });

  it('quotes separators and quotation marks', () => {
    expect(csvRow(['a,b', 'say "x"', 'a;b'])).toBe('"a,b","say ""x""","a;b"');
  });
});
