/** Where readings count from: one answer for the tube's own central image, its side, and everybody who asks. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { convertReading } from '../../src/analysis/convert.ts';
import { tubes } from '../../src/lines/table.ts';
import { lampOrigin, originVariance, tubeOrigin } from '../../src/observe/origin.ts';
import { readingAt } from '../../src/observe/reading-at.ts';
import { benchScale } from '../../src/present/report/figures/bench-scale.ts';
import { computation } from '../../src/tui/computation.ts';
import { judge } from '../../src/tui/judge.ts';
import { stripLines } from '../../src/tui/views/strip.ts';
import { lookOf } from '../../src/tui/views/theme.ts';
import { benchOf, GlassReader, neonNm, recordOf, unknownTube } from '../calibrate/glass-bench.ts';

/** The table was turned by ten degrees before the tube, and its central image read again. */
const reader = new GlassReader();
const turned = new GlassReader({ centralDeg: 191 + 4 / 60 });
const record = recordOf(reader, {
  unknown: unknownTube(turned, neonNm, { central: [turned.central()] }),
});
const bench = benchOf(record);
const tube = bench.tubes[0]!;
const analysis = analyseBench(bench);
const setting = tube.lines[3]!.settings[0]!;

describe('a tube whose central image was read again after the table was turned by 10°', () => {
  test('counts from its own', () => {
    expect(tubeOrigin(bench, tube)).toMatchObject({ isOwn: true, side: 1 });
    expect(tubeOrigin(bench, tube).central!.windowsDeg[0]).toBeCloseTo(191 + 4 / 60, 9);
    expect(lampOrigin(bench).central!.windowsDeg[0]).toBeCloseTo(181 + 4 / 60, 9);
    expect(analysis.tubes[0]!.lines[3]!.wavelengthNm).toBeCloseTo(neonNm[3], -1);
  });

  test('the quick check gives the wavelength that the tube gives', () => {
    const quick = convertReading(bench, analysis.calibration, { text: '', setting }, tubes, bench, tube);
    expect(quick.wavelengthNm).toBe(analysis.tubes[0]!.lines[3]!.wavelengthNm);
  });

  test('a line is expected on the circle where it is read', () => {
    const { ordinate } = analysis.tubes[0]!.lines[3]!;
    expect(readingAt(bench, ordinate!, tubeOrigin(bench, tube))).toBe(tube.lines[3]!.texts[0]);
  });

  test('the screen does not call its readings out of sight', () => {
    const shape = { method: 'central', windows: 1, circle: { leastCountArcmin: 1, scaleDivisionArcmin: 30 } };
    const judged = judge(
      tube.lines[3]!.texts[0]!,
      { kind: 'unknown', repeatsOf: [], others: [], tube: 0 },
      shape as unknown as Parameters<typeof judge>[2],
      { analysis, computation, form: {} } as unknown as Parameters<typeof judge>[3],
    );
    expect(judged).toMatchObject({ ok: true, odd: [] });
  });

  test('the strip and the report draw its readings at their places on the circle', () => {
    const [axis] = stripLines({
      analysis,
      subject: { kind: 'tube', tube: 0, substance: 'neon' },
      width: 100,
      look: lookOf('plain', true),
    });
    const degrees = tube.lines[3]!.texts[0]!.slice(0, 3);
    expect(axis!.map(({ text }) => text).join('')).toContain(degrees);
    const scale = benchScale(bench, 0);
    expect(scale.textAt(scale.placeOf(analysis.tubes[0]!.lines[3]!.ordinate!))).toBe(tube.lines[3]!.texts[0]);
  });
});

describe('the side on which the lines lie', () => {
  const left = new GlassReader({ side: -1 });
  /** Three known lines on the left, in use or not, beside two on the right. */
  const sided = (use: boolean) => {
    const lines = [
      ...[667.82, 501.57].map((nm) => ({ wavelengthNm: nm, readings: [reader.line(nm)] })),
      ...[706.52, 587.56, 447.15].map((nm) => ({ wavelengthNm: nm, readings: [left.line(nm)], use })),
    ];
    return benchOf(
      recordOf(reader, { known: { lamp: 'helium', lines }, unknown: unknownTube(reader, neonNm) }),
    );
  };

  test('is that of the lines in use: lines left out say nothing', () => {
    expect(lampOrigin(sided(true)).side).toBe(-1);
    expect(lampOrigin(sided(false)).side).toBe(1);
  });

  test('a shared central reading cancels on one side, and counts twice on the other', () => {
    const on = (bench: ReturnType<typeof sided>) =>
      originVariance(bench, lampOrigin(bench), tubeOrigin(bench, bench.tubes[0]!), 0.25);
    expect(on(sided(false))).toBe(0);
    const { central } = lampOrigin(sided(true));
    // Twice the error: four times the variance; one count of 1' over √12 and its next tick, and one setting of 0.5'.
    expect(central).not.toBeNull();
    expect(on(sided(true))).toBeCloseTo(4 * (1 / 12 + 0.02 + 0.25), 12);
  });

  test('on a scale a tube lies off the lamp by two counts or so, whatever the hand', () => {
    const bench = benchOf({
      instrument: { method: 'scale', leastCount: 5 },
      unknown: { lines: [{ readings: [830] }] },
    });
    for (const settingVariance of [0, 100]) {
      const origins = [lampOrigin(bench), tubeOrigin(bench, bench.tubes[0]!)] as const;
      expect(originVariance(bench, ...origins, settingVariance)).toBe(100);
    }
  });
});
