/** The instructor's check says nothing twice: the reason decides, what is to blame stands beside it, once. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { benchExpecting, verifyTube } from '../../src/analysis/verify.ts';
import { benchOf } from '../calibrate/glass-bench.ts';

interface Tube {
  readonly lines: readonly unknown[];
}
type Example = Parameters<typeof benchOf>[0] & {
  readonly known: object;
  readonly central?: unknown;
  readonly unknown: Tube | readonly Tube[];
};

const folder = new URL('../../data/examples/', import.meta.url);
const records = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => [name, JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Example] as const);

const spoilt: Readonly<Record<string, (record: Example) => Parameters<typeof benchOf>[0]>> = {
  'as it is': (record) => record,
  'without a known line': ({ known: _, ...record }) => record,
  'without the central image': ({ central: _, ...record }) => record,
  'with another lamp': (record) => ({ ...record, known: { ...record.known, lamp: 'cadmium' } }),
  'with one line of the tube': (record) => of(record, (lines) => lines.slice(0, 1)),
  'with no line of the tube': (record) => of(record, () => []),
  'with an answer': (record) => ({ ...record, unknown: { ...first(record), answer: 'argon' } }),
};
const first = ({ unknown }: Example): Tube => [unknown].flat()[0]!;
const of = (record: Example, lines: (lines: Tube['lines']) => Tube['lines']) => ({
  ...record,
  unknown: { ...first(record), lines: lines(first(record).lines) },
});

/** The parts of a text that say something; openings, as a place, are no sentence. */
const sentences = (text: string): string[] =>
  text
    .split(/(?<=[.?!])\s+(?=[A-Z])|: /)
    .map((sentence) => sentence.replace(/[.?!]$/, ''))
    .filter((sentence) => sentence.length > 20);

describe.each(Object.entries(spoilt))('%s', (_, spoil) => {
  test.each(records)('%s', (_name, record) => {
    const bench = benchOf(spoil(record));
    for (const expected of ['neon', 'helium', 'mercury']) {
      const analysis = analyseBench(benchExpecting(bench, () => expected));
      for (const tube of analysis.tubes) {
        const { reason, blame } = verifyTube(analysis, tube, expected);
        const told = [reason, ...blame.map(({ message }) => message)];
        expect(reason).not.toBe('');
        expect(new Set(told).size).toBe(told.length);
        for (const [at, text] of told.entries())
          for (const other of told.slice(at + 1))
            for (const sentence of sentences(other)) expect(text).not.toContain(sentence);
      }
    }
  });
});
