/**
 * The bench record as it stands in a file. Shape only: what an angle text says, and whether it suits the
 * instrument, is looked at when the record is turned into a bench.
 */
import * as z from 'zod';
import { suggestKey } from './suggest-key.ts';

/** Most lines of one lamp or tube, and most entries of any other list. */
export const mostEntries = 500;

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

const list = <Entry extends z.ZodType>(entry: Entry) => z.array(entry).max(mostEntries);

/** One object or a list of them; a list either way once it is read. */
const oneOrMany = <Entry extends z.ZodType>(entry: Entry) =>
  z
    .union([entry, list(entry)])
    .transform((given): z.output<Entry>[] =>
      Array.isArray(given) ? (given as z.output<Entry>[]) : [given as z.output<Entry>],
    )
    .default([]);

const wavelengthNm = z.number().min(200).max(1200);

const window = z.union([z.string(), z.number()]);
const side = z.union([window, z.tuple([window, window])]);
const reading = z.union([side, strict({ left: side, right: side })]);
const readings = list(reading).min(1);

const seenLineShape = {
  readings,
  color: z.string().optional(),
  colour: z.string().optional(),
  brightness: z.enum(['strong', 'medium', 'weak']).optional(),
  note: z.string().optional(),
};
const lineShape = { ...seenLineShape, use: z.boolean().optional() };

/** `colour` is another spelling of `color`; the record keeps one. */
function oneSpelling<Line extends { color?: string | undefined; colour?: string | undefined }>(line: Line) {
  const { colour, ...rest } = line;
  return colour === undefined ? rest : { ...rest, color: rest.color ?? colour };
}

const knownLine = strict({
  wavelengthNm: wavelengthNm.optional(),
  ...lineShape,
  confirmed: z.boolean().optional(),
}).transform(oneSpelling);

const unknownLine = strict(lineShape).transform(oneSpelling);

/** A known line kept out of the fit keeps what was noted about it. */
const checks = list(strict({ wavelengthNm, ...seenLineShape }).transform(oneSpelling));

const knownLamp = strict({
  lamp: z.string().optional(),
  lines: list(knownLine).default([]),
  check: checks.optional(),
});

const notSeenPlace = strict({ reading: reading.optional(), wavelengthNm: wavelengthNm.optional() })
  .refine((place) => (place.reading === undefined) !== (place.wavelengthNm === undefined), {
    error: 'must have either a "reading" or a "wavelengthNm"',
  })
  // A refinement does not reach the JSON Schema by itself.
  .meta({ oneOf: [{ required: ['reading'] }, { required: ['wavelengthNm'] }] });

const answering = {
  shelf: list(z.string()).optional(),
  answer: z.string().optional(),
  ranking: z.enum(['always', 'after-answer']).optional(),
  answerBeforeRanking: z.boolean().optional(),
};

const unknownTube = strict({
  label: z.string().optional(),
  central: list(side).optional(),
  lines: list(unknownLine).default([]),
  notSeen: list(notSeenPlace).optional(),
  complete: z.boolean().optional(),
  ...answering,
});

const instrument = strict({
  method: z.enum(['central', 'both-sides', 'scale']),
  leastCount: window,
  scaleDivision: window.optional(),
  windows: z.union([z.literal(1), z.literal(2)]).optional(),
  prism: z.enum(['each-line', 'fixed']).optional(),
  setAtNm: wavelengthNm.optional(),
  apexAngle: z
    .union([
      window,
      strict({ value: window, u: window.optional() }),
      strict({ readings: strict({ left: side, right: side }) }),
    ])
    .optional(),
});

const about = strict({
  date: z.string().optional(),
  observers: z.union([z.string(), list(z.string())]).optional(),
  station: z.string().optional(),
  lamp: z.string().optional(),
  tube: z.string().optional(),
  prism: z.string().optional(),
  slit: z.string().optional(),
  temperature: z.string().optional(),
  remarks: z.string().optional(),
});

export const benchRecordSchema = strict({
  whichgas: z.literal(1),
  title: z.string().optional(),
  instrument,
  central: list(side).optional(),
  known: oneOrMany(knownLamp),
  unknown: oneOrMany(unknownTube),
  check: checks.optional(),
  ...answering,
  about: about.optional(),
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
