/** Every text of a reading in a record: to look at, or to write anew. */
import { placeIn } from './place-in.ts';
import type { BenchRecord, ReadingValue, SideValue } from './schema.ts';

/** What holds readings: a record, or the part of one that a table fills. */
export type ReadingsHolder = Pick<BenchRecord, 'central' | 'known' | 'unknown'> &
  Partial<Pick<BenchRecord, 'instrument' | 'check'>>;

/** Of one reading: `change` is given each text and its place under `at`; numbers stay as they are. */
export function withWindowTexts(
  value: ReadingValue,
  at: string,
  change: (text: string, place: string) => string,
): ReadingValue {
  return typeof value === 'object' && 'left' in value
    ? {
        left: withSideTexts(value.left, `${at}.left`, change),
        right: withSideTexts(value.right, `${at}.right`, change),
      }
    : withSideTexts(value, at, change);
}

function withSideTexts(
  value: SideValue,
  at: string,
  change: (text: string, place: string) => string,
): SideValue {
  const window = (text: string | number) => (typeof text === 'string' ? change(text, at) : text);
  return Array.isArray(value) ? [window(value[0]), window(value[1])] : window(value);
}

/** `change` is given each text and its place; numbers stay as they are. */
export function withReadingTexts<Holder extends ReadingsHolder>(
  record: Holder,
  change: (text: string, place: string) => string,
): Holder {
  const reading = (value: ReadingValue, place: string) => withWindowTexts(value, place, change);
  const sides = (values: readonly SideValue[], place: string) =>
    values.map((value, at) => withSideTexts(value, `${place}[${at}]`, change));
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
            apexAngle: { readings: withWindowTexts(images, reflections, change) },
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
