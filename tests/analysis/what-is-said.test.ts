/** Sentences that must be true of the record they are said of. */
import { expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { formatAngle } from '../../src/angle/format-angle.ts';
import { calibrationSentence } from '../../src/present/calibrate-text.ts';
import {
  benchOf,
  GlassReader,
  heliumNm,
  knownLamp,
  linesAt,
  mercuryNm,
  type PlainRecord,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';

const reader = new GlassReader();
const analysed = (known: object, unknown: object = {}) =>
  analyseBench(benchOf(recordOf(reader, { known, ...unknown })));
const mercury = linesAt(mercuryNm.slice(1));

test('a curve drawn through the lines of another lamp is not said to be that of the lamp named', () => {
  const read = [667.82, 587.56, 501.57, 492.19, 471.31, 447.15];
  const stated = [690.75, 579.07, 546.07, 491.61, 435.83, 404.66];
  const lines = read.map((nm, i) => ({ nm, statedNm: stated[i]! }));
  const misnamed = analysed(knownLamp(reader, { lamp: 'mercury', lines }));
  expect(calibrationSentence(misnamed.bench, misnamed.calibration)).toContain('so named in the record');
  const sound = analysed(knownLamp(reader, { lamp: 'mercury', lines: mercury }));
  expect(calibrationSentence(sound.bench, sound.calibration)).toMatch(/^Calibration on mercury: /);
});

test('a lamp that the record does not name is a lamp', () => {
  const { lines } = knownLamp(reader, { lamp: 'mercury', lines: mercury });
  const named = (known: object) => {
    const { bench, calibration } = analysed(known);
    return calibrationSentence(bench, calibration).replaceAll(/\s+/g, ' ');
  };
  expect(named({ lines })).toMatch(/^Calibration on a lamp without a name: 7 of 7 lines/);
  expect(named([{ lines }, { lamp: 'helium', lines: [] }])).toMatch(
    /^Calibration on a lamp without a name \+ helium: /,
  );
  expect(named({ lines: [] })).toBe('Calibration on no known lamp: not possible yet.');
});

test('a wavelength marked confirmed is not called a misprint', () => {
  const said = (more: PlainRecord): string =>
    analysed(
      knownLamp(reader, {
        lamp: 'helium',
        lines: linesAt(heliumNm).map((line, i) => (i === 3 ? { ...line, slipArcmin: 51, more } : line)),
      }),
    ).calibration.doubts[0]!.message;
  expect(said({ confirmed: true })).toContain('marked confirmed: read it again');
  expect(said({ confirmed: true })).not.toContain('misprint');
});

test('minutes written as seconds are quoted as they were written', () => {
  const tube = unknownTube(reader, [667.82, 587.56, 492.19, 471.31, 447.15]);
  const green = reader.line(501.57).replace("'", '"');
  const lines = [...(tube.lines as object[]), { readings: [green] }];
  const [first] = analysed(knownLamp(reader, { lamp: 'mercury', lines: mercury }), {
    unknown: { lines },
  }).tubes[0]!.doubts;
  expect(green).toMatch(/^\d+°\d\d"$/);
  expect(first!.message).toContain(`${green.replace('°', "°00'")} reads like ${reader.line(501.57)}`);
});

test('two central readings too far apart for the hand are told once, as misread or the bench as moved', () => {
  const said = (apartArcmin: number): string[] => {
    const known = knownLamp(reader, { lamp: 'mercury', lines: mercury });
    const central = [181, 181 + apartArcmin / 60].map((deg) => formatAngle(deg, 1));
    const bench = benchOf({ ...recordOf(reader, { known }), central });
    const { calibration, tubes, warnings } = analyseBench(bench);
    return [...calibration.doubts, ...tubes.flatMap(({ doubts }) => doubts), ...warnings].map(
      ({ message }) => message,
    );
  };
  expect(said(6)).toEqual([
    "The readings of the central image (181°00', 181°06') lie 6.0' apart, more than repeats do: was one of them misread, or the bench moved between them? Read the central image again.",
  ]);
  expect(said(2)).toEqual([]);
  expect(said(12).filter((message) => message.includes("12'") || message.includes("12.0'"))).toHaveLength(1);
});

test('each line that is named anew with its whole lamp says so, in the sentence of the lamp', () => {
  const read = [643.85, 508.58, 479.99, 467.81];
  const stated = [579.07, 546.07, 435.83, 404.66];
  const lines = read.map((nm, i) => ({ nm, statedNm: stated[i]! }));
  const { calibration } = analysed(knownLamp(reader, { lamp: 'mercury', lines }));
  expect(calibration.doubts).toMatchObject([{ kind: 'wrong-lamp' }]);
  expect(calibration.lines.map(({ status }) => status)).toEqual(read.map(() => 'reassigned'));
  for (const { message } of calibration.lines) expect(message).toBe(calibration.doubts[0]!.message);
});
