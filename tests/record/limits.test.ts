/** Each bound of the record: what lies on it is taken, what lies beyond is refused where it stands. */
import { describe, expect, it } from 'vitest';
import { most } from '../../src/record/limits.ts';
import { readRecord } from '../../src/record/read-record.ts';

type Plain = Record<string, unknown>;

const circle = { method: 'central', leastCount: "1'" };
const scale = { method: 'scale', leastCount: 0.1 };
const record = (parts: Plain): Plain => ({
  whichgas: 1,
  instrument: circle,
  ...(parts.instrument === undefined ? { central: ["181°04'"] } : {}),
  ...parts,
});
const line = { readings: ["229°39'"] };
const many = <Entry>(count: number, entry: Entry): Entry[] => Array<Entry>(count).fill(entry);
const text = (length: number): string => 'n'.repeat(length);

function refusedAt(parts: Plain): string[] {
  const read = readRecord(JSON.stringify(record(parts)));
  if (read.ok) return [];
  for (const { message } of read.problems) expect(message).not.toMatch(/NaN|Infinity|\d{25}/);
  return read.problems.map(({ place }) => place);
}

type Bound = readonly [place: string, most: number, parts: (count: number) => Plain];

const lists: readonly Bound[] = [
  ['known', most.lamps, (count) => ({ known: many(count, { lamp: 'mercury' }) })],
  ['unknown', most.tubes, (count) => ({ unknown: many(count, {}) })],
  ['known.lines', most.knownLines, (count) => ({ known: { lines: many(count, line) } })],
  ['unknown.lines', most.unknownLines, (count) => ({ unknown: { lines: many(count, line) } })],
  [
    'known.lines[0].readings',
    most.repeats,
    (count) => ({ known: { lines: [{ readings: many(count, "1°00'") }] } }),
  ],
  [
    'unknown.lines[0].readings',
    most.repeats,
    (count) => ({ unknown: { lines: [{ readings: many(count, "1°00'") }] } }),
  ],
  ['central', most.repeats, (count) => ({ central: many(count, "181°04'") })],
  ['unknown.central', most.repeats, (count) => ({ unknown: { central: many(count, "181°04'") } })],
  ['check', most.checks, (count) => ({ check: many(count, { wavelengthNm: 500, ...line }) })],
  [
    'known.check',
    most.checks,
    (count) => ({ known: { check: many(count, { wavelengthNm: 500, ...line }) } }),
  ],
  [
    'unknown.notSeen',
    most.notSeen,
    (count) => ({ unknown: { notSeen: many(count, { wavelengthNm: 500 }) } }),
  ],
  ['shelf', most.shelf, (count) => ({ shelf: many(count, 'neon') })],
  ['unknown.shelf', most.shelf, (count) => ({ unknown: { shelf: many(count, 'neon') } })],
  ['about.observers', most.observers, (count) => ({ about: { observers: many(count, 'A') } })],
  [
    'known',
    most.knownInAll.lines,
    (count) => ({ known: [{ lines: many(100, line) }, { lines: many(count - 100, line) }] }),
  ],
  [
    'known',
    most.knownInAll.readings,
    (count) => ({
      known: {
        lines: [...many(4, { readings: many(90, "1°00'") }), { readings: many(count - 560, "1°00'") }],
      },
      check: many(2, { wavelengthNm: 500, readings: many(100, "1°00'") }),
    }),
  ],
  [
    'unknown',
    most.unknownInAll.readings,
    (count) => ({
      unknown: {
        lines: [...many(124, { readings: many(96, "1°00'") }), { readings: many(count - 124 * 96, "1°00'") }],
      },
    }),
  ],
  [
    'unknown',
    most.unknownInAll.places,
    (count) => ({
      unknown: [200, 200, count - 400].map((places) => ({ notSeen: many(places, { wavelengthNm: 500 }) })),
    }),
  ],
];

it('takes as many full tubes as there may be tubes', () => {
  const tube = { lines: many(most.unknownLines, line) };
  expect(refusedAt({ unknown: many(most.tubes, tube) })).toEqual([]);
});

const texts: readonly Bound[] = [
  ['title', most.nameCharacters, (count) => ({ title: text(count) })],
  ['unknown.label', most.nameCharacters, (count) => ({ unknown: { label: text(count) } })],
  ['answer', most.nameCharacters, (count) => ({ unknown: {}, answer: text(count) })],
  ['unknown.answer', most.nameCharacters, (count) => ({ unknown: { answer: text(count) } })],
  [
    'unknown.lines[0].color',
    most.nameCharacters,
    (count) => ({ unknown: { lines: [{ ...line, color: text(count) }] } }),
  ],
  [
    'unknown.lines[0].colour',
    most.nameCharacters,
    (count) => ({ unknown: { lines: [{ ...line, colour: text(count) }] } }),
  ],
  [
    'known.lines[0].note',
    most.noteCharacters,
    (count) => ({ known: { lines: [{ ...line, note: text(count) }] } }),
  ],
  [
    'check[0].note',
    most.noteCharacters,
    (count) => ({ check: [{ ...line, wavelengthNm: 500, note: text(count) }] }),
  ],
  ...['date', 'station', 'lamp', 'tube', 'prism', 'slit', 'temperature', 'observers'].map(
    (key): Bound => [`about.${key}`, most.noteCharacters, (count) => ({ about: { [key]: text(count) } })],
  ),
  ['about.observers[0]', most.nameCharacters, (count) => ({ about: { observers: [text(count)] } })],
  ['about.remarks', most.remarkCharacters, (count) => ({ about: { remarks: text(count) } })],
];

describe('as many as there may be are taken, one more is refused', () => {
  it.each([...lists, ...texts])('%s: %i', (place, bound, parts) => {
    expect(refusedAt(parts(bound))).toEqual([]);
    expect(refusedAt(parts(bound + 1))).toEqual([place]);
  });

  it('also for a lamp and a shelf, whose names must be known besides', () => {
    expect(refusedAt({ known: { lamp: text(most.nameCharacters + 1) } })).toContain('known.lamp');
    expect(refusedAt({ unknown: { shelf: [text(most.nameCharacters + 1)] } })).toContain('unknown.shelf[0]');
  });
});

const onScale = (reading: number) => ({ instrument: scale, known: { lines: [{ readings: [reading] }] } });
const apex = (apexAngle: unknown) => ({ instrument: { ...circle, apexAngle }, central: [] });

type Numbers = readonly [
  place: string,
  parts: (value: number) => Plain,
  taken: readonly number[],
  refused: readonly number[],
];

const huge = [1e9, 1e100, 1e308, -1e308];

const numbers: readonly Numbers[] = [
  ['known.lines[0].readings[0]', onScale, [0, -1e6, 1e6, 1e-9], [1_000_001, -1_000_001, ...huge]],
  [
    'unknown.notSeen[0].reading',
    (reading) => ({ instrument: scale, unknown: { notSeen: [{ reading }] } }),
    [12.3],
    huge,
  ],
  [
    'check[0].readings[0]',
    (reading) => ({ instrument: scale, check: [{ wavelengthNm: 500, readings: [reading] }] }),
    [12.3],
    huge,
  ],
  [
    'instrument.leastCount',
    (leastCount) => ({ instrument: { ...scale, leastCount } }),
    [0.000001, 0.1, 10_000],
    [0, -1, 0.0000009, 1e-300, 10_001, ...huge],
  ],
  ['instrument.apexAngle', apex, [5, 60, 119.9], [0, 1e-300, 4.9, 120, 180, 361, ...huge]],
  ['instrument.apexAngle.value', (value) => apex({ value, u: 0.1 }), [5, 119.9], [4.9, 120, ...huge]],
  [
    'instrument.apexAngle.u',
    (u) => apex({ value: 60, u }),
    [0, 0.00001, 10],
    [1e-300, 1e-6, 10.1, -0.1, ...huge],
  ],
  ['central[0]', (value) => ({ central: [value] }), [-360, 0, 720], [-361, 721, ...huge]],
  [
    'known.lines[0].readings[0]',
    (value) => ({ known: { lines: [{ readings: [value] }] } }),
    [-360, 0, 720],
    [-361, 721, ...huge],
  ],
  ...(
    [
      ['known.lines[0].wavelengthNm', (wavelengthNm) => ({ known: { lines: [{ ...line, wavelengthNm }] } })],
      ['check[0].wavelengthNm', (wavelengthNm) => ({ check: [{ ...line, wavelengthNm }] })],
      ['known.check[0].wavelengthNm', (wavelengthNm) => ({ known: { check: [{ ...line, wavelengthNm }] } })],
      ['unknown.notSeen[0].wavelengthNm', (wavelengthNm) => ({ unknown: { notSeen: [{ wavelengthNm }] } })],
      [
        'instrument.setAtNm',
        (setAtNm) => ({ instrument: { ...circle, prism: 'fixed', setAtNm }, central: [] }),
      ],
    ] as readonly (readonly [string, (value: number) => Plain])[]
  ).map(([place, parts]): Numbers => [place, parts, [200, 1200], [199.9, 1200.1, 0, ...huge]]),
];

describe('numbers that no instrument shows are refused where they stand', () => {
  it.each(numbers)('%s', (place, parts, taken, refused) => {
    for (const value of taken) expect([value, refusedAt(parts(value))]).toEqual([value, []]);
    for (const value of refused) expect([value, refusedAt(parts(value))]).toEqual([value, [place]]);
  });

  it.each(['1e999', '-1e999', `${'9'.repeat(400)}`])('%s, which no number holds', (digits) => {
    const sound = JSON.stringify(
      record({ central: ['HERE'], known: { lines: [{ ...line, wavelengthNm: 'THERE' }] } }),
    );
    const read = readRecord(sound.replace('"HERE"', digits).replace('"THERE"', digits));
    expect(read.ok ? [] : read.problems).toEqual([
      { place: 'central[0]', message: expect.stringMatching(/^must be /) },
      {
        place: 'known.lines[0].wavelengthNm',
        message: 'must be a number, not one that no number can hold',
      },
    ]);
  });
});
