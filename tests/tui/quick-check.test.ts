import { describe, expect, it } from 'vitest';
import type { BenchForm } from '../../src/tui/form.ts';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { KEYS, openBench } from './harness.ts';

const { tab, quickCheck } = KEYS;

function asked(text: string, form: BenchForm = FILLED) {
  const bench = openBench(form);
  bench.type(tab, tab, quickCheck, `${text}\r`);
  expect(bench.state().history.record).toBe(form);
  return bench.state();
}

const shelf = (...names: readonly string[]): BenchForm => ({
  ...FILLED,
  unknown: FILLED.unknown.map((tube) => ({ ...tube, shelf: names })),
});

describe('the quick check', () => {
  it('turns a reading into a wavelength, the likeliest lines first and no more than three', () => {
    const { notice, entry } = asked("228°53'");
    // Neon leads the ranking of the fixture.
    expect(notice?.text).toMatch(/^228°53': 6\d\d\.\d ± .* nm, red.*; could be neon 6\d\d\.\d/);
    expect(notice?.text).not.toMatch(/less likely|more\b/);
    expect(entry.purpose.kind).toBe('quick-check');
  });

  it('names only tubes that it can be, where that is said', () => {
    const said = asked("228°53'", shelf('helium', 'argon')).notice?.text;
    expect(said).not.toMatch(/neon|narrows/);
    const all = asked("228°53'").notice?.text;
    expect(all).toMatch(/could be \S+ [\d.]+, \S+ [\d.]+, \S+ [\d.]+ \(\/tubes it can be narrows it\)\.$/);
  });

  it('knows the lines that only a mixed lamp shows', () => {
    // The red line of europium in the phosphors at 611.5 nm (data/lines.json).
    expect(asked("229°04'", shelf('fluorescent lamp')).notice?.text).toMatch(/could be .*phosphors 61\d/);
  });

  it('turns a wavelength into the reading at which it stands', () => {
    for (const text of ['546.07 nm', '546,07nm', '546.07'])
      expect(asked(text).notice?.text).toBe("229°40': there 546.07 nm stands, green.");
    expect(asked('1150 nm').entry.refusal).toMatch(/does not reach 1150 nm/);
  });

  it('counts from the central image of the tube while it is read, and while it is answered', () => {
    const own = { ...FILLED, unknown: FILLED.unknown.map((tube) => ({ ...tube, central: ["182°04'"] })) };
    const at = (...stages: readonly string[]) => {
      const bench = openBench(own);
      bench.type(...stages, quickCheck, '546.07 nm\r');
      return bench.state().notice?.text;
    };
    expect(at(tab)).toBe("229°40': there 546.07 nm stands, green.");
    expect(at(tab, tab)).toMatch(/^230°40'/);
    expect(at(tab, tab, tab)).toMatch(/^230°40'/);
  });

  it('turns a gas into the readings of its brightest lines', () => {
    expect(asked('helium').notice?.text).toMatch(/^helium, its brightest: .*229°1\d' 587\.6 yellow/);
    expect(asked('He').notice?.text).toMatch(/^helium/);
    // Two lines that this bench shows as one are one place.
    expect(asked('sodium').notice?.text).toMatch(/ 589\.3 yellow/);
    expect(asked('sodium').notice?.text).not.toMatch(/589\.[06]/);
    expect(asked('heluim').entry.refusal).toMatch(/did you mean helium\?/);
  });

  it('says so while there is no curve', () => {
    const bench = openBench(BLANK_FORM);
    bench.type(quickCheck, 'helium\r');
    expect(bench.state().entry.refusal).toMatch(/^No curve yet/);
  });
});
