/**
 * Keys at random, pastes and long texts among them: after every edit the file on disk opens, and it is what the screen
 * holds. Sizes lie on both sides of every bound that the screen and the record have.
 */
import * as files from 'node:fs';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { most } from '../../src/record/limits.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { BENCH_ACTIONS } from '../../src/tui/action-list.ts';
import { type BenchForm, formOf, isSameForm } from '../../src/tui/form.ts';
import { Journal } from '../../src/tui/journal.ts';
import type { ScreenState } from '../../src/tui/state.ts';
import { analyseFixture, BLANK_FORM, FILLED } from '../tui/fixture.ts';
import { act, openBench } from '../tui/harness.ts';
import { hostileText } from './hostile-text.ts';
import { insideFolder } from './in-process.ts';

export interface KeysBudget {
  readonly sequences: number;
  readonly longest: number;
}

/** What is done at once: a chunk of keys, the computation of what stands there, or a pause. */
type Step = string | { readonly does: 'compute' | 'pause' };

const around = (bound: number): readonly number[] => [bound - 1, bound, bound + 1];

const angle = fc
  .tuple(fc.integer({ min: 0, max: 360 }), fc.integer({ min: 0, max: 60 }))
  .map(([degrees, minutes]) => `${degrees} ${String(minutes).padStart(2, '0')}`);
const scaleValue = fc.oneof(
  fc.integer({ min: -50, max: 400 }).map((tenths) => String(tenths / 10)),
  fc.constantFrom(
    '1e308',
    '-1e308',
    'Infinity',
    'NaN',
    '0x1f',
    '12,5',
    '1e3',
    '9'.repeat(309),
    '-0',
    '.5',
    '5.',
  ),
);
/** A reading of any instrument; mostly of the one that the bench has. */
const readingOfAny = fc.oneof(
  angle,
  scaleValue,
  fc.constantFrom('231 04 / 51 05', 'left 229 21 right 132 48'),
);
const windowPair = angle.map((first) => {
  const [degrees = 0, minutes = ''] = first.split(' ');
  return `${first} / ${(Number(degrees) + 180) % 360} ${minutes}`;
});
function readingOf({ instrument: { method, windows } }: BenchForm): fc.Arbitrary<string> {
  const side = method === 'scale' ? scaleValue : windows === 2 ? windowPair : angle;
  const own =
    method === 'both-sides'
      ? fc.tuple(side, side).map(([left, right]) => `left ${left} right ${right}`)
      : side;
  return fc.oneof({ weight: 7, arbitrary: own }, { weight: 1, arbitrary: readingOfAny });
}
const words = fc.constantFrom(
  '',
  '',
  '',
  ' red',
  ' blue strong',
  ' check',
  ' weak',
  ' green check',
  ' mauve',
);
const wavelength = fc.oneof(
  { weight: 3, arbitrary: fc.constant('') },
  { weight: 1, arbitrary: fc.constantFrom('546.07 = ', '199 = ', '1201 = ', '435,83 = ', '587 nm = ') },
);
const lineOf = (form: BenchForm): fc.Arbitrary<string> =>
  fc.tuple(wavelength, readingOf(form), words).map((parts) => parts.join(''));

const long = fc
  .tuple(
    fc.constantFrom(
      ...[96, 110, most.nameCharacters, most.noteCharacters, most.remarkCharacters, 65_536].flatMap(around),
    ),
    fc.constantFrom('n', 'é', '𝛌', '"', '\\', ' x', 'a,'),
  )
  .map(([length, unit]) => unit.repeat(Math.ceil(length / unit.length)).slice(0, length));
const freeText = fc.oneof(
  fc.constantFrom('a note', 'tube 7', "1'", '30"', '0.1°', "60°00' ± 2'", '0.05', '2', 'mercury'),
  long,
  hostileText,
);

const marked = (text: string): string => `\x1b[200~${text}\x1b[201~`;
const bounds = [most.knownLines, most.unknownLines, most.repeats, most.checks].flatMap(around);
function pasteOf(line: fc.Arbitrary<string>): fc.Arbitrary<string> {
  const lines = (counts: readonly number[]) =>
    fc
      .tuple(fc.constantFrom(...counts), fc.array(line, { minLength: 1, maxLength: 6 }))
      .map(([count, some]) => Array.from({ length: count }, (_, at) => some[at % some.length]).join('\n'));
  return fc.oneof(
    lines([1, 2, 3, 7]).map(marked),
    lines(bounds).map(marked),
    freeText.map(marked),
    fc.tuple(freeText, freeText).map((both) => marked(both.join('\n'))),
  );
}

const key = fc.constantFrom(
  ...['\r', '\r', '\x1b', '\t', '\t', '\x1b[Z', '\x1b[A', '\x1b[B', '\x1b[C', '\x1b[D', '\x7f', '\x1b[3~'],
  ...['\x1b[H', '\x1b[F', '\x1b[5~', '\x1b[6~', '\x1a', '\x19', '\x10', '\x15', '\x01', '\x05'],
  ...['\x1bOQ', '\x1bOR', '\x1bOS', '\x1b[1;5C', '\x1b[1;5D'],
  // Every letter and sign, whatever it does here.
  ...Array.from({ length: 94 }, (_, at) => String.fromCharCode(33 + at)),
  ' ',
);
/** Leaves what is open and goes one stage on, or stays; the list of lamps opens by itself on an empty one. */
const place = fc.constantFrom(
  '',
  '\x1b\x1b\x1b',
  '\x1b\x1b\x1b\t\x1b',
  '\x1b\x1b\x1b\x1b[F',
  '\x1b\x1b\x1b\x1b[H',
  '\x1b[A',
);
/** Every action but leaving, which would end the sequence. */
const writing = fc.constantFrom(
  '+',
  '-',
  '',
  ...BENCH_ACTIONS.filter(({ id }) => id !== 'leave').map(({ id }) => act(id)),
);
/** Closes what is open and goes to a stage where readings are typed. */
const stage = fc.constantFrom('\x1b\x1b\x1b\t\x1b', '\x1b\x1b\x1b\t\x1b\t\x1b');
const field = fc.constantFrom('', '\x1b[B', '\x1b[B\x1b[B', '\x1b[B\x1b[B\x1b[B');

/** Something whole, as a person does it: a place, a key that begins it, the text, and Enter until it is taken. */
function deedOf(reading: fc.Arbitrary<string>, line: fc.Arbitrary<string>): fc.Arbitrary<string> {
  const enter = fc.constantFrom('\r\r', '\r');
  const typed = fc
    .oneof({ weight: 2, arbitrary: line }, freeText)
    .map((text) => text.replace(/[\r\n]/g, ' '));
  return fc
    .oneof(
      { weight: 3, arbitrary: fc.tuple(place, line, enter) },
      // As at the bench: one reading after another, an odd one by a second Enter, a refused one cleared.
      {
        weight: 6,
        arbitrary: fc.tuple(
          stage,
          fc
            .array(fc.oneof({ weight: 3, arbitrary: reading }, line), { minLength: 1, maxLength: 4 })
            .map((lines) => lines.map((each) => `\x15${each}\r\r`).join('')),
        ),
      },
      { weight: 3, arbitrary: fc.tuple(place, pasteOf(line), enter) },
      { weight: 4, arbitrary: fc.tuple(place, writing, typed, enter) },
      // Another instrument, with and without readings there.
      {
        weight: 1,
        arbitrary: fc.tuple(fc.constant('\x1b\x1b\x1b\x1b[H'), field, fc.constantFrom('\x1b[C', '\x1b[D')),
      },
      {
        weight: 1,
        arbitrary: fc.tuple(
          fc.constant('\x1b\x1b\x1b'),
          fc.constantFrom('\x1a', '\x1a\x1a\x1a', '\x19', '\x1b[3~', '\x1b[3~\x1b[3~\x1b[3~'),
        ),
      },
    )
    .map((parts) => parts.join(''));
}

function stepOf(form: BenchForm): fc.Arbitrary<Step> {
  const line = lineOf(form);
  return fc.oneof(
    { weight: 4, arbitrary: key },
    { weight: 1, arbitrary: pasteOf(line) },
    { weight: 12, arbitrary: deedOf(readingOf(form), line) },
    { weight: 1, arbitrary: fc.constantFrom('\x1b[200~', '\x1b[201~', '\x1b[200~229', '\x1b[20', '0~') },
    { weight: 2, arbitrary: fc.constantFrom<Step>({ does: 'compute' }, { does: 'pause' }) },
  );
}

const manyOf = (count: number) => Array.from({ length: count }, (_, at) => `${at % 360} 15`);
const knownLines = (count: number) =>
  manyOf(count).map((text) => ({ wavelengthNm: 546.07, readings: [text] as [string] }));
const tubeLines = (count: number) => manyOf(count).map((text) => ({ readings: [text] as [string] }));

const STARTS: readonly BenchForm[] = [
  BLANK_FORM,
  FILLED,
  { ...BLANK_FORM, instrument: { method: 'scale', leastCount: 0.1 } },
  {
    ...BLANK_FORM,
    instrument: { method: 'scale', leastCount: 0.1 },
    known: [
      {
        lamp: 'mercury',
        lines: [
          { wavelengthNm: 546.07, readings: [7] },
          { wavelengthNm: 435.83, readings: [9] },
        ],
      },
    ],
    unknown: [{ lines: [{ readings: [8] }] }],
  },
  { ...BLANK_FORM, instrument: { method: 'both-sides', leastCount: '30"', windows: 2 } },
  { ...BLANK_FORM, instrument: { method: 'central', leastCount: "1'", windows: 2 } },
  { ...BLANK_FORM, known: [{ lamp: 'mercury', lines: knownLines(most.knownLines - 1) }] },
  { ...BLANK_FORM, known: [{ lamp: 'mercury', lines: [], check: knownLines(most.checks - 1) }] },
  { ...BLANK_FORM, unknown: [{ lines: tubeLines(most.unknownLines - 1) }] },
  { ...BLANK_FORM, unknown: [{ lines: [{ readings: manyOf(most.repeats - 1) as [string, ...string[]] }] }] },
  {
    ...BLANK_FORM,
    unknown: Array.from({ length: most.tubes - 1 }, (_, at) => ({ label: `tube ${at + 1}`, lines: [] })),
  },
];

/** Computing a large bench is not what is tried here. */
function analyse(form: BenchForm) {
  const lines = [...form.known, ...form.unknown].reduce((sum, each) => sum + each.lines.length, 0);
  if (lines > 20) throw new Error('left out');
  return analyseFixture(form);
}

interface Played {
  readonly edits: number;
  readonly refused: number;
}

/** Plays the steps on a bench that keeps its record in the folder where the test runs. */
async function play(start: BenchForm, steps: readonly Step[]): Promise<Played> {
  // The disk is sound here, and waiting for it would be most of the time.
  const journal = new Journal('bench.json', { ...files, fsyncSync: () => {} });
  await journal.open(start);
  await journal.prepare();
  const bench = openBench(start, journal, analyse);
  let edits = 0;
  let refused = 0;
  for (const each of steps) {
    const before = bench.state();
    if (typeof each === 'string') bench.store.input(each);
    else if (each.does === 'pause') bench.pause();
    else bench.compute();
    const after = bench.state();
    if (isRefusal(after) && !isRefusal(before)) refused += 1;
    if (bench.hasQuit()) break;
    if (after.history.record === before.history.record) continue;
    edits += 1;
    expect(after.keeping).toEqual({ kind: 'saved' });
    const read = readRecord(readFileSync(after.fileName, 'utf8'));
    if (!read.ok) throw new Error(JSON.stringify(read.problems.slice(0, 3)));
    expect(isSameForm(formOf(read.record), after.history.record)).toBe(true);
  }
  const { record } = bench.state().history;
  bench.store.close();
  if (edits > 0) {
    const again = await new Journal(bench.state().fileName).open(BLANK_FORM);
    expect(again).toMatchObject({ notice: null, isBehind: false });
    expect(isSameForm(again.history.record, record)).toBe(true);
  }
  return { edits, refused };
}

function isRefusal({ entry, notice }: ScreenState): boolean {
  return `${entry.refusal} ${notice?.text}`.includes('could not be opened again');
}

export function describeRandomKeys({ sequences, longest }: KeysBudget): void {
  describe('keys at random', () => {
    it(`${sequences} sequences of up to ${longest}: after every edit the file opens and is what the screen holds`, async () => {
      const total = { edits: 0, refused: 0 };
      const sequence = fc
        .constantFrom(...STARTS)
        .chain((start) =>
          fc.tuple(
            fc.constant(start),
            fc.array(stepOf(start), { minLength: longest / 4, maxLength: longest }),
          ),
        );
      await fc.assert(
        fc.asyncProperty(sequence, ([start, steps]) =>
          insideFolder({}, async () => {
            const { edits, refused } = await play(start, steps);
            total.edits += edits;
            total.refused += refused;
          }),
        ),
        { numRuns: sequences },
      );
      // Both happen, or nothing has been tried.
      expect(total.edits).toBeGreaterThan(4 * sequences);
      expect(total.refused).toBeGreaterThan(0);
      console.info(`${sequences} sequences: ${total.edits} edits, ${total.refused} refused`);
    });
  });
}
