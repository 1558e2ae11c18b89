/** A station as an instructor describes it, made into a record without readings. */
import { quoteText } from '../angle/quote-text.ts';
import { findLamp } from '../lines/names.ts';
import type { Bench } from '../record/bench.ts';
import { readableText } from '../record/readable-text.ts';
import type { BenchRecord } from '../record/schema.ts';
import { type InstrumentField, instrumentOf } from './instrument-texts.ts';
import { madeRecord, unusableRecord } from './load-bench.ts';
import { expectedNames, listedIn, type StationField, type StationRow, tubeLabels } from './station-table.ts';
import { tubeArgument } from './tube-arguments.ts';
import { atPlace, UserError } from './user-error.ts';

export interface PreparedStation {
  readonly row: StationRow;
  readonly record: BenchRecord;
  readonly bench: Bench;
  /** The record as a file's text. */
  readonly text: string;
}

/** The record of a station: an exercise, whose ranking is kept back until an answer is written. Throws UserError. */
export function preparedStation(row: StationRow): PreparedStation {
  const { texts, placeOf } = row;
  const { title, station, date, prism, apex } = texts;
  const lamp = lampOf(row);
  // What is in the tubes goes into no record; what is wrong with it is said all the same.
  expectedNames(row);
  const instrument = instrumentOf(texts, (field: InstrumentField) => placeOf(field));
  const shelf = listedIn(texts.shelf).map((name) => atPlace(placeOf('shelf'), () => tubeArgument(name)));
  const written = {
    whichgas: 1,
    title: title ?? (station === null ? 'An exercise' : `Station ${station}`),
    instrument: { ...instrument, ...(apex === null ? {} : { apexAngle: apex }) },
    known: { lamp, lines: [] },
    unknown: tubeLabels(row).map((label) => ({ ...(label === null ? {} : { label }), lines: [] })),
    ...(shelf.length === 0 ? {} : { shelf }),
    ranking: 'after-answer',
    about: {
      ...(date === null ? {} : { date }),
      ...(station === null ? {} : { station }),
      ...(prism === null ? {} : { prism }),
    },
  };
  const placeIn = (place: string): string => placeOf(fieldOf(place));
  const { record, bench } = madeRecord(placeOf('station'), written, placeIn);
  const readable = readableText(record);
  if (!readable.ok) throw unusableRecord(placeOf('station'), readable.problems, placeIn);
  return { row, record, bench, text: readable.text };
}

function lampOf({ texts, placeOf }: StationRow): string {
  if (texts.lamp === null)
    throw new UserError(`${placeOf('lamp')} is missing: the known lamp, such as mercury`);
  const found = findLamp(texts.lamp);
  if ('substances' in found) return texts.lamp;
  const near = found.suggestions.length === 0 ? '' : `; did you mean ${found.suggestions.join(' or ')}?`;
  throw new UserError(`${placeOf('lamp')}: ${quoteText(texts.lamp)} is not a lamp of the line table${near}`);
}

/** What of a station a place of its record was made from. */
function fieldOf(place: string): StationField {
  const made: readonly (readonly [string, StationField])[] = [
    ['instrument.leastCount', 'leastCount'],
    ['instrument.apexAngle', 'apex'],
    ['instrument.windows', 'windows'],
    ['instrument', 'method'],
    ['title', 'title'],
    ['known', 'lamp'],
    ['unknown', 'tube'],
    ['shelf', 'shelf'],
    ['about.date', 'date'],
    ['about.prism', 'prism'],
  ];
  return made.find(([start]) => place.startsWith(start))?.[1] ?? 'station';
}
