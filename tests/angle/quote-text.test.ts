import fc from 'fast-check';
import { expect, it } from 'vitest';
import { quoteText } from '../../src/angle/quote-text.ts';
import { obeyedByTerminals, textOf } from '../fuzz/hostile-text.ts';

it.each([
  ['', '""'],
  ['neon', '"neon"'],
  ["229°39'", "229°39'"],
  ['n'.repeat(40), `"${'n'.repeat(40)}"`],
  ['n'.repeat(41), `"${'n'.repeat(39)}…"`],
  ['𝛌'.repeat(41), `"${'𝛌'.repeat(39)}…"`],
  ['1'.repeat(100_000), `"${'1'.repeat(39)}…"`],
  ['a\u202eb\u200bc\x1bd', '"a b c d"'],
])('%j in a message', (text, quoted) => {
  expect(quoteText(text)).toBe(quoted);
});

it('is short, on one line, and nothing that a terminal obeys, whatever the text', () => {
  fc.assert(
    fc.property(textOf(100_000), (text) => {
      const quoted = quoteText(text);
      expect([...quoted].length).toBeLessThanOrEqual(42);
      expect(quoted).not.toMatch(obeyedByTerminals);
      expect(quoted).not.toContain('\n');
    }),
    { numRuns: 500 },
  );
});
