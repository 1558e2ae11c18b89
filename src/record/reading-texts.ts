/** Every text or number of a reading in a record: to look at, or to write anew. */
import { placeIn } from './place-in.ts';
import type { BenchRecord, ReadingValue, SideValue } from './schema.ts';

/** What holds readings: a record, or the part of one that a table fills. */
export type ReadingsHolder = Pick<BenchRecord, 'central' | 'known' | 'unknown'> &
  Partial<Pick<BenchRecord, 'instrument' | 'check'>>;

type ChangedText = (text: string, place: string) => string;
type ChangedValue = (value: string | number, place: string) => string | number;

/** Of one reading: `change` is given each text and its place under `at`; numbers stay as they are. */
export function withWindowTexts(value: ReadingValue, at: string, change: ChangedText): ReadingValue {
  return withWindowValues(value, at, ofTexts(change));
}

const ofTexts =
  (change: ChangedText): ChangedValue =>
  (value, place) =>
    typeof value === 'string' ? change(value, place) : value;

function withWindowValues(value: ReadingValue, at: string, change: ChangedValue): ReadingValue {
  return typeof value === 'object' && 'left' in value
    ? {
        left: withSideValues(value.left, `${at}.left`, change),
        right: withSideValues(value.right, `${at}.right`, change),
      }
    : withSideValues(value, at, change);
}

function withSideValues(value: SideValue, at: string, change: ChangedValue): SideValue {
  return Array.isArray(value) ? [change(value[0], at), change(value[1], at)] : change(value, at);
}

/** `change` is given each text and its place; numbers stay as they are. */
export function withReadingTexts<Holder extends ReadingsHolder>(record: Holder, change: ChangedText): Holder {
  return withReadingValues(record, ofTexts(change));
}

/** `change` is given each text or number and its place. */
export function withReadingValues<Holder extends ReadingsHolder>(
  record: Holder,
  change: ChangedValue,
): Holder {
  const reading = (value: ReadingValue, place: string) => withWindowValues(value, place, change);
  const sides = (values: readonly SideValue[], place: string) =>
    values.map((value, at) => withSideValues(value, `${place}[${at}]`, change));
  const lines = <Line extends { readonly readings: readonly ReadingValue[] }>(
    list: readonly Line[],
    place: string,
  ): Line[] =>
    list.map((line, at) => ({
      ...line,
      readings: line.readings.map((value, i) => reading(value, `${place}[${at}].readings[${i}]`)),
    }));
  const { instrument, central, known, check, unknown } = record;
  const apexAngle = instrument?.apexAngle;
  const images = typeof apexAngle === 'object' && 'readings' in apexAngle ? apexAngle.readings : null;
  const reflections = 'instrument.apexAngle.readings';
  return {
    ...record,
    ...(images === null
      ? {}
      : {
          instrument: {
            ...instrument,
            apexAngle: { readings: withWindowValues(images, reflections, change) },
          },
        }),
    ...(central === undefined ? {} : { central: sides(central, 'central') }),
    known: known.map((lamp, at) => {
      const place = placeIn('known', known, at);
      return {
        ...lamp,
        lines: lines(lamp.lines, `${place}.lines`),
        ...(lamp.check === undefined ? {} : { check: lines(lamp.check, `${place}.check`) }),
      };
    }),
    ...(check === undefined ? {} : { check: lines(check, 'check') }),
    unknown: unknown.map((tube, at) => {
      const place = placeIn('unknown', unknown, at);
      return {
        ...tube,
        ...(tube.central === undefined ? {} : { central: sides(tube.central, `${place}.central`) }),
        lines: lines(tube.lines, `${place}.lines`),
        ...(tube.notSeen === undefined
          ? {}
          : {
              notSeen: tube.notSeen.map((entry, i) =>
                entry.reading === undefined
                  ? entry
                  : { ...entry, reading: reading(entry.reading, `${place}.notSeen[${i}].reading`) },
              ),
            }),
      };
    }),
  };
}
