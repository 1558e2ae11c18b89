/** Every text of a reading in a record: to look at, or to write anew. */
import { placeIn } from './place-in.ts';
import type { BenchRecord, ReadingValue, SideValue } from './schema.ts';

/** What holds readings: a record, or the part of one that a table fills. */
export type ReadingsHolder = Pick<BenchRecord, 'central' | 'known' | 'unknown'> &
  Partial<Pick<BenchRecord, 'instrument' | 'check'>>;

/** `change` is given each text and its place; numbers stay as they are. */
export function withReadingTexts<Holder extends ReadingsHolder>(
  record: Holder,
  change: (text: string, place: string) => string,
): Holder {
  const window = (value: string | number, place: string) =>
    typeof value === 'string' ? change(value, place) : value;
  const side = (value: SideValue, place: string): SideValue =>
    Array.isArray(value) ? [window(value[0], place), window(value[1], place)] : window(value, place);
  const reading = (value: ReadingValue, place: string): ReadingValue =>
    typeof value === 'object' && 'left' in value
      ? { left: side(value.left, `${place}.left`), right: side(value.right, `${place}.right`) }
      : side(value, place);
  const sides = (values: readonly SideValue[], place: string) =>
    values.map((value, at) => side(value, `${place}[${at}]`));
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
            apexAngle: {
              readings: {
                left: side(images.left, `${reflections}.left`),
                right: side(images.right, `${reflections}.right`),
              },
            },
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
