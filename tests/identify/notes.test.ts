/** What a word for the brightness of a line says of the line that was read. */
import { describe, expect, it } from 'vitest';
import { NOTED_BRIGHTNESS } from '../../src/identify/assumptions.ts';
import { brightnessLog } from '../../src/identify/spectrum/notes.ts';

const words = ['strong', 'medium', 'weak'] as const;
const known = { prominenceSd: 0.3, strengthSd: 0 };

describe('a brightness noted', () => {
  it('says nothing where there is none', () => {
    expect(brightnessLog(null, { prominence: -1, ...known })).toBe(0);
  });

  it('speaks for lines as bright as the word and against those that are not', () => {
    const at = (prominence: number) => brightnessLog('strong', { prominence, ...known });
    expect(at(0.2)).toBeGreaterThan(0);
    expect(at(-3)).toBeLessThan(0);
    expect(at(-1)).toBeGreaterThan(at(-2));
  });

  it.each([-4, -2.6, -1.3, 0, 0.5])(
    'shares out one certainty among the words, line of prominence %f',
    (prominence) => {
      const chances = words.map(
        (word) => NOTED_BRIGHTNESS.share[word] * Math.exp(brightnessLog(word, { prominence, ...known })),
      );
      expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 3);
    },
  );

  it('says less of a line whose brightness is a guess, and of one whose component may be weak or strong', () => {
    const least = (line: typeof known) => brightnessLog('strong', { prominence: -3, ...line });
    expect(least({ ...known, prominenceSd: 1.3 })).toBeGreaterThan(least(known) + 0.05);
    expect(least({ ...known, strengthSd: 1.6 })).toBeGreaterThan(least(known) + 0.2);
  });

  it('never rules a line out: any word may be wrong', () => {
    for (const word of words)
      for (const prominence of [-9, -5, 0.5, 4])
        expect(brightnessLog(word, { prominence, ...known })).toBeGreaterThan(
          Math.log(NOTED_BRIGHTNESS.wrongWord) - 1e-9,
        );
  });
});
