import fc from 'fast-check';
import { expect, it } from 'vitest';
import { GraphemeSegmenter } from '../../src/tui/graphemes.ts';

const ours = new GraphemeSegmenter();
const thorough = new Intl.Segmenter(undefined, { granularity: 'grapheme' });

/** Mostly what the screen draws, among it what joins to its neighbours: accents, an emoji and its variants, flags. */
const character = fc.oneof(
  { weight: 20, arbitrary: fc.integer({ min: 0x20, max: 0x2fff }).map((code) => String.fromCodePoint(code)) },
  fc.constantFrom(
    '\u001b',
    '\r',
    '\n',
    '\u0301',
    '\u20e3',
    '\u200d',
    '\ufe0f',
    '🙂',
    '🇳',
    'a',
    '1',
    '─',
    '°',
  ),
);

it('cuts every text as Intl.Segmenter does', () => {
  fc.assert(
    fc.property(fc.string({ unit: character, maxLength: 6 }), (text) => {
      expect([...ours.segment(text)]).toEqual([...thorough.segment(text)]);
    }),
    { numRuns: 5000 },
  );
  for (let code = 0x20; code < 0x3000; code += 1) {
    const text = `${String.fromCodePoint(code)}a${String.fromCodePoint(code)}`;
    expect([...ours.segment(text)].map(({ segment }) => segment)).toEqual(
      [...thorough.segment(text)].map(({ segment }) => segment),
    );
  }
});
