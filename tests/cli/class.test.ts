import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { csvCell } from '../../src/present/csv.ts';
import { escapeHtml } from '../../src/present/report/escape.ts';
import { textWidth } from '../../src/present/text-width.ts';
import { type ClassRecord, classOf24 } from './class.ts';
import { missed, verified } from './contract.ts';
import { jsonLines, whichgas, withFiles } from './run-program.ts';

type Verified = z.output<typeof verified>;

const files = {
  ...Object.fromEntries(classOf24.map(({ name, record }) => [name, JSON.stringify(record)])),
  'key.csv': ['record,expected', ...classOf24.map(({ name, expected }) => `${name},${expected}`)].join(
    '\r\n',
  ),
};

/** The record's own fault is blamed, or nothing where nothing is wrong. */
function rightBlame({ blame }: ClassRecord, found: Verified['blame']): boolean {
  if (blame === null) return found.length === 0;
  return found.some(
    ({ step, kind, index }) =>
      blame.step.includes(step) &&
      blame.kind.includes(kind) &&
      (blame.index === undefined || blame.index === index),
  );
}

describe('a class of 24 records with a key', async () => {
  const ended = await withFiles(files, (cwd) =>
    whichgas(['verify', '.', '--key', 'key.csv', '--json'], { cwd }),
  );
  const checks = jsonLines(ended).map((line) => z.parse(verified, line));
  const table = classOf24.map((planned, at) => {
    const check = checks[at]!;
    return {
      name: planned.name,
      outcome: check.outcome,
      rightOutcome: check.outcome === planned.outcome,
      rightBlame: rightBlame(planned, check.blame),
      blame: check.blame.map(({ step, kind, index }) => `${step}/${kind}/${index}`).join(' '),
    };
  });

  it('has one answer for every record, in the order of their names', () => {
    expect(checks.map(({ file }) => file)).toEqual(classOf24.map(({ name }) => name));
    expect(ended.code).toBe(1);
  });

  it('is given the right outcome in at least 90 %', () => {
    const wrong = table.filter(({ rightOutcome }) => !rightOutcome);
    expect(wrong.length, JSON.stringify(wrong, null, 1)).toBeLessThanOrEqual(2);
  });

  it('is given the right blame in at least 90 %', () => {
    const wrong = table.filter((row) => !row.rightBlame);
    expect(wrong.length, JSON.stringify(wrong, null, 1)).toBeLessThanOrEqual(2);
  });

  it('has a reason for each that says what decides it', () => {
    const saidOf = (at: number) => checks[at - 1]!.reason;
    for (const at of [1, 2, 3, 4, 5, 6, 7, 8]) expect(saidOf(at)).toMatch(/^The readings support /);
    expect(saidOf(20)).toMatch(/good and are those of helium .* not of neon: check key and label\.$/);
    expect(saidOf(21)).toMatch(/good and are those of cadmium .* not of krypton: check key and label\.$/);
    for (const at of [22, 23])
      expect(saidOf(at)).toMatch(/^Too few lines to name a tube: read more, the next at /);
    expect(saidOf(24)).toMatch(/7 of 7 lie on its lines, 1 of them only with a slip undone\.$/);
  });

  it('makes a gradebook and a table with the same outcomes', () =>
    withFiles(files, (cwd) => {
      const csv = whichgas(['verify', '.', '--key', 'key.csv', '--csv'], { cwd });
      const rows = csv.out.trimEnd().split('\n');
      expect(rows[0]).toBe(
        'file,tube,expected,outcome,probability,best,answer,answer_agrees,answer_before_ranking,observers,station,date,lines,slips,next_look,reason,blame',
      );
      expect(rows.slice(1).map((row) => row.split(',').slice(0, 5))).toEqual(
        checks.map(({ file, tube, expected, outcome, probability }) => [
          file,
          tube,
          expected,
          outcome,
          probability?.toFixed(4),
        ]),
      );
      for (const [at, { reason }] of checks.entries()) expect(rows[at + 1]).toContain(csvCell(reason));
      const text = whichgas(['verify', '.', '--key', 'key.csv'], { cwd });
      for (const { name } of classOf24)
        expect(text.out).toMatch(new RegExp(`^${name.replace('.json', '')} `, 'm'));
      expect(text.out).toMatch(/^24 checked: /m);
    }));
});

describe('what the key expects and nobody handed in', async () => {
  const [first] = classOf24;
  const about = { observers: ['Ines', ' Paul ', ''], station: '4', date: '2026-11-26' };
  const two = {
    ...first!.record,
    about,
    unknown: [
      { ...(first!.record as { unknown: object }).unknown, label: 'tube A', answerBeforeRanking: true },
      { label: 'tube B', lines: [] },
    ],
  };
  const key = [
    'record,tube,expected',
    'a,A,neon',
    'a,tube B,neon',
    'a,tube C,neon',
    'late.json,,argon',
    'c,,neon',
  ];
  const class3 = { 'a.json': JSON.stringify(two), 'c.json': '{', 'key.csv': key.join('\n') };
  const run = (...words: string[]) =>
    withFiles(class3, (cwd) => whichgas(['verify', '--key', 'key.csv', ...words], { cwd }));

  it('is listed, whole records and tubes, but not a record that could not be read', async () => {
    const ended = await run('a.json', '--json');
    expect(ended).toMatchObject({ code: 1, err: '' });
    const lines = jsonLines(ended);
    expect(lines.slice(0, 2).map((line) => z.parse(verified, line).outcome)).toEqual([
      'supported',
      'insufficient',
    ]);
    expect(lines.slice(2).map((line) => z.parse(missed, line))).toMatchObject([
      { file: 'a', tube: 'tube C', expected: 'neon' },
      { file: 'late.json', tube: '', expected: 'argon' },
      { file: 'c', tube: '', expected: 'neon' },
    ]);
    const withBroken = await run('.', '--json');
    expect(withBroken.code).toBe(2);
    expect(jsonLines(withBroken).slice(2)).toMatchObject([{ tube: 'tube C' }, { file: 'late.json' }]);
  });

  it('carries who, where, when and how much', async () => {
    const [checked] = jsonLines(await run('a.json', '--json'));
    expect(checked).toMatchObject({
      observers: ['Ines', ' Paul '],
      station: '4',
      date: '2026-11-26',
      lines: 9,
      slips: 0,
      answerBeforeRanking: true,
    });
    const rows = (await run('a.json', '--csv')).out.trimEnd().split('\n');
    expect(rows).toHaveLength(6);
    expect(rows[1]).toMatch(/^a\.json,tube A,neon,supported,1\.0000,neon,.*,yes,.*4,2026-11-26,9,0,,/);
    expect(rows[4]).toMatch(/^late\.json,,argon,missing,,,,,,,,,,,,"The key expects this record/);
    const { out } = await run('a.json');
    expect(out).toMatch(/^late +argon +missing/m);
    expect(out).toMatch(
      /station 4; 2026-11-26; 9 lines read; answered before the\s+possible tubes were shown\./,
    );
    expect(out).toMatch(/^2 checked: 1 supported, 0 contradicted, 1 not enough, 3 missing\.$/m);
    for (const line of out.split('\n')) expect(textWidth(line), line).toBeLessThanOrEqual(80);
  });

  it('is on the page of the class too, with what is to blame and what could not be used', () =>
    withFiles({ ...class3, 'slip.json': JSON.stringify(classOf24[23]!.record) }, (cwd) => {
      writeFileSync(join(cwd, 'key.csv'), `${key.join('\n')}\nslip,,helium\n`);
      const words = ['verify', '.', '--key', 'key.csv', '--csv', '--out'];
      const ended = whichgas([...words, 'class.html'], { cwd });
      expect(ended.code).toBe(2);
      expect(ended.err).toMatch(/the page of the class is in class\.html/);
      const page = readFileSync(join(cwd, 'class.html'), 'utf8');
      const { reason } = z.parse(
        verified,
        jsonLines(whichgas(['verify', 'slip.json', '--expect', 'helium', '--json'], { cwd }))[0],
      );
      for (const text of [reason, 'late', 'c.json: line 1', 'a, tube A: supported', '! 5 · 347°22']) {
        expect(page).toContain(escapeHtml(text));
      }
      expect(page.match(/<svg/g)).toHaveLength(2);
      expect(whichgas([...words, 'class.md'], { cwd })).toMatchObject({ code: 2, out: '' });
      symlinkSync('a.json', join(cwd, 'link.html'));
      expect(whichgas([...words, 'link.html'], { cwd }).err).toMatch(
        /link\.html: this file holds a bench record/,
      );
      expect(readFileSync(join(cwd, 'a.json'), 'utf8')).toBe(class3['a.json']);
    }));
});

describe('a key', () => {
  const [first] = classOf24;
  const record = JSON.stringify(first!.record);
  const verify = (key: string, args: readonly string[] = ['a.json']) =>
    withFiles({ 'a.json': record, 'key.csv': key }, (cwd) =>
      whichgas(['verify', ...args, '--key', 'key.csv', '--json'], { cwd }),
    );

  it('may name a tube, or the whole record, by path or base name', async () => {
    expect((await verify('record,tube,expected\na.json,Tube 1,neon')).code).toBe(0);
    expect((await verify('\ufeffRecord;Expected\r\na.json;Ne\r\n', ['./a.json'])).code).toBe(0);
  });

  it.each([
    ['a.json', 'a.json'],
    ['a', 'a.json'],
    ['A.JSON', 'a.json'],
    ['./a', 'a.json'],
    ['monday/a', 'monday/a.json'],
    ['monday\\a.json', 'monday/a.json'],
    ['C:\\class\\monday\\a.json', 'monday/a.json'],
    ['a', 'monday/a.json'],
    ['monday/a', '../monday/a.json'],
  ])('that writes %s means %s', (record, file) =>
    withFiles({ 'key.csv': `record,expected\n${record},neon\n` }, (cwd) => {
      const bench = JSON.stringify(first!.record);
      mkdirSync(join(cwd, 'monday'));
      for (const name of ['a.json', 'monday/a.json']) writeFileSync(join(cwd, name), bench);
      const inside = file.startsWith('../') ? join(cwd, 'monday') : cwd;
      const key = join(cwd, 'key.csv');
      const ended = whichgas(['verify', file, '--key', key, '--json'], { cwd: inside });
      expect(ended).toMatchObject({ code: 0, err: '' });
    }),
  );

  it('that misses a record leaves that one unchecked, and lists the one it has', async () => {
    const ended = await verify('record,expected\nb.json,neon');
    expect(ended.code).toBe(2);
    expect(ended.err).toBe('whichgas: a.json: the key does not say what tube 1 should be\n');
    expect(jsonLines(ended)).toMatchObject([{ file: 'b.json', outcome: 'missing' }]);
  });

  it('tells records of one name apart by their folders', () =>
    withFiles({ 'key.csv': 'record,expected\nmonday/a,neon\ntuesday\\a.json,argon\n' }, (cwd) => {
      for (const day of ['monday', 'tuesday', 'friday']) {
        mkdirSync(join(cwd, day));
        writeFileSync(join(cwd, day, 'a.json'), record);
      }
      const verified = (...words: string[]) => {
        const ended = whichgas(['verify', ...words, '--key', join(cwd, 'key.csv'), '--json'], { cwd });
        const rows = jsonLines(ended) as { file: string; expected: string; outcome: string }[];
        return { ...ended, rows: rows.map(({ file, expected, outcome }) => [file, expected, outcome]) };
      };
      const all = verified('monday', 'tuesday', 'friday');
      expect(all.rows).toEqual([
        ['monday/a.json', 'neon', 'supported'],
        ['tuesday/a.json', 'argon', 'contradicted'],
      ]);
      expect(all.code).toBe(2);
      expect(all.err).toMatch(/friday\/a\.json: the key does not say/);
      const unclear = verified('friday');
      expect(unclear.code).toBe(2);
      expect(unclear.err).toMatch(/friday\/a\.json: .*several rows .*\(monday\/a and tuesday\\a\.json\)/);
    }));

  it.each([
    ['with an unknown tube', 'record,expected\na.json,heluim', /row 2, column 2 .*did you mean helium/],
    ['with other columns', 'file,gas\na.json,neon', /first row must be record,expected/],
    ['with one column too many', 'record,expected,grade\na.json,neon,1', /not "grade"/],
    ['that contradicts itself', 'record,expected\na.json,neon\na.json,argon', /already expected to be neon/],
    ['without a name', 'record,expected\n,neon', /row 2: the record is not named/],
  ])('%s is refused', async (_what, key, sentence) => {
    const { code, out, err } = await verify(key);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(sentence);
  });
});
