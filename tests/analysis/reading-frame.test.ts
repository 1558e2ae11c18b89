/** A wavelength turned into a reading, and that reading into a wavelength: both count from one central image. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { calibratedBench, convertReading } from '../../src/analysis/convert.ts';
import { onlyTube, readingFrame } from '../../src/analysis/reading-frame.ts';
import { cribOnBench } from '../../src/analysis/station-lines.ts';
import { tubes } from '../../src/lines/table.ts';
import type { Bench, UnknownTube } from '../../src/record/bench.ts';
import { countedFromSentence } from '../../src/words/counted-from.ts';
import {
  benchOf,
  GlassReader,
  heliumNm,
  knownLamp,
  linesAt,
  mercuryNm,
  neonNm,
  type PlainRecord,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';

/** The bench after its circle was turned by so much; `side`: on which the lines lie. */
const on = (arcmin: number, side: 1 | -1 = 1): GlassReader =>
  new GlassReader({ centralDeg: 181 + (4 + arcmin) / 60, side });
const helium = (reader: GlassReader) => knownLamp(reader, { lamp: 'helium', lines: linesAt(heliumNm) });
const mercury = (reader: GlassReader) => knownLamp(reader, { lamp: 'mercury', lines: linesAt(mercuryNm) });
const neon = (reader: GlassReader, more: PlainRecord = {}) => unknownTube(reader, neonNm, more);
const own = (reader: GlassReader, more: PlainRecord = {}) =>
  neon(reader, { central: [reader.central()], ...more });

const placesNm = [450, 500, 550, 600, 650];

/** What is printed for wavelengths, and what each of these readings is converted to. */
function thereAndBack(record: PlainRecord, tubeOf: (bench: Bench) => UnknownTube | null, other?: Bench) {
  const options = other === undefined ? {} : { calibrationFrom: other };
  const { bench, calibration } = analyseBench(benchOf(record), options);
  const calibrated = other === undefined ? bench : calibratedBench(other);
  const of = tubeOf(bench);
  const wanted = placesNm.map((nm) => ({
    substance: null,
    wavelengthNm: nm,
    colour: 'green' as const,
    brightness: null,
  }));
  return cribOnBench(readingFrame(bench, calibration, of, calibrated), wanted).map((place) => {
    const [, degrees, minutes] = /^(\d+)°(\d+)'$/.exec(place.reading!)!;
    const windows = [Number(degrees) + Number(minutes) / 60];
    const reading = { text: place.reading!, setting: { kind: 'one-side' as const, windows } };
    const back = convertReading(bench, calibration, reading, tubes, calibrated, of);
    return { place, back, curve: calibration.curve! };
  });
}

describe('a place converted back is the wavelength that was asked for', () => {
  const sharedNow = recordOf(on(0), { known: [helium(on(0)), mercury(on(8))], unknown: neon(on(8)) });
  const yesterday = benchOf(recordOf(on(0), { known: helium(on(0)) }));
  const mirrored = benchOf(recordOf(on(0, -1), { known: helium(on(0, -1)) }));
  test.each<
    readonly [string, PlainRecord, (bench: Bench) => UnknownTube | null, GlassReader, Bench | undefined]
  >([
    ['of a bench without a tube', recordOf(on(0)), () => null, on(0), undefined],
    [
      'of the only tube with its own central image',
      recordOf(on(0), { unknown: own(on(12)) }),
      onlyTube,
      on(12),
      undefined,
    ],
    [
      'of two tubes, the second with its own',
      recordOf(on(0), { unknown: [neon(on(0)), own(on(12))] }),
      ({ tubes: [, second] }) => second!,
      on(12),
      undefined,
    ],
    [
      'of two tubes, of none of them',
      recordOf(on(0), { unknown: [own(on(12)), own(on(20))] }),
      onlyTube,
      on(0),
      undefined,
    ],
    ['on a bench that was moved', sharedNow, onlyTube, on(8), undefined],
    [
      'on a bench that was moved, with its own central image',
      recordOf(on(0), { known: [helium(on(0)), mercury(on(8))], unknown: own(on(20)) }),
      onlyTube,
      on(20),
      undefined,
    ],
    [
      'with a calibration of yesterday',
      recordOf(on(40), { known: { lines: [] }, unknown: neon(on(40)) }),
      onlyTube,
      on(40),
      yesterday,
    ],
    [
      'with a calibration of yesterday, its lines at smaller angles, before anything was read',
      recordOf(on(40, -1), { known: { lines: [] }, unknown: { lines: [] } }),
      onlyTube,
      on(40, -1),
      mirrored,
    ],
  ])('%s', (_, record, tubeOf, reader, other) => {
    for (const { place, back } of thereAndBack(record, tubeOf, other)) {
      // To the nearest minute, 2 nm in the red at the most.
      expect(Math.abs(back.wavelengthNm! - place.wavelengthNm)).toBeLessThan(2);
      expect(60 * Math.abs(back.deviationDeg! - place.deviationDeg!)).toBeLessThan(0.51);
      // And it is where the line stands on the glass.
      const [, degrees, minutes] = /^(\d+)°(\d+)'$/.exec(reader.line(place.wavelengthNm))!;
      const [, at, and] = /^(\d+)°(\d+)'$/.exec(place.reading!)!;
      expect(
        Math.abs(60 * (Number(at) - Number(degrees)) + Number(and) - Number(minutes)),
      ).toBeLessThanOrEqual(1);
    }
  });

  test('the u of a place has both central readings in it where the tube has its own', () => {
    const [shared, apart] = [neon(on(0)), own(on(0))].map(
      (unknown) => thereAndBack(recordOf(on(0), { unknown }), onlyTube)[2]!,
    );
    expect(shared!.place.standardUncertainty! ** 2).toBeCloseTo(shared!.curve.covariance(550, 550), 12);
    // Two readings to a minute, rounded: 2 · (1/12 + 1/50) arcmin² at the least.
    const added = apart!.place.standardUncertainty! ** 2 - apart!.curve.covariance(550, 550);
    expect(added).toBeGreaterThan(2 * (1 / 12 + 1 / 50));
    expect(added).toBeLessThan(1.5);
  });
});

describe('which central image it is', () => {
  const sentence = (unknown: PlainRecord | PlainRecord[], at?: number): string | null => {
    const { bench } = analyseBench(benchOf(recordOf(on(0), { unknown })));
    return countedFromSentence(bench, at === undefined ? onlyTube(bench) : bench.tubes[at]!);
  };

  test('is not said where there is one, or another that stands where it does', () => {
    expect(sentence(neon(on(0)))).toBeNull();
    expect(sentence(own(on(0)))).toBeNull();
  });

  test('is said where the tubes have others', () => {
    expect(sentence(own(on(12), { label: 'tube C' }))).toBe(
      "counted from the central image of tube C, 181°16'",
    );
    expect(sentence([neon(on(0), { label: 'tube A' }), own(on(12), { label: 'tube C' })])).toBe(
      'counted from the record\'s central image; tube C has its own: --tube "tube C" counts from that',
    );
    expect(sentence([neon(on(0), { label: 'tube A' }), own(on(12), { label: 'tube C' })], 0)).toBe(
      "counted from the record's central image, which tube A shares; tube C has its own",
    );
  });
});
