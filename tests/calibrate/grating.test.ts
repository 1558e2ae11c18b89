/** Longer wavelengths deviate more: a grating, and no fault of any line. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { asScale } from '../../src/analysis/as-scale.ts';
import { formatAngle } from '../../src/angle/format-angle.ts';
import type { Bench } from '../../src/record/bench.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { cataloguePrism, minimumDeviationArcmin } from '../score/prism.ts';

/** Air wavelengths (NIST SRD 108). */
const mercuryNm = [404.66, 435.83, 491.61, 546.07, 576.96, 579.07, 623.44, 690.75];
const neonNm = [585.25, 594.48, 614.31, 640.22, 650.65, 667.83];

/** Light straight on a grating, first order: sin δ = λ·N (Born & Wolf, section 8.6.1). */
const onGrating =
  (linesPerMm: number) =>
  (nm: number): number =>
    (Math.asin(nm * 1e-6 * linesPerMm) * 180) / Math.PI;
const prism = cataloguePrism('F2', 60);
const onPrism = (nm: number): number => minimumDeviationArcmin(prism, nm) / 60;

interface Bending {
  readonly deviationDeg: (nm: number) => number;
  readonly stated?: (nm: number, at: number) => number | undefined;
  readonly centralDeg?: number | null;
  readonly known?: readonly number[];
}

const text = (deg: number): string => formatAngle(deg, 1);

function benchOf({ deviationDeg, stated = (nm) => nm, centralDeg = 181, known = mercuryNm }: Bending): Bench {
  const zero = centralDeg ?? 181;
  const result = readRecord(
    JSON.stringify({
      whichgas: 1,
      instrument: { method: 'central', leastCount: "1'" },
      ...(centralDeg === null ? {} : { central: [text(zero)] }),
      known: {
        lamp: 'mercury',
        lines: known.map((nm, at) => ({
          wavelengthNm: stated(nm, at),
          readings: [text(zero + deviationDeg(nm))],
        })),
      },
      unknown: { lines: neonNm.map((nm) => ({ readings: [text(zero + deviationDeg(nm))] })) },
    }),
  );
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.bench;
}

const rising = (bench: Bench) =>
  analyseBench(bench).calibration.warnings.find(({ code }) => code === 'rises-with-wavelength');

describe('a grating in the place of the prism', () => {
  test('has no refractive indices, whatever apex angle the record names', () => {
    const apexAngle = { valueDeg: 60, uDeg: null };
    const indicesOf = (deviationDeg: Bending['deviationDeg']) =>
      analyseBench({ ...benchOf({ deviationDeg }), apexAngle }).calibration.indices;
    expect(indicesOf(onGrating(600))).toBeNull();
    expect(indicesOf(onPrism)?.nd?.value).toBeCloseTo(1.62, 2);
  });

  test.each([100, 300, 600, 1200])('of %s lines per mm is named, and no line is blamed', (linesPerMm) => {
    const { calibration } = analyseBench(benchOf({ deviationDeg: onGrating(linesPerMm) }));
    expect(calibration.warnings[0]!.code).toBe('rises-with-wavelength');
    expect(calibration.warnings[0]!.message).toMatch(/a grating\?.*--as-scale/);
    const lines = Number(/with (\d+) lines per mm/.exec(calibration.warnings[0]!.message)![1]);
    expect(Math.abs(lines - linesPerMm)).toBeLessThan(0.005 * linesPerMm);
    expect(calibration.doubts).toEqual([]);
    expect(calibration.lines.map(({ status, message }) => [status, message])).toEqual(
      mercuryNm.map(() => ['used', null]),
    );
    expect(calibration.curve).toBeNull();
  });

  test('three lines are enough, two are not', () => {
    const deviationDeg = onGrating(600);
    expect(rising(benchOf({ deviationDeg, known: mercuryNm.slice(1, 4) }))).toBeDefined();
    expect(rising(benchOf({ deviationDeg, known: mercuryNm.slice(1, 3) }))).toBeUndefined();
  });

  test('taken as a scale its tube is found', () => {
    const { calibration, tubes } = analyseBench(asScale(benchOf({ deviationDeg: onGrating(600) })));
    expect(calibration.lines.every(({ status }) => status === 'used')).toBe(true);
    expect(tubes[0]!.candidates[0]!.substance).toBe('neon');
    for (const [at, line] of tubes[0]!.lines.entries())
      expect(Math.abs(line.wavelengthNm! - neonNm[at]!)).toBeLessThan(3 * line.standardUncertaintyNm!);
  });
});

describe('a prism', () => {
  test('is never taken for a grating, with a slip or two names exchanged neither', () => {
    expect(rising(benchOf({ deviationDeg: onPrism }))).toBeUndefined();
    const exchanged = [435.83, 404.66, ...mercuryNm.slice(2)];
    expect(rising(benchOf({ deviationDeg: onPrism, stated: (_, at) => exchanged[at] }))).toBeUndefined();
  });

  test('with its wavelengths the wrong way round: both are asked, and the names are looked at as ever', () => {
    const backwards = [...mercuryNm].reverse();
    const warning = rising(benchOf({ deviationDeg: onPrism, stated: (_, at) => backwards[at] }));
    expect(warning!.message).toContain('the wrong way round');
    expect(warning!.message).not.toContain('lines per mm');
  });
});

describe('a circle taken as a scale', () => {
  test('finds its own zero where the central image was not read', () => {
    const { tubes } = analyseBench(asScale(benchOf({ deviationDeg: onPrism, centralDeg: null })));
    expect(tubes[0]!.candidates[0]!.substance).toBe('neon');
  });

  test('hangs together through 360°', () => {
    const scaled = asScale(benchOf({ deviationDeg: onPrism, centralDeg: 310.5 }));
    const places = scaled.known[0]!.lines.map(({ settings: [setting] }) =>
      setting?.kind === 'one-side' ? setting.windows[0]! : Number.NaN,
    );
    expect(Math.max(...places) - Math.min(...places)).toBeLessThan(5);
    expect(analyseBench(scaled).tubes[0]!.candidates[0]!.substance).toBe('neon');
  });

  test('of both sides is half the angle, of two windows their mean, and a scale stays what it is', () => {
    const bench = benchOf({ deviationDeg: onPrism });
    const with1 = (setting: Bench['central'][number]): Bench => ({
      ...bench,
      tubes: [],
      known: [{ ...bench.known[0]!, lines: [{ ...bench.known[0]!.lines[0]!, settings: [setting] }] }],
    });
    const placeOf = (of: Bench) => asScale(of).known[0]!.lines[0]!.settings;
    expect(placeOf(with1({ kind: 'both-sides', left: [30], right: [290] }))).toEqual([
      { kind: 'one-side', windows: [50] },
    ]);
    expect(placeOf(with1({ kind: 'one-side', windows: [30, 210.5] }))).toEqual([
      { kind: 'one-side', windows: [30.25] },
    ]);
    const scale = asScale(bench);
    expect(asScale(scale)).toBe(scale);
    expect(scale).toMatchObject({ method: 'scale', leastCount: 1 / 60, central: [], apexAngle: null });
  });
});

test("Hartmann's formula is told of a prism taken as a scale, and not of a grating, which has no pole", () => {
  const hartmannOf = (deviationDeg: (nm: number) => number) =>
    analyseBench(asScale(benchOf({ deviationDeg }))).calibration.hartmann;
  for (const linesPerMm of [100, 300, 600])
    expect(hartmannOf(onGrating(linesPerMm)), `${linesPerMm}`).toBeNull();
  expect(hartmannOf(onPrism)!.lambda0Nm).toBeGreaterThan(0);
});
