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
    [
      'that misses a record',
      'record,expected\nb.json,neon',
      /a\.json: the key does not say what tube 1 should be/,
    ],
    ['with an unknown tube', 'record,expected\na.json,heluim', /row 2: .*did you mean helium/],
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
