/**
 * The bench record as it stands in a file. Shape only: what an angle text says, and whether it suits the
 * instrument, is looked at when the record is turned into a bench.
 */
// The small form of zod: making the schema of the full one takes a start several times as long.
import Fuse from 'fuse.js';
import * as z from 'zod/mini';
import { quoteText } from '../angle/quote-text.ts';
import { methods } from './bench.ts';
import { most, statedNm } from './limits.ts';
import { otherUnitMeant } from './other-unit.ts';

/** An object in which an unknown key is an error that names the key and the one probably meant. */
function strict<Shape extends z.core.$ZodLooseShape>(shape: Shape) {
  return z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys' ? unknownKeys(issue.keys, Object.keys(shape)) : undefined,
  });
}

function unknownKeys(keys: readonly string[], known: readonly string[]): string {
  const named = keys.slice(0, 5).map((key) => suggestKey(key, known));
  const more = keys.length > 5 ? `; and ${keys.length - 5} more unknown keys` : '';
  return named.join('; ') + more;
}

/** `unknown key "colr"; did you mean "color"?` */
function suggestKey(key: string, known: readonly string[]): string {
  const nearest = new Fuse(known, { threshold: 0.45 })
    .search(key.slice(0, 32))
    // A short word is found somewhere inside every long one.
    .find(({ item }) => item.length <= 2 * key.length)?.item;
  const quoted = quoteText(key);
  return `unknown key ${quoted.startsWith('"') ? quoted : `"${quoted}"`}${
    nearest === undefined ? `; here there can be ${known.join(', ')}` : `; did you mean "${nearest}"?`
  }`;
}

const list = <Entry extends z.ZodMiniType>(entry: Entry, length: number) =>
  z.array(entry).check(z.maxLength(length));

const text = (length: number) => z.string().check(z.maxLength(length));
const name = text(most.nameCharacters);
const note = text(most.noteCharacters);

/** One object or a list of them; a list either way once it is read. */
const oneOrMany = <Entry extends z.ZodMiniType>(entry: Entry, length: number) =>
  z._default(
    z.pipe(
      z.union([entry, list(entry, length)]),
      z.transform((given): z.output<Entry>[] =>
        Array.isArray(given) ? (given as z.output<Entry>[]) : [given as z.output<Entry>],
      ),
    ),
    [],
  );

const inAnotherUnit = (bound: string) => ({
  error: ({ input }: { readonly input?: unknown }) =>
    `must be ${bound}, not ${String(input)}${otherUnitMeant(Number(input))}`,
});
const wavelengthNm = z
  .number()
  .check(
    z.minimum(statedNm.shortest, inAnotherUnit(`${statedNm.shortest} or more`)),
    z.maximum(statedNm.longest, inAnotherUnit(`${statedNm.longest} or less`)),
  );

const window = z.union([z.string(), z.number()]);
const side = z.union([window, z.tuple([window, window])]);
const reading = z.union([side, strict({ left: side, right: side })]);
const readings = list(reading, most.repeats).check(z.minLength(1));

const seenLineShape = {
  readings,
  color: z.optional(name),
  colour: z.optional(name),
  brightness: z.optional(z.enum(['strong', 'medium', 'weak'])),
  note: z.optional(note),
};
const lineShape = { ...seenLineShape, use: z.optional(z.boolean()) };

/** `colour` is another spelling of `color`; the record keeps one. */
function oneSpelling<Line extends { color?: string | undefined; colour?: string | undefined }>(line: Line) {
  const { colour, ...rest } = line;
  return colour === undefined ? rest : { ...rest, color: rest.color ?? colour };
}

const knownLine = z.pipe(
  strict({
    wavelengthNm: z.optional(wavelengthNm),
    ...lineShape,
    confirmed: z.optional(z.boolean()),
  }),
  z.transform(oneSpelling),
);

const unknownLine = z.pipe(strict(lineShape), z.transform(oneSpelling));

/** A known line kept out of the fit keeps what was noted about it. */
const checks = list(
  z.pipe(strict({ wavelengthNm, ...seenLineShape }), z.transform(oneSpelling)),
  most.checks,
);

const ranking = z.enum(['always', 'after-answer']);

const knownLamp = strict({
  lamp: z.optional(name),
  lines: z._default(list(knownLine, most.knownLines), []),
  check: z.optional(checks),
  // A station whose lamp is prepared for an exercise.
  ranking: z.optional(ranking),
});

const notSeenPlace = strict({
  reading: z.optional(reading),
  wavelengthNm: z.optional(wavelengthNm),
}).check(
  z.refine((place) => (place.reading === undefined) !== (place.wavelengthNm === undefined), {
    error: 'must have either a "reading" or a "wavelengthNm"',
  }),
);
// A refinement does not reach the JSON Schema by itself.
notSeenPlace.register(z.globalRegistry, {
  oneOf: [{ required: ['reading'] }, { required: ['wavelengthNm'] }],
});

const answering = {
  shelf: z.optional(list(name, most.shelf)),
  answer: z.optional(name),
  ranking: z.optional(ranking),
  answerBeforeRanking: z.optional(z.boolean()),
};

const unknownTube = strict({
  label: z.optional(name),
  central: z.optional(list(side, most.repeats)),
  lines: z._default(list(unknownLine, most.unknownLines), []),
  notSeen: z.optional(list(notSeenPlace, most.notSeen)),
  complete: z.optional(z.boolean()),
  ...answering,
});

const instrument = strict({
  method: z.enum(methods),
  leastCount: window,
  scaleDivision: z.optional(window),
  windows: z.optional(z.union([z.literal(1), z.literal(2)])),
  prism: z.optional(z.enum(['each-line', 'fixed'])),
  setAtNm: z.optional(wavelengthNm),
  apexAngle: z.optional(
    z.union([
      window,
      strict({ value: window, u: z.optional(window) }),
      strict({ readings: strict({ left: side, right: side }) }),
    ]),
  ),
});

const about = strict({
  date: z.optional(note),
  observers: z.optional(z.union([note, list(name, most.observers)])),
  station: z.optional(note),
  lamp: z.optional(note),
  tube: z.optional(note),
  prism: z.optional(note),
  slit: z.optional(note),
  temperature: z.optional(note),
  remarks: z.optional(text(most.remarkCharacters)),
});

export const benchRecordSchema = strict({
  whichgas: z.literal(1),
  title: z.optional(name),
  instrument,
  central: z.optional(list(side, most.repeats)),
  known: oneOrMany(knownLamp, most.lamps),
  unknown: oneOrMany(unknownTube, most.tubes),
  check: z.optional(checks),
  ...answering,
  about: z.optional(about),
});

/** A record as the program holds it: `known` and `unknown` are lists, everything else as it was written. */
export type BenchRecord = z.output<typeof benchRecordSchema>;
export type KnownLampRecord = BenchRecord['known'][number];
export type UnknownTubeRecord = BenchRecord['unknown'][number];
export type UnknownLineRecord = UnknownTubeRecord['lines'][number];
export type InstrumentRecord = BenchRecord['instrument'];
/** One reading: `"232°41'"`, a number, `["A","B"]`, or `{ left, right }`. */
export type ReadingValue = z.output<typeof reading>;
/** What was read on one side: a text, a number, or a pair for two windows. */
export type SideValue = z.output<typeof side>;
