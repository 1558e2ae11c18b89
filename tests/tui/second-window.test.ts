/** A second window that says nothing is spoken of at the second reading, not when all have been read. */
import { describe, expect, it } from 'vitest';
import type { BenchForm } from '../../src/tui/form.ts';
import { readPaste } from '../../src/tui/paste.ts';
import { BLANK_FORM } from './fixture.ts';
import { KEYS, openBench } from './harness.ts';

const { tab, enter } = KEYS;
const TWO: BenchForm = {
  ...BLANK_FORM,
  instrument: { method: 'central', leastCount: "1'", windows: 2 },
  known: [{ lamp: 'mercury', lines: [] }],
};
const BOTH: BenchForm = { ...TWO, instrument: { ...TWO.instrument, method: 'both-sides' } };
const noAnalysis = () => {
  throw new Error('left out');
};

/** What is asked about the last of the readings of a tube, those before it taken whatever was asked. */
function askedAbout(form: BenchForm, readings: readonly string[]): string {
  const bench = openBench(form, undefined, noAnalysis);
  bench.type(tab, tab);
  for (const [at, reading] of readings.entries())
    bench.type(reading, enter, ...(at < readings.length - 1 ? [enter] : []));
  return bench.state().entry.query?.join(' ') ?? '';
}

describe('a second window', () => {
  it('that stays where it was is said not to be read', () => {
    const asked = askedAbout(TWO, ['229 21 / 49 22', '231 26 / 49 22']);
    expect(asked).toMatch(
      /^The second window has stayed at 49°22' while the first moved by 2°05': it was not read\./,
    );
    expect(asked).not.toContain('opposite windows are about');
  });

  it.each([
    ['the very numbers of the first', ['229 21 / 229 21', '231 26 / 231 26']],
    ["359°59' on", ['229 21 / 229 20', '231 26 / 231 25']],
  ])('that shows %s is said to be the first read once more', (_, readings) => {
    expect(askedAbout(TWO, readings)).toMatch(
      /^The second window shows the same as the first in all 2 readings/,
    );
  });

  it('is judged across central image, lamp and tube', () => {
    const form = { ...TWO, central: [['181 04', '1 05'] as [string, string]] };
    expect(askedAbout(form, ['229 21 / 1 05'])).toMatch(/^The second window has stayed at 1°05'/);
  });

  it('is judged by the two sides of one reading', () => {
    expect(askedAbout(BOTH, ['left 229 21 / 49 22 right 132 48 / 49 22'])).toMatch(/has stayed at 49°22'/);
  });

  it.each([
    ['moves with the first', ['229 21 / 49 22', '231 26 / 51 27']],
    ['is a repeat of the same place', ['229 21 / 49 22', '229 22 / 49 22']],
    ['was read once before', ['229 21 / 49 22', '230 00 / 50 01', '231 26 / 51 26']],
  ])('that %s is no cause for a question of its own', (_, readings) => {
    expect(askedAbout(TWO, readings)).not.toMatch(/second window/);
  });

  it('one slip among readings of use is asked about as before', () => {
    const asked = askedAbout(TWO, ['229 21 / 49 22', '230 00 / 50 01', '231 26 / 50 01']);
    expect(asked).toContain('opposite windows are about 180° apart');
    expect(asked).not.toMatch(/second window/);
  });

  it('of no use is said in the preview of a paste, from its second line on', () => {
    const bench = openBench(TWO, undefined, noAnalysis);
    const state = bench.type(tab, tab, '\x1b[200~229 21 / 49 22\n231 26 / 49 22\x1b[201~');
    const odd = state.overlay?.kind === 'paste' ? readPaste(state, state.overlay) : [];
    expect(odd.map((line) => line.ok && /second window/.test(line.odd.join(' ')))).toEqual([false, true]);
  });

  it('means nothing where there is one', () => {
    const one: BenchForm = { ...TWO, instrument: { method: 'central', leastCount: "1'" } };
    expect(askedAbout(one, ['229 21', '231 26'])).toBe('');
  });
});
