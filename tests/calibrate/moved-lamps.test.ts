/**
 * A bench that is moved between two of its known lamps, planted in exact readings of catalogue glass. With one central
 * image the deviations of all lamps are true ones again; with another for a tube nothing is counted twice.
 */
import { describe, expect, test } from 'vitest';
import { analyseBench, calibrateBench } from '../../src/analysis/analyse.ts';
import { convertReading } from '../../src/analysis/convert.ts';
import { predictOnCurve, wantedLines } from '../../src/analysis/predict.ts';
import type { Analysis, TubeAnalysis } from '../../src/analysis/types.ts';
import { tubes } from '../../src/lines/table.ts';
import type { BenchPlan } from '../score/bench-plan.ts';
import { Random } from '../score/random.ts';
import { simulateBench } from '../score/simulate-bench.ts';
import {
  benchOf,
  type GlassInstrument,
  GlassReader,
  heliumNm,
  hydrogenNm,
  knownLamp,
  mercuryNm,
  neonNm,
  type PlainRecord,
  recordOf,
  unknownTube,
} from './glass-bench.ts';

const centralDeg = 181 + 4 / 60;
/** The bench after its circle was moved on by so much. */
const movedBy = (arcmin: number, more: Partial<GlassInstrument> = {}): GlassReader =>
  new GlassReader({ centralDeg: centralDeg + arcmin / 60, ...more });
const still = movedBy(0);

const lamp = (
  on: GlassReader,
  name: string,
  wavelengthsNm: readonly number[],
  slipsArcmin: readonly number[] = [],
): PlainRecord =>
  knownLamp(on, {
    lamp: name,
    lines: wavelengthsNm.map((nm, i) => ({ nm, slipArcmin: slipsArcmin[i] ?? 0 })),
  });

/** Helium read on the bench as it was, mercury after the move. */
const twoLamps = (arcmin: number, parts: PlainRecord = {}): Analysis =>
  analyseBench(
    benchOf(
      recordOf(still, {
        known: [lamp(still, 'helium', heliumNm), lamp(movedBy(arcmin), 'mercury', mercuryNm)],
        ...parts,
      }),
    ),
  );

const kindsOf = ({ calibration }: Analysis): string[] => calibration.doubts.map(({ kind }) => kind);
const accused = ({ calibration }: Analysis): number[] =>
  calibration.lines.filter(({ status }) => status !== 'used').map(({ index }) => index);
const placesNm = [420, 450, 500, 550, 600, 650, 690];
/** How far the curve lies off the true deviations at the most, arc-minutes. */
const worstMiss = ({ calibration }: Analysis): number =>
  Math.max(...placesNm.map((nm) => Math.abs(calibration.curve!.ordinateAt(nm) - still.deviationArcmin(nm))));
/** How far a tube's wavelengths are off the true ones at the most, in their uncertainties. */
const worstOff = ({ lines }: TubeAnalysis, wavelengthsNm: readonly number[]): number =>
  Math.max(
    ...lines.map(
      ({ wavelengthNm, standardUncertaintyNm }, i) =>
        Math.abs(wavelengthNm! - wavelengthsNm[i]!) / standardUncertaintyNm!,
    ),
  );

describe('a bench moved between helium and mercury', () => {
  // 8' made another lamp of the second, 30' eight misread verniers, less a curve that was off everywhere.
  test.each([-30, -15, -8, -3, 3, 8, 15, 30])(
    "by %i' is told so, and all deviations are true ones",
    (arcmin) => {
      const analysis = twoLamps(arcmin);
      expect(kindsOf(analysis)).toEqual(['moved-lamp']);
      expect(accused(analysis)).toEqual([]);
      const { shift, u, lampIndex } = analysis.calibration.moved!;
      expect(lampIndex).toBe(1);
      expect(Math.abs(shift - arcmin)).toBeLessThan(2 * u);
      expect(u).toBeLessThan(0.5);
      const [{ message, probability }] = analysis.calibration.doubts as [
        Analysis['calibration']['doubts'][0],
      ];
      expect(probability).toBeGreaterThan(0.99);
      const [, told, toldU, which] =
        /^The lines of mercury all read ([\d.]+)' \(uncertainty ([\d.]+)'\) (\w+)/.exec(message)!;
      expect(Math.abs(Number(told) - Math.abs(shift))).toBeLessThan(0.06);
      expect(Math.abs(Number(toldU) - u)).toBeLessThan(0.06);
      expect(which).toBe(arcmin > 0 ? 'more' : 'less');
      expect(worstMiss(analysis)).toBeLessThan(0.5);
      expect(message).toContain('moved before mercury was read?');
      expect(analysis.calibration.rms!).toBeLessThan(0.4);
      for (const { wavelengthNm, ordinate, deviationDeg } of analysis.calibration.lines) {
        expect(Math.abs(ordinate! - still.deviationArcmin(wavelengthNm!))).toBeLessThan(1);
        expect(deviationDeg).toBeCloseTo(ordinate! / 60, 10);
      }
    },
  );

  test.each([3, 8, 15, 30])(
    "by %i': a tube reads true with the shared central image and with its own",
    (arcmin) => {
      const moved = movedBy(arcmin);
      const { tubes: read } = twoLamps(arcmin, {
        unknown: [
          unknownTube(moved, neonNm, { label: 'shared' }),
          unknownTube(moved, neonNm, { label: 'own', central: [moved.central()] }),
        ],
      });
      for (const tube of read) {
        expect(tube.candidates[0]!.substance).toBe('neon');
        expect(tube.candidates[0]!.probability).toBeGreaterThan(0.99);
        expect(tube.shift).toBeNull();
        expect(tube.doubts).toEqual([]);
        expect(worstOff(tube, neonNm)).toBeLessThan(2.5);
      }
    },
  );

  test('a tube read after a second move is shifted by that one alone', () => {
    const [shared, own] = twoLamps(8, {
      unknown: [
        unknownTube(movedBy(20), neonNm, { label: 'shared' }),
        unknownTube(movedBy(20), neonNm, { label: 'own', central: [movedBy(20).central()] }),
      ],
    }).tubes;
    expect(Math.abs(shared!.shift!.value - 12)).toBeLessThan(2 * shared!.shift!.u + 0.3);
    expect(own!.shift).toBeNull();
    expect(own!.doubts[0]!.message).toContain("differs from the calibration's by 12.1'");
    expect(worstOff(own!, neonNm)).toBeLessThan(2.5);
  });

  test('the curve of what is read now knows what it shares with the later lamp', () => {
    const poor = analyseBench(
      benchOf(
        recordOf(still, {
          known: [lamp(still, 'sodium', [589.3, 568.5]), lamp(movedBy(8), 'mercury', mercuryNm)],
        }),
      ),
    ).calibration;
    const u = (curve: typeof poor.curve): number => Math.sqrt(curve!.covariance(550, 550));
    expect(u(poor.curve)).toBeGreaterThan(1.2 * u(poor.curveNow));
    const sound = twoLamps(0).calibration;
    expect(sound.curveNow).toBe(sound.curve);
  });

  test('a misread vernier beside it is found all the same', () => {
    const analysis = analyseBench(
      benchOf(
        recordOf(still, {
          known: [lamp(still, 'helium', heliumNm, [0, 0, 30]), lamp(movedBy(12), 'mercury', mercuryNm)],
        }),
      ),
    );
    expect(kindsOf(analysis)).toEqual(['moved-lamp', 'slip']);
    expect(accused(analysis)).toEqual([2]);
    expect(worstMiss(analysis)).toBeLessThan(0.5);
  });

  test('a drum is told in its own divisions, and its curve is that of the drum as it stands', () => {
    const place = (nm: number, off = 0): number => Math.round(20 * still.deviationArcmin(nm)) + off;
    const onDrum = (name: string, wavelengthsNm: readonly number[], off = 0): PlainRecord => ({
      lamp: name,
      lines: wavelengthsNm.map((nm) => ({ wavelengthNm: nm, readings: [place(nm, off)] })),
    });
    const { calibration, tubes: read } = analyseBench(
      benchOf({
        instrument: { method: 'scale', leastCount: 1 },
        known: [onDrum('helium', heliumNm), onDrum('mercury', mercuryNm, 160)],
        unknown: { lines: neonNm.map((nm) => ({ readings: [place(nm, 160)] })) },
      }),
    );
    expect(calibration.doubts.map(({ kind }) => kind)).toEqual(['moved-lamp']);
    expect(calibration.doubts[0]!.message).toMatch(
      /read 159\.\d+ scale units \(uncertainty [\d.]+ scale units\) more/,
    );
    expect(calibration.doubts[0]!.message).not.toMatch(/'|central image/);
    expect(Math.abs(calibration.curve!.ordinateAt(550) - place(550, 160))).toBeLessThan(2);
    expect(read[0]!.shift).toBeNull();
    expect(worstOff(read[0]!, neonNm)).toBeLessThan(2.5);
  });
});

describe('which central image belongs to which lamp', () => {
  test('one that is read after both lamps, as that of the tube shows, is the later one', () => {
    const moved = movedBy(8);
    const analysis = twoLamps(8, {
      central: [moved.central()],
      unknown: unknownTube(moved, neonNm, { central: [moved.central()] }),
    });
    expect(analysis.calibration.moved!.centralsBefore).toBe(0);
    expect(kindsOf(analysis)).toEqual(['moved-lamp']);
    expect(worstMiss(analysis)).toBeLessThan(0.6);
    expect(analysis.tubes[0]!.doubts).toEqual([]);
    expect(worstOff(analysis.tubes[0]!, neonNm)).toBeLessThan(2.5);
  });

  // The two lamps and the two central images are the same as where the image was read after both: the tube's lines decide.
  test.each([
    ['mercury', mercuryNm, 8],
    ['mercury', mercuryNm, -30],
    ['hydrogen', hydrogenNm, 60],
  ])("before the move, where the bench was put back for a tube: %s, %s moved by %i'", (name, nm, arcmin) => {
    const record = recordOf(still, {
      known: [lamp(still, 'helium', heliumNm), lamp(movedBy(arcmin), name, nm)],
      unknown: unknownTube(still, neonNm, { central: [still.central()] }),
    });
    const analysis = analyseBench(benchOf(record));
    expect(analysis.calibration.moved!.centralsBefore).toBe(1);
    expect(worstMiss(analysis)).toBeLessThan(0.6);
    const [tube] = analysis.tubes;
    expect(tube!.verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
    expect(tube!.shift).toBeNull();
    expect(worstOff(tube!, neonNm)).toBeLessThan(2.5);
    expect(tube!.doubts.map(({ message }) => message)).toEqual([
      expect.stringContaining('where the bench stood for helium: was it put back before the tube?'),
    ]);
    // And whoever asks for the calibration alone is told the same.
    const { calibration } = calibrateBench(benchOf(record));
    expect(calibration.lines).toEqual(analysis.calibration.lines);
  });

  test.each([
    [1, 1],
    [2, 1],
    [1, 2],
  ])('%i readings before it and %i after it each belong to their lamp', (before, after) => {
    const analysis = twoLamps(8, {
      central: [
        ...Array.from({ length: before }, () => still.central()),
        ...Array.from({ length: after }, () => movedBy(8).central()),
      ],
      unknown: unknownTube(movedBy(8), neonNm),
    });
    expect(analysis.calibration.moved!.centralsBefore).toBe(before);
    // No reading of the central image is misread: 8' apart is the move.
    expect(kindsOf(analysis)).toEqual(['moved-lamp']);
    expect(worstMiss(analysis)).toBeLessThan(0.5);
    expect(worstOff(analysis.tubes[0]!, neonNm)).toBeLessThan(2.5);
  });
});

describe('both sides of the central image', () => {
  const left = (arcmin: number): GlassReader => movedBy(arcmin, { side: -1 });
  /** Every other line on the left. */
  const bothWays = (arcmin: number, name: string, wavelengthsNm: readonly number[]): PlainRecord => ({
    lamp: name,
    lines: wavelengthsNm.map((nm, i) => ({
      wavelengthNm: nm,
      readings: [(i % 2 === 0 ? movedBy(arcmin) : left(arcmin)).line(nm)],
    })),
  });

  test.each([8, -15])(
    "lamps read on either side, moved by %i': one side lies further off, the other nearer",
    (arcmin) => {
      const analysis = analyseBench(
        benchOf(
          recordOf(still, {
            known: [bothWays(0, 'helium', heliumNm), bothWays(arcmin, 'mercury', mercuryNm)],
            unknown: [unknownTube(movedBy(arcmin), neonNm), unknownTube(left(arcmin), neonNm)],
          }),
        ),
      );
      expect(kindsOf(analysis)).toEqual(['moved-lamp']);
      expect(Math.abs(analysis.calibration.moved!.shift - arcmin)).toBeLessThan(1);
      expect(worstMiss(analysis)).toBeLessThan(0.7);
      for (const tube of analysis.tubes) expect(worstOff(tube, neonNm)).toBeLessThan(2.5);
    },
  );

  test('one lamp on the left and the next on the right', () => {
    const analysis = analyseBench(
      benchOf(
        recordOf(still, {
          known: [lamp(left(0), 'helium', heliumNm), lamp(movedBy(8), 'mercury', mercuryNm)],
        }),
      ),
    );
    expect(kindsOf(analysis)).toEqual(['moved-lamp']);
    expect(Math.abs(analysis.calibration.moved!.shift - 8)).toBeLessThan(1);
    // A misread central image would do the same to them, and is asked about.
    expect(analysis.calibration.doubts[0]!.message).toContain(
      'moved before mercury was read, or the central image misread by half as much?',
    );
    expect(worstMiss(analysis)).toBeLessThan(0.7);
  });

  test.each([8, 30])("half the angle between the two sides does not feel a move by %i'", (arcmin) => {
    const sides = (on: GlassReader, name: string, wavelengthsNm: readonly number[]): PlainRecord => ({
      lamp: name,
      lines: wavelengthsNm.map((nm) => ({ wavelengthNm: nm, readings: [on.bothSides(nm)] })),
    });
    const moved = movedBy(arcmin);
    const { calibration, tubes: read } = analyseBench(
      benchOf({
        instrument: { method: 'both-sides', leastCount: "1'" },
        central: [still.central()],
        known: [sides(still, 'helium', heliumNm), sides(moved, 'mercury', mercuryNm)],
        unknown: { lines: neonNm.map((nm) => ({ readings: [moved.bothSides(nm)] })) },
      }),
    );
    expect(calibration.moved).toBeNull();
    // The central image lies midway between the two sides of the lamp that it was read with.
    expect(calibration.doubts).toEqual([]);
    expect(read[0]!.doubts).toEqual([]);
    expect(worstOff(read[0]!, neonNm)).toBeLessThan(2.5);
  });
});

describe('three lamps', () => {
  test('of which the middle one alone was read on a moved bench spoil neither the other two nor the tube', () => {
    const analysis = analyseBench(
      benchOf(
        recordOf(still, {
          known: [
            lamp(still, 'helium', heliumNm),
            lamp(movedBy(8), 'mercury', mercuryNm),
            lamp(still, 'hydrogen', hydrogenNm),
          ],
          unknown: unknownTube(still, neonNm),
        }),
      ),
    );
    const misread = analysis.calibration.lines.filter(
      ({ lampIndex, status }) => lampIndex !== 1 && status !== 'used',
    );
    expect(misread).toEqual([]);
    expect(analysis.tubes[0]!.candidates[0]!.substance).toBe('neon');
    expect(worstOff(analysis.tubes[0]!, neonNm)).toBeLessThan(2);
  });

  test.each([8, -30])("a bench that was moved by %i' for the second alone", (arcmin) => {
    const analysis = analyseBench(
      benchOf(
        recordOf(still, {
          known: [
            lamp(still, 'helium', heliumNm),
            lamp(movedBy(arcmin), 'mercury', mercuryNm),
            lamp(still, 'hydrogen', hydrogenNm),
          ],
          check: [{ wavelengthNm: 587.56, readings: [still.line(587.56)] }],
          unknown: [
            unknownTube(still, neonNm),
            unknownTube(movedBy(20), neonNm, { central: [movedBy(20).central()] }),
          ],
        }),
      ),
    );
    // 8' made carbon dioxide of the mercury, 30' misread verniers of all hydrogen.
    expect(kindsOf(analysis)).toEqual(['moved-lamp']);
    expect(accused(analysis)).toEqual([]);
    expect(analysis.calibration.moved).toMatchObject({ lampIndex: 1, until: 2 });
    expect(Math.abs(analysis.calibration.moved!.shift - arcmin)).toBeLessThan(0.6);
    expect(analysis.calibration.doubts[0]!.message).toMatch(
      /^The lines of mercury all read .* than the curve of helium and hydrogen says: .* moved before mercury was read, and put back after it\? They are counted/,
    );
    expect(worstMiss(analysis)).toBeLessThan(0.5);
    const [check] = analysis.calibration.checks;
    expect(Math.abs(check!.residual!)).toBeLessThan(2 * check!.standardUncertainty!);
    for (const tube of analysis.tubes) {
      expect(tube.shift).toBeNull();
      expect(worstOff(tube, neonNm)).toBeLessThan(2.5);
    }
  });

  test('a drum that was moved for the second alone is read as it stands', () => {
    const place = (nm: number, off = 0): number => Math.round(20 * still.deviationArcmin(nm)) + off;
    const onDrum = (name: string, wavelengthsNm: readonly number[], off = 0): PlainRecord => ({
      lamp: name,
      lines: wavelengthsNm.map((nm) => ({ wavelengthNm: nm, readings: [place(nm, off)] })),
    });
    const { calibration, tubes: read } = analyseBench(
      benchOf({
        instrument: { method: 'scale', leastCount: 1 },
        known: [
          onDrum('helium', heliumNm),
          onDrum('mercury', mercuryNm, 160),
          onDrum('hydrogen', hydrogenNm),
        ],
        unknown: { lines: neonNm.map((nm) => ({ readings: [place(nm)] })) },
      }),
    );
    expect(calibration.moved).toMatchObject({ lampIndex: 1, until: 2 });
    expect(Math.abs(calibration.curve!.ordinateAt(550) - place(550))).toBeLessThan(2);
    expect(read[0]!.shift).toBeNull();
    expect(worstOff(read[0]!, neonNm)).toBeLessThan(2.5);
  });

  test.each([
    ['the first', 1, [0, 8, 8]],
    ['the second', 2, [0, 0, 8]],
    ['the first', 1, [0, -30, -30]],
    ['the second', 2, [0, 0, -30]],
  ])('a move after %s', (_, lampIndex, [first = 0, second = 0, third = 0]) => {
    const analysis = analyseBench(
      benchOf(
        recordOf(still, {
          known: [
            lamp(movedBy(first), 'helium', heliumNm),
            lamp(movedBy(second), 'mercury', mercuryNm),
            lamp(movedBy(third), 'hydrogen', hydrogenNm),
          ],
          unknown: unknownTube(movedBy(third), neonNm),
        }),
      ),
    );
    expect(kindsOf(analysis)).toEqual(['moved-lamp']);
    expect(accused(analysis)).toEqual([]);
    expect(analysis.calibration.moved!.lampIndex).toBe(lampIndex);
    expect(Math.abs(analysis.calibration.moved!.shift - third)).toBeLessThan(0.6);
    const { message } = analysis.calibration.doubts[0]!;
    expect(message).toMatch(
      lampIndex === 1
        ? /^The lines of mercury and hydrogen .* curve of helium says/
        : /^The lines of hydrogen .* curve of helium and mercury says/,
    );
    expect(worstMiss(analysis)).toBeLessThan(0.5);
    expect(worstOff(analysis.tubes[0]!, neonNm)).toBeLessThan(2.5);
  });
});

describe('what is worked out from the deviations', () => {
  const prism = { instrument: { method: 'central', leastCount: "1'", apexAngle: { value: 60 } } };

  test.each([8, 30])("by %i': the indices are those of the bench that stood still", (arcmin) => {
    const [moved, sound] = [twoLamps(arcmin, prism), twoLamps(0, prism)].map(
      ({ calibration }) => calibration.indices!,
    );
    expect(moved!.lines.length).toBe(sound!.lines.length);
    moved!.lines.forEach(({ value, wavelengthNm, fromCentral }, i) => {
      const other = sound!.lines[i]!;
      expect(wavelengthNm).toBe(other.wavelengthNm);
      // A count of the vernier is 0.0002.
      expect(Math.abs(value - other.value)).toBeLessThan(0.00015);
      // The move is in the uncertainty of the lamp that was read after it.
      if (i < heliumNm.length) expect(fromCentral).toBeCloseTo(other.fromCentral, 5);
      else expect(fromCentral).toBeGreaterThan(other.fromCentral);
    });
    expect(Math.abs(moved!.nd!.value - sound!.nd!.value)).toBeLessThan(0.0001);
    expect(Math.abs(moved!.abbeNumber!.value - sound!.abbeNumber!.value)).toBeLessThan(0.2);
  });

  test('a single reading is converted as one of a tube is', () => {
    const moved = movedBy(15);
    const { bench, calibration, tubes: read } = twoLamps(15, { unknown: unknownTube(moved, neonNm) });
    bench.tubes[0]!.lines.forEach(({ settings: [setting], texts: [text] }, i) => {
      const found = convertReading(
        bench,
        calibration,
        { text: text!, setting: setting! },
        tubes,
        bench,
        bench.tubes[0]!,
      );
      expect(found.wavelengthNm).toBe(read[0]!.lines[i]!.wavelengthNm);
      expect(found.standardUncertaintyNm).toBeCloseTo(read[0]!.lines[i]!.standardUncertaintyNm!, 9);
      expect(Math.abs(found.wavelengthNm! - neonNm[i]!)).toBeLessThan(2.5 * found.standardUncertaintyNm!);
    });
  });

  test('a tube of another day counts from its own central image, or from where that of the calibration went', () => {
    const calibrationFrom = benchOf(
      recordOf(still, { known: [lamp(still, 'helium', heliumNm), lamp(movedBy(15), 'mercury', mercuryNm)] }),
    );
    const today = (at: number, parts: PlainRecord): TubeAnalysis =>
      analyseBench(
        benchOf({
          instrument: { method: 'central', leastCount: "1'" },
          known: { lines: [] },
          unknown: unknownTube(movedBy(at), neonNm),
          ...parts,
        }),
        { calibrationFrom },
      ).tubes[0]!;
    for (const tube of [today(100, { central: [movedBy(100).central()] }), today(15, {})]) {
      expect(tube.candidates[0]!.substance).toBe('neon');
      expect(tube.shift).toBeNull();
      expect(worstOff(tube, neonNm)).toBeLessThan(2.5);
    }
  });

  test('check lines at the end agree with the bench as it was left', () => {
    const check = [546.07, 435.83].map((nm) => ({ wavelengthNm: nm, readings: [movedBy(8).line(nm)] }));
    const analysis = twoLamps(8, { check });
    expect(kindsOf(analysis)).toEqual(['moved-lamp']);
    for (const { residual, standardUncertainty } of analysis.calibration.checks)
      expect(Math.abs(residual!)).toBeLessThan(2 * standardUncertainty!);
  });
});

describe('what stands beside the lamps', () => {
  test('check lines of a lamp agree with the bench as it was when that lamp was read', () => {
    const moved = movedBy(8);
    const check = (on: GlassReader, nm: number): PlainRecord => ({
      check: [{ wavelengthNm: nm, readings: [on.line(nm)] }],
    });
    const known = [
      { ...lamp(still, 'helium', heliumNm), ...check(still, 501.57) },
      { ...lamp(moved, 'mercury', mercuryNm), ...check(moved, 546.07) },
    ];
    const analysis = analyseBench(benchOf(recordOf(still, { known })));
    expect(kindsOf(analysis)).toEqual(['moved-lamp']);
    expect(analysis.calibration.checks.length).toBe(2);
    for (const { residual, standardUncertainty } of analysis.calibration.checks)
      expect(Math.abs(residual!)).toBeLessThan(2 * standardUncertainty!);
  });

  test('a line is expected on the circle where it stands now', () => {
    const { bench, calibration } = twoLamps(15);
    const minutes = (text: string): number => {
      const [, degrees, arcmin] = /^(\d+)°(\d+)'$/.exec(text)!;
      return 60 * Number(degrees) + Number(arcmin);
    };
    const wanted = wantedLines('neon', true);
    expect(wanted.length).toBeGreaterThan(5);
    for (const { reading, wavelengthNm } of predictOnCurve(bench, calibration.curveNow!, wanted))
      expect(Math.abs(minutes(reading!) - minutes(movedBy(15).line(wavelengthNm)))).toBeLessThanOrEqual(1);
  });
});

describe('no move is seen', () => {
  test('where both lamps stood still', () => {
    expect(twoLamps(0).calibration.doubts).toEqual([]);
    expect(twoLamps(0).bench.moved).toBeUndefined();
  });

  test('where one line of the second lamp is misread', () => {
    const known = [lamp(still, 'helium', heliumNm), lamp(still, 'mercury', mercuryNm, [0, 30])];
    expect(kindsOf(analyseBench(benchOf(recordOf(still, { known }))))).toEqual(['slip']);
  });

  test('where the second lamp is another than it is called', () => {
    const misnamed = knownLamp(still, {
      lamp: 'helium',
      lines: [643.85, 508.58, 479.99, 467.81].map((nm, i) => ({
        nm,
        statedNm: [667.82, 587.56, 501.57, 447.15][i]!,
      })),
    });
    const known = [lamp(still, 'mercury', mercuryNm), misnamed];
    expect(kindsOf(analyseBench(benchOf(recordOf(still, { known }))))).toEqual(['wrong-lamp']);
    const three = [...known, lamp(still, 'hydrogen', hydrogenNm)];
    expect(kindsOf(analyseBench(benchOf(recordOf(still, { known: three }))))).toEqual(['wrong-lamp']);
  });

  test('within one lamp, however its lines lie', () => {
    const known = lamp(still, 'helium', heliumNm, [0, 0, 0, 0, 12, 12, 12, 12]);
    expect(kindsOf(analyseBench(benchOf(recordOf(still, { known }))))).not.toContain('moved-lamp');
  });

  // Of 200 of each kind none was accused.
  test.each([
    { family: 'flint', leastCountArcmin: 1 },
    { family: 'flint', leastCountArcmin: 5 },
    { family: 'crown', leastCountArcmin: 5 },
  ] as const)('on sound benches with all that scatters on one: %o', (kind) => {
    const told = Array.from({ length: 40 }, (_, i) => {
      // One seed draws one instrument, whatever the lamp.
      const [first, second] = (['helium', 'mercury'] as const).map(
        (name): ReturnType<typeof simulateBench>['bench'] => {
          const plan: BenchPlan = { ...kind, lamp: name };
          return simulateBench(new Random(7919 * (i + 1)), plan).bench;
        },
      );
      const known = [first!.known[0]!, second!.known[0]!];
      const lines = known.map(({ lines: of }, lampIndex) =>
        of.map((line) => ({
          ...line,
          lampIndex,
          index: line.index + (lampIndex === 0 ? 0 : known[0]!.lines.length),
        })),
      );
      const bench = {
        ...first!,
        known: known.map((each, lampIndex) => ({ ...each, lines: lines[lampIndex]! })),
      };
      return kindsOf(analyseBench(bench)).includes('moved-lamp');
    });
    expect(told.filter(Boolean)).toEqual([]);
  });
});
