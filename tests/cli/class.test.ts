import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { type ClassRecord, classOf24 } from './class.ts';
import { verified } from './contract.ts';
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

  it('makes a gradebook and a table with the same outcomes', () =>
    withFiles(files, (cwd) => {
      const csv = whichgas(['verify', '.', '--key', 'key.csv', '--csv'], { cwd });
      const rows = csv.out.trimEnd().split('\n');
      expect(rows[0]).toBe('file,tube,expected,outcome,probability,best,answer,answer_agrees,blame');
      expect(rows.slice(1).map((row) => row.split(',').slice(0, 4))).toEqual(
        checks.map(({ file, tube, expected, outcome }) => [file, tube, expected, outcome]),
      );
      const text = whichgas(['verify', '.', '--key', 'key.csv'], { cwd });
      for (const { name } of classOf24)
        expect(text.out).toMatch(new RegExp(`^${name.replace('.json', '')} `, 'm'));
      expect(text.out).toMatch(/^24 checked: /m);
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
    [
      'that misses a record',
      'record,expected\nb.json,neon',
      /a\.json: the key does not say what tube 1 should be/,
    ],
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
