import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readRecord } from '../../src/record/read-record.ts';
import { formatRecord } from '../../src/record/write-record.ts';
import { examples } from './examples.ts';

describe('the bundled examples', () => {
  it.each(Object.entries(examples))('%s is what its recipe gives, and has nothing odd', (name, example) => {
    const file = readFileSync(new URL(`../../data/examples/${name}`, import.meta.url), 'utf8');
    const read = readRecord(file);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    expect(read.warnings).toEqual([]);
    const made = readRecord(JSON.stringify(example));
    expect(made.ok && formatRecord(made.record)).toBe(file);
  });
});
