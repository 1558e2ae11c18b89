/** A bench that moved between lamp and tube: one shift of all readings, told with its size, and allowed for everywhere. */
import { describe, expect, test } from 'vitest';
import type { TubeAnalysis } from '../../src/analysis/types.ts';
import {
  GlassReader,
  heliumNm,
  hydrogenNm,
  mercuryNm,
  neonNm,
  type PlainRecord,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';
import { analysedTube, probabilityOf, reader, tubeWith } from './tube-bench.ts';

const centralDeg = 181 + 4 / 60;
const movedBy = (arcmin: number, more: Partial<ConstructorParameters<typeof GlassReader>[0]> = {}) =>
  new GlassReader({ centralDeg: centralDeg + arcmin / 60, ...more });
const tubeOn = (moved: GlassReader, nm: readonly number[], more: PlainRecord = {}): TubeAnalysis =>
  analysedTube(recordOf(reader, { unknown: unknownTube(moved, nm, more) }));
const arcmin = (text: string): number => {
  const [, degrees, minutes] = /^(\d+)°(\d+)'$/.exec(text)!;
  return 60 * Number(degrees) + Number(minutes);
};

/** A drum of 1200 divisions to the degree of deviation; `off`: turned between lamp and tube. */
const onDrum = (nm: readonly number[], off: number): TubeAnalysis => {
  const place = (each: number): number => Math.round(20 * reader.deviationArcmin(each));
  return analysedTube({
    instrument: { method: 'scale', leastCount: 1 },
    known: {
      lamp: 'helium',
      lines: heliumNm.map((each) => ({ wavelengthNm: each, readings: [place(each)] })),
    },
    unknown: { lines: nm.map((each) => ({ readings: [place(each) + off] })) },
  });
};

describe('a shift of all readings', () => {
  test.each([
    ['neon', neonNm, 6],
    ['neon', neonNm, -12],
    ['neon', neonNm, 30],
    ['hydrogen', hydrogenNm, 10],
    ['hydrogen', hydrogenNm, 65],
  ])('%s: found and told with its size: %#', (substance, nm, by) => {
    const tube = tubeOn(movedBy(by), nm);
    expect(tube.candidates[0]!.substance).toBe(substance);
    expect(tube.candidates[0]!.probability).toBeGreaterThan(0.97);
    const { value, u, unit } = tube.shift!;
    expect(unit).toBe('arcmin');
    expect(u).toBeLessThan(1);
    expect(Math.abs(value - by)).toBeLessThan(2 * u);
    const doubt = tube.doubts.find(({ kind }) => kind === 'moved-central')!;
    const [, told] = /lie ([\d.]+)' \(uncertainty [\d.]+'\)/.exec(doubt.message)!;
    expect(Math.abs(Number(told) - Math.abs(value))).toBeLessThan(u / 2);
    expect(doubt.message).toContain(by > 0 ? 'further from' : 'nearer to');
    expect(doubt.probability).toBeGreaterThan(0.8);
  });

  test('is taken off beside the wavelengths as read, and off the residuals of the leading tube', () => {
    const tube = tubeOn(movedBy(10), neonNm);
    tube.lines.forEach(({ index, wavelengthNm, correctedNm, standardUncertaintyNm, ...line }) => {
      expect(Math.abs(wavelengthNm! - neonNm[index]!)).toBeGreaterThan(3 * standardUncertaintyNm!);
      expect(Math.abs(correctedNm! - neonNm[index]!)).toBeLessThan(3 * line.correctedUncertaintyNm!);
      // It is that of the same reading further in the red, which is dispersed less.
      expect(line.correctedUncertaintyNm! / standardUncertaintyNm!).toBeGreaterThan(1.05);
      const match = tube.candidates[0]!.matches.find((each) => each.index === index)!;
      expect(match.residualNm / match.residualSigma).toBeCloseTo(line.correctedUncertaintyNm!, 9);
    });
    for (const { residualSigma, asRead } of tube.candidates[0]!.matches) {
      expect(Math.abs(residualSigma)).toBeLessThan(2.5);
      expect(asRead).toBe(false);
    }
  });

  test('makes nothing identified by four readings, which find it and leave nothing to bear it out', () => {
    const ten = tubeOn(movedBy(10), neonNm).verdict;
    expect(ten).toMatchObject({ kind: 'identified', substance: 'neon' });
    const four = tubeOn(movedBy(10), hydrogenNm).verdict;
    expect(four).toMatchObject({ kind: 'undecided', substance: null });
    expect(four.sentence).toMatch(
      /^Hydrogen .* if all readings are shifted alike.*read a line of the known lamp again/,
    );
  });

  test('is none on a bench that stood still', () => {
    for (const nm of [neonNm, hydrogenNm, mercuryNm]) {
      const tube = tubeWith(nm);
      expect(tube.shift).toBeNull();
      expect(tube.lines.every(({ correctedNm }) => correctedNm === null)).toBe(true);
    }
  });

  test('that a misread central reading explains is told as that, and is the shift', () => {
    const unknown = { ...unknownTube(reader, neonNm), central: [reader.central(30)] };
    const tube = analysedTube(recordOf(reader, { unknown }));
    expect(tube.doubts.map(({ kind }) => kind)).toEqual(['central-misread']);
    expect(tube.shift!.value).toBeCloseTo(-30, 6);
  });

  test.each([
    [neonNm, 265],
    [mercuryNm, -265],
    [mercuryNm, 20],
  ])('of a drum that was turned is found in its own divisions: %#', (nm, by) => {
    const tube = onDrum(nm, by);
    expect(tube.verdict.kind).toBe('identified');
    expect(tube.shift).toMatchObject({ unit: 'scale' });
    expect(Math.abs(tube.shift!.value - by)).toBeLessThan(2);
    const { message } = tube.doubts.find(({ kind }) => kind === 'moved-central')!;
    expect(message).toContain(by > 0 ? 'higher' : 'lower');
    expect(message).toMatch(/lie [\d.]+ scale units \(uncertainty [\d.]+ scale units\)/);
    expect(message).not.toMatch(/'|central image/);
  });
});

describe('what else goes with the shift', () => {
  test('the next look is at the moved place', () => {
    const crown = { glass: 'N-BK7' };
    const moved = movedBy(5, crown);
    const tube = analysedTube(recordOf(new GlassReader(crown), { unknown: unknownTube(moved, neonNm) }));
    expect(tube.shift).not.toBeNull();
    const { reading, wavelengthNm } = tube.verdict.nextLook!;
    expect(Math.abs(arcmin(reading) - arcmin(moved.line(wavelengthNm)))).toBeLessThanOrEqual(2);
  });

  test('a line looked for in vain, told as a wavelength, is missing on the moved bench as on the other', () => {
    const seen = mercuryNm.filter((nm) => nm !== 435.83);
    const vain = { notSeen: [{ wavelengthNm: 435.83 }] };
    const moved = movedBy(25);
    const lost = (tube: (more: PlainRecord) => TubeAnalysis): number =>
      tube({}).candidates[0]!.logEvidence - tube(vain).candidates[0]!.logEvidence;
    const [there, here] = [
      (more: PlainRecord) => tubeOn(moved, seen, more),
      (more: PlainRecord) => tubeWith(seen, more),
    ];
    expect(lost(here)).toBeGreaterThan(0.3);
    expect(Math.abs(lost(there) - lost(here))).toBeLessThan(0.7);
  });

  test('a second gas is found all the same', () => {
    const cadmium = [643.85, 508.58, 479.99, 467.81];
    const tube = tubeOn(movedBy(25), [...mercuryNm, ...cadmium]);
    expect(probabilityOf(tube, 'mercury')).toBeLessThan(0.5);
    expect(tube.candidates[0]).toMatchObject({ substance: 'mercury', with: ['cadmium'] });
  });
});
