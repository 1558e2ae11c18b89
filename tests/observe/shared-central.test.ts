/** The reading of the central image is one error, common to all lines. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import {
  benchOf,
  GlassReader,
  heliumNm,
  knownLamp,
  linesAt,
  type PlainRecord,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';
import { calibrateAndTell as calibrate } from '../calibrate-and-tell.ts';

const reader = new GlassReader();
const tubeNm = [640.22, 585.25, 540.06];
const analysed = (parts: PlainRecord) => analyseBench(benchOf(recordOf(reader, parts)));
const wavelengths = (parts: PlainRecord): number[] =>
  analysed(parts).tubes[0]!.lines.map(({ wavelengthNm }) => wavelengthNm!);
const uncertainties = (parts: PlainRecord): number[] =>
  analysed(parts).tubes[0]!.lines.map(({ standardUncertaintyNm }) => standardUncertaintyNm!);
const worst = (a: readonly number[], b: readonly number[]): number =>
  Math.max(...a.map((value, i) => Math.abs(value - b[i]!)));

const unknown = unknownTube(reader, tubeNm);
const clean = { unknown };
const cleanNm = wavelengths(clean);
const cleanU = uncertainties(clean);

test('misread by 2′, it leaves the wavelengths where they are when lamp and tube share it', () => {
  const misread = { unknown, central: [reader.central(2)] };
  expect(worst(cleanNm, wavelengths(misread))).toBeLessThan(0.25);
});

test('read again for the tube 2′ away, it moves the wavelengths by as much', () => {
  const again = { unknown: { ...unknown, central: [reader.central(2)] } };
  const moved = wavelengths(again);
  const curve = analysed(clean).calibration.curve!;
  moved.forEach((nm, i) => {
    const expected = cleanNm[i]! - 2 / curve.slopeAt(cleanNm[i]!);
    expect(Math.abs(nm - expected)).toBeLessThan(0.1);
  });
});

test('read again where it was, it moves nothing but adds its uncertainty', () => {
  const again = { unknown: { ...unknown, central: [reader.central()] } };
  expect(worst(cleanNm, wavelengths(again))).toBeLessThan(1e-9);
  uncertainties(again).forEach((u, i) => {
    expect(u).toBeGreaterThan(1.05 * cleanU[i]!);
  });
});

test('lines on the other side of it have larger uncertainties than lines on the side of the lamp', () => {
  const mirrored = new GlassReader({ side: -1 });
  const other = uncertainties({ unknown: unknownTube(mirrored, tubeNm) });
  cleanU.forEach((u, i) => {
    expect(other[i]!).toBeGreaterThan(1.1 * u);
  });
});

test('it is an entry of the budget only where there is one', () => {
  const names = (bench: PlainRecord) =>
    calibrate(benchOf(bench)).calibration.budget.map(({ source }) => source);
  expect(names(recordOf(reader))).toContain('central-image');
  const lines = heliumNm.map((nm) => ({ wavelengthNm: nm, readings: [reader.bothSides(nm)] }));
  const both = { instrument: { method: 'both-sides', leastCount: "1'" }, known: { lamp: 'helium', lines } };
  expect(names(both)).not.toContain('central-image');
});

describe('two wavelengths measured against one curve', () => {
  const { calibration } = calibrate(
    benchOf(recordOf(reader, { known: knownLamp(reader, { lamp: 'helium', lines: linesAt(heliumNm) }) })),
  );
  const curve = calibration.curve!;

  test('share its error: their difference is better known than if the errors were independent', () => {
    const [first, second] = [588, 596];
    const variance = curve.covariance(first, first) + curve.covariance(second, second);
    expect(variance - 2 * curve.covariance(first, second)).toBeLessThan(0.1 * variance);
  });

  test('close together have one and the same error, far apart hardly the same', () => {
    const correlation = (a: number, b: number) =>
      curve.covariance(a, b) / Math.sqrt(curve.covariance(a, a) * curve.covariance(b, b));
    expect(correlation(588, 589)).toBeGreaterThan(0.99);
    expect(correlation(420, 690)).toBeLessThan(0.6);
  });
});
