/** Benches that no careful person would bring: never nonsense, never a fault. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import type { Analysis } from '../../src/analysis/types.ts';
import {
  benchOf,
  GlassReader,
  heliumNm,
  knownLamp,
  linesAt,
  neonNm,
  type PlainRecord,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';
import { unsoundNumbers } from './walk.ts';

const reader = new GlassReader();
const neon = unknownTube(reader, neonNm);
const helium = (wavelengthsNm: readonly number[]) => ({ lamp: 'helium', lines: linesAt(wavelengthsNm) });
const knownAt = (readings: readonly unknown[], wavelengthsNm: readonly number[] = heliumNm): PlainRecord => ({
  lamp: 'helium',
  lines: readings.map((reading, i) => ({ wavelengthNm: wavelengthsNm[i], readings: [reading] })),
});

const records: Record<string, PlainRecord> = {
  'an empty bench': { instrument: { method: 'central', leastCount: "1'" } },
  'no known line': recordOf(reader, { known: knownLamp(reader, helium([])), unknown: neon }),
  'one known line': recordOf(reader, { known: knownLamp(reader, helium([587.56])), unknown: neon }),
  'two known lines': recordOf(reader, { known: knownLamp(reader, helium([667.82, 447.15])), unknown: neon }),
  'no central image': recordOf(reader, { central: [], unknown: neon }),
  'identical readings of all known lines': recordOf(reader, {
    known: knownAt(heliumNm.map(() => reader.line(587.56))),
    unknown: neon,
  }),
  'one wavelength for all known lines': recordOf(reader, {
    known: knownAt(
      heliumNm.map((nm) => reader.line(nm)),
      heliumNm.map(() => 587.56),
    ),
    unknown: neon,
  }),
  'the same line read eight times': recordOf(reader, {
    known: knownAt(
      heliumNm.map(() => reader.line(587.56)),
      heliumNm.map(() => 587.56),
    ),
    unknown: neon,
  }),
  'known lines of one colour': recordOf(reader, {
    known: knownLamp(reader, helium([706.52, 667.82])),
    unknown: neon,
  }),
  'known lines in reversed order': recordOf(reader, {
    known: knownAt([...heliumNm].reverse().map((nm) => reader.line(nm))),
    unknown: neon,
  }),
  'known lines in no order': recordOf(reader, {
    known: knownAt([3, 0, 6, 1, 7, 2, 5, 4].map((i) => reader.line(heliumNm[i]!))),
    unknown: neon,
  }),
  'the central image among the lines': recordOf(reader, {
    central: [reader.line(530)],
    unknown: neon,
  }),
  'deviations of nothing': recordOf(reader, {
    known: knownAt(heliumNm.map(() => reader.central())),
    unknown: { lines: [{ readings: [reader.central()] }] },
  }),
  'deviations of half a turn': recordOf(reader, {
    central: [100],
    known: knownAt(heliumNm.map(() => 280)),
    unknown: { lines: [{ readings: [280] }, { readings: [279.9] }] },
  }),
  'an unknown line far outside': recordOf(reader, {
    unknown: {
      lines: [...(neon.lines as unknown[]), { readings: ["12°00'"] }, { readings: [reader.central()] }],
    },
  }),
  'only unknown lines far outside': recordOf(reader, {
    unknown: { lines: [{ readings: ["12°00'"] }, { readings: ["13°00'"] }, { readings: ["320°00'"] }] },
  }),
  'forty readings of forty places': recordOf(reader, {
    unknown: unknownTube(
      reader,
      Array.from({ length: 40 }, (_, i) => 410 + 7.3 * i),
    ),
  }),
  'forty readings of one place': recordOf(reader, {
    unknown: unknownTube(reader, new Array<number>(40).fill(585.25)),
  }),
  'a scale that stands still': {
    instrument: { method: 'scale', leastCount: 0.1 },
    known: knownAt(heliumNm.map(() => 500)),
    unknown: { lines: [{ readings: [500] }] },
  },
  'a scale of zeros and millions': {
    instrument: { method: 'scale', leastCount: 0.1 },
    known: knownAt([0, 1e6, -1e6, 9e5, 0.1, 5, 7, 9]),
    unknown: { lines: [{ readings: [0] }, { readings: [-9e5] }] },
  },
  'two known lines all but at one wavelength': {
    instrument: { method: 'scale', leastCount: 0.1 },
    known: knownAt([12.1, 5.2, 9.7, 5.2], [367.92552154114503, 546.07, 415.5495286813466, 546.0700001]),
    unknown: { lines: [{ readings: [7] }] },
  },
  'a scale on which one known line of four is read apart': {
    instrument: { method: 'scale', leastCount: 0.1 },
    known: {
      lines: [
        { wavelengthNm: 598.5237310352439, readings: [0, -13.80204068801877] },
        { wavelengthNm: 802.2780087181577, readings: [0, 4.928731396577814e-34] },
        { wavelengthNm: 200, readings: [0, 0, -2.683981696763018e-11] },
        { wavelengthNm: 546.07, readings: [0] },
      ],
    },
    unknown: { lines: [{ readings: [12.3] }] },
  },
  'both sides read the same': {
    instrument: { method: 'both-sides', leastCount: "1'" },
    known: knownAt(heliumNm.map(() => ({ left: "180°00'", right: "180°00'" }))),
    unknown: { lines: [{ readings: [{ left: "180°00'", right: "0°00'" }] }] },
  },
};

const tube = (analysis: Analysis) => analysis.tubes[0]!;

describe.each(Object.entries(records))('%s', (_, record) => {
  const analysis = analyseBench(benchOf(record));

  test('holds no number that is none', () => {
    expect(unsoundNumbers(analysis)).toEqual([]);
  });

  test('has an entry for every line, and uncertainties above zero', () => {
    const known = analysis.bench.known.flatMap(({ lines }) => lines);
    expect(analysis.calibration.lines.map(({ index }) => index)).toEqual(known.map(({ index }) => index));
    analysis.bench.tubes.forEach((each, i) => {
      expect(analysis.tubes[i]!.lines).toHaveLength(each.lines.length);
    });
    for (const { standardUncertainty } of analysis.calibration.lines)
      if (standardUncertainty !== null) expect(standardUncertainty).toBeGreaterThan(0);
    for (const { lines } of analysis.tubes)
      for (const { standardUncertaintyNm: u } of lines) if (u !== null) expect(u).toBeGreaterThan(0.01);
  });

  test('has probabilities that sum to 1, where there are any', () => {
    for (const { candidates } of analysis.tubes) {
      if (candidates.length === 0) continue;
      const total = candidates.reduce((sum, { probability }) => sum + probability, 0);
      expect(Math.abs(total - 1)).toBeLessThan(1e-9);
    }
  });
});

describe('what is said of them', () => {
  const of = (name: string) => analyseBench(benchOf(records[name]!));
  const codes = (analysis: Analysis) => analysis.warnings.map(({ code }) => code);

  test.each(['no known line', 'one known line', 'no central image'])(
    '%s: no wavelengths, and a warning why',
    (name) => {
      const analysis = of(name);
      expect(analysis.calibration.curve).toBeNull();
      expect(tube(analysis).candidates).toEqual([]);
      expect(tube(analysis).verdict).toMatchObject({ kind: 'undecided', substance: null });
      expect(tube(analysis).lines.every(({ wavelengthNm }) => wavelengthNm === null)).toBe(true);
      expect(codes(analysis)).toContain('no-calibration');
      expect(codes(analysis)).toContain(
        name === 'no central image' ? 'central-missing' : 'too-few-known-lines',
      );
    },
  );

  test('identical readings of all known lines make no curve', () => {
    expect(of('identical readings of all known lines').calibration.curve).toBeNull();
  });

  test.each([
    'one wavelength for all known lines',
    'known lines in no order',
    'known lines in reversed order',
  ])('%s: the faults are announced, and nothing false is identified', (name) => {
    const analysis = of(name);
    const wronglyNamed = analysis.calibration.lines.filter(
      ({ statedWavelengthNm, ordinate }) =>
        Math.abs(ordinate! - reader.deviationArcmin(statedWavelengthNm!)) > 3,
    );
    expect(wronglyNamed.length).toBeGreaterThan(5);
    for (const { status } of wronglyNamed) expect(status).not.toBe('used');
    expect(analysis.calibration.doubts.length).toBeGreaterThan(0);
    const { kind, substance } = tube(analysis).verdict;
    expect(kind === 'identified' ? substance : 'neon').toBe('neon');
  });

  test('readings beyond the curve have no wavelength, and say so', () => {
    const { lines } = tube(of('an unknown line far outside'));
    for (const line of lines.slice(-2)) {
      expect(line.wavelengthNm).toBeNull();
      expect(line.message).toMatch(/beyond/);
    }
    expect(lines[0]!.wavelengthNm).not.toBeNull();
  });

  test('only readings far outside identify nothing', () => {
    expect(tube(of('only unknown lines far outside')).verdict.kind).not.toBe('identified');
  });

  test('one place read forty times is no spectrum', () => {
    expect(tube(of('forty readings of one place')).verdict.kind).not.toBe('identified');
  });

  test('perfect readings have an uncertainty all the same', () => {
    const exact = (nm: number) => 100 + reader.deviationArcmin(nm) / 60;
    const analysis = analyseBench(
      benchOf({
        instrument: { method: 'central', leastCount: "1'" },
        central: [100, 100, 100],
        known: {
          lamp: 'helium',
          lines: heliumNm.map((nm) => ({ wavelengthNm: nm, readings: [exact(nm), exact(nm), exact(nm)] })),
        },
        unknown: { lines: neonNm.map((nm) => ({ readings: [exact(nm)] })) },
      }),
    );
    expect(analysis.calibration.rms).toBeLessThan(0.1);
    // A quarter of a minute of resolution is 0.6 nm at 620 nm on such a prism, 0.4 at 540.
    for (const { standardUncertaintyNm } of tube(analysis).lines)
      expect(standardUncertaintyNm).toBeGreaterThan(0.3);
  });
});
