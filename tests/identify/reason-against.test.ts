/** What speaks most against each tube of the ranking, in one plain sentence. */
import { describe, expect, test } from 'vitest';
import type { Candidate } from '../../src/analysis/types.ts';
import { reasonAgainst } from '../../src/identify/rank/reason-against.ts';
import { tubeNamed } from '../../src/lines/table.ts';
import { GlassReader, neonNm, recordOf, unknownTube } from '../calibrate/glass-bench.ts';
import { analysedTube, reader, tubeWith } from './tube-bench.ts';

const rowOf = ({ candidates }: { candidates: readonly Candidate[] }, name: string): Candidate =>
  candidates.find(({ substance, with: rest }) => substance === name && rest.length === 0)!;

describe('the reason against a row', () => {
  const neon = tubeWith(neonNm);

  test('is one sentence for every row but the first', () => {
    const [first, ...others] = neon.candidates;
    expect(first!.reasonAgainst).toBeNull();
    for (const { reasonAgainst } of others)
      expect(reasonAgainst).toMatch(/^(the lines of|\d+ of \d+ fits? )/);
  });

  test('counts what fits and names the brightest lines that should have been seen', () => {
    const { reasonAgainst, matches, unexplained } = rowOf(neon, 'xenon');
    expect(reasonAgainst).toMatch(
      /^10 of 10 fit - but \d+, \d+ and \d+ nm, xenon's brightest, should have been seen$/,
    );
    expect([matches.length, unexplained.length]).toEqual([10, 0]);
    const [nm] = /\d+/.exec(reasonAgainst!.slice('10 of 10'.length))!;
    // Brightest first, whatever the table says today: a strong line of xenon, and nowhere near a reading.
    const strong = tubeNamed('xenon')!.lines.filter(({ prominence }) => prominence > -0.6);
    expect(strong.some(({ wavelengthNm }) => Math.abs(wavelengthNm - Number(nm)) < 1.5)).toBe(true);
    expect(Math.min(...neonNm.map((each) => Math.abs(each - Number(nm))))).toBeGreaterThan(5);
  });

  test('names readings that are no lines of it', () => {
    expect(rowOf(neon, 'hydrogen').reasonAgainst).toMatch(/^\d+ of 10 fit - .* nm are no lines of hydrogen$/);
  });

  test('says what has to be assumed', () => {
    // Three lines of neon; that one of them is misread by a round amount is what other tubes need.
    const few = tubeWith([640.22, 614.31, 585.25]);
    const misread = few.candidates.filter(({ reasonAgainst }) => reasonAgainst?.includes('misread'));
    expect(misread.length).toBeGreaterThan(0);
    for (const { reasonAgainst, matches } of misread) {
      expect(reasonAgainst).toMatch(/- but only if one reading is misread$/);
      expect(matches.some(({ asRead }) => !asRead)).toBe(true);
    }
  });

  test('of "unlisted" speaks of chance', () => {
    expect(rowOf(neon, 'unlisted').reasonAgainst).toBe(
      'the lines of neon meet these readings better than chance does',
    );
  });

  test('never names one place twice', () => {
    const coarse = new GlassReader({ glass: 'N-BK7', leastCountArcmin: 5 });
    const tube = analysedTube(recordOf(coarse, { unknown: unknownTube(coarse, neonNm) }, "5'"));
    for (const { reasonAgainst } of tube.candidates) {
      const places = reasonAgainst?.split(' - ')[1]?.match(/\d+(\.\d+)?(?=,| and| nm)/g) ?? [];
      expect(new Set(places).size).toBe(places.length);
    }
  });
});

describe('a match in a mixture', () => {
  const helium = [706.52, 667.82, 587.56, 501.57, 471.31, 447.15];
  const hydrogen = [656.28, 486.13, 434.05];
  const tube = tubeWith([...helium, ...hydrogen]);

  test('carries the gas whose line it is', () => {
    const [mixture] = tube.candidates;
    expect(mixture).toMatchObject({ substance: 'helium', with: ['hydrogen'] });
    for (const { index, substance } of mixture!.matches)
      expect(substance).toBe(index < helium.length ? 'helium' : 'hydrogen');
  });

  test('is told with that gas, also where the other row is the main gas alone', () => {
    const told = [...tube.reasons, rowOf(tube, 'helium').reasonAgainst!].join('\n');
    expect(told).toMatch(/hydrogen 434\.0.*no line of helium/);
    expect(told).not.toMatch(/helium 434/);
    expect(told).toMatch(/657, 486 and 434 nm are no lines of helium/);
  });

  test('of one gas is that of the row', () => {
    for (const row of tubeWith(neonNm).candidates.slice(0, 5)) {
      if (row.with.length > 0) continue;
      for (const { substance } of row.matches)
        expect([row.substance, ...row.indistinguishable]).toContain(substance);
    }
  });
});

describe('by hand: what most of the evidence is lost by', () => {
  type Reported = Parameters<typeof reasonAgainst>[0];
  interface ByHand extends Partial<Record<'tube' | 'reading' | 'slips' | 'admixtures', unknown>> {
    readonly matched?: readonly number[];
    readonly missing?: readonly string[];
  }
  /** `gained`: ln odds of each reading; the evidence is relative to the leading row's. */
  const reported = (
    logEvidence: number,
    gained: readonly number[],
    { matched = [], missing = [], ...row }: ByHand = {},
  ): Reported =>
    ({
      row: { tube: {}, logEvidence, admixtures: [], reading: null, slips: null, ...row },
      report: {
        contributions: gained.map((logOdds, index) => ({ index, logOdds })),
        unexplained: gained.map((_, index) => index).filter((index) => !matched.includes(index)),
        matches: matched.map((index) => ({ index, residualSigma: (-1) ** index * (index + 1) })),
        missing,
      },
    }) as unknown as Reported;
  const lead = reported(0, [3, 3, 3, 3], { matched: [0, 1, 2, 3] });
  const of = (...row: Parameters<typeof reported>) => reasonAgainst(reported(...row), lead);
  const through = (explanation: string, logWeight: number) => ({
    reading: { corrected: false, assumption: { likelihoods: { view: { explanation, logWeight } } } },
  });

  test('readings that are no line of it, those that cost a good part of the most', () => {
    expect(of(-12, [3, -1, 1.6, -3], { matched: [0] })).toEqual({ what: 'unexplained', indexes: [1, 3] });
  });

  test('readings off their lines, the farthest named', () => {
    expect(of(-8, [3, 3, -1, -1], { matched: [0, 1, 2, 3] })).toMatchObject({
      what: 'off',
      match: { index: 3 },
    });
  });

  test('lines that should be there: what nothing else accounts for', () => {
    const all = { matched: [0, 1, 2, 3], missing: ['a line'] };
    expect(of(-8, [3, 3, 3, 3], all)).toEqual({ what: 'missing', lines: ['a line'] });
    // The readings account for six of eight.
    expect(of(-8, [3, 3, 0, 0], all)).toMatchObject({ what: 'off' });
    expect(of(-13, [3, 3, 0, 0], all)).toMatchObject({ what: 'missing' });
  });

  test('of lines that should be there those that the leading row has not, read or missing', () => {
    const line = (wavelengthNm: number) => ({ wavelengthNm, chanceSeen: 0.9, brightest: false });
    const row = reported(-8, [3, 3, 3, 3], { matched: [0, 1, 2, 3] });
    const short = (...nm: number[]) => ({ ...row, report: { ...row.report, missing: nm.map(line) } });
    const ahead = { ...lead, report: { ...lead.report, missing: [line(660)] } };
    expect(reasonAgainst(short(660.9, 500, 661.1), ahead)).toEqual({
      what: 'missing',
      lines: [line(500), line(661.1)],
    });
    // Where there are no others they are what there is to say.
    expect(reasonAgainst(short(660.2), ahead)).toEqual({ what: 'missing', lines: [line(660.2)] });
  });

  test('what it has to assume: slips and a shift by their chance, a second gas', () => {
    const all = { matched: [0, 1, 2, 3] };
    const gained = [3, 3, 3, 2.5];
    const misread = (logPrior: number, corrected: boolean) => ({
      reading: { ...through('plain', -9).reading, corrected },
      slips: { hypotheses: [{ logPrior, slips: new Map([[0, {}]]) }] },
    });
    expect(of(-8, gained, { ...all, ...misread(-7, true) })).toEqual({ what: 'misread', count: 1 });
    expect(of(-8, gained, { ...all, ...misread(-7, false) })).toMatchObject({ what: 'little' });
    expect(of(-8, gained, { ...all, ...through('moved', -7) })).toEqual({ what: 'shifted' });
    expect(of(-8, gained, { ...all, ...through('plain', -7) })).toMatchObject({ what: 'little' });
    // Of a shift of readings that meet nothing there is nothing to say.
    expect(of(-20, [0, 0, 0, -1], through('moved', -30))).toMatchObject({ what: 'unexplained' });
    const found = { ...through('plain', -7).reading, found: { log: -1 } };
    const mixed = { tube: { substance: 'helium' }, reading: found, admixtures: [{ substance: 'neon' }] };
    expect(of(-8, gained, { ...all, ...mixed })).toEqual({ what: 'two-gases' });
    // What the pair costs is in its evidence already.
    expect(of(-1.5, gained, { ...all, ...mixed })).toMatchObject({ what: 'little' });
  });

  test('a metal that its starting gas would do without, by what that costs; beside mercury the light of the room; any other pair is two gases', () => {
    const all = { matched: [0, 1, 2, 3] };
    const found = { ...through('plain', -7).reading, found: { log: -1 } };
    const pair = (substance: string, gas: string) => ({
      ...all,
      reading: found,
      tube: { substance },
      admixtures: [{ substance: gas }],
    });
    expect(of(-8, [3, 3, 3, 3], pair('cadmium', 'argon'))).toEqual({ what: 'starting-gas' });
    expect(of(-8, [3, 3, 3, 3], pair('helium', 'argon'))).toEqual({ what: 'two-gases' });
    expect(of(-8, [3, 3, 3, 3], pair('sodium', 'mercury'))).toEqual({ what: 'room-light' });
    // It costs less than what is worth saying.
    expect(of(-1.5, [3, 3, 3, 3], pair('cadmium', 'argon'))).toEqual({ what: 'little' });
  });

  test('little where little is lost, and of a tube that is not listed chance', () => {
    expect(of(-0.9, [3, 3, 3, -1], { matched: [0, 1, 2] })).toEqual({ what: 'little' });
    expect(of(-5, [3, 3, 3, 3], { matched: [0, 1, 2, 3] })).toEqual({ what: 'little' });
    expect(of(-9, [0, 0, 0, 0], { tube: null })).toEqual({ what: 'by-chance' });
  });
});

test('a reading that is compared as it was meant is not called "mended" without a word of what that is', () => {
  const lines = neonNm.map((nm, i) => ({ readings: [reader.line(nm, i === 3 ? 60 : 0)] }));
  const tube = analysedTube(recordOf(reader, { unknown: { lines } }));
  expect(tube.reasons.join('\n')).not.toContain('mended');
  const reason = tube.reasons.find((text) => text.startsWith('Reading 4 '));
  if (reason !== undefined) expect(reason).toContain('as it was probably meant');
});
