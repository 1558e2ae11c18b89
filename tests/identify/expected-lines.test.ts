/** A tube's lines as a bench shows them: where they are read, and what becomes of those that it does not resolve. */
import { describe, expect, test } from 'vitest';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';
import { FAINTEST_PROMINENCE, HEAD_BIAS, PROMINENCE_SD_FACTOR } from '../../src/identify/assumptions.ts';
import type { BenchView } from '../../src/identify/bench/bench-hypothesis.ts';
import { varianceClass } from '../../src/identify/evidence/density-table.ts';
import {
  type LineOnCurve,
  linePlaces,
  linesOnCurve,
  mergedLines,
  placedLines,
  prominenceWith,
} from '../../src/identify/spectrum/expected-lines.ts';
import type { TubeLine, TubeSpectrum } from '../../src/lines/spectrum.ts';

/** A scale that runs against the wavelength, 2 units a nm. */
const curve = {
  domainNm: [400, 700],
  ordinateAt: (nm: number) => 2000 - 2 * nm,
  slopeAt: () => -2,
} as unknown as CalibrationCurve;

const tubeLine = (wavelengthNm: number, more: Partial<TubeLine> = {}): TubeLine =>
  ({
    wavelengthNm,
    uNm: 0,
    kind: 'line',
    degraded: null,
    prominence: 0,
    component: 'atom',
    ...more,
  }) as TubeLine;
const tubeOf = (lines: readonly TubeLine[], strengthSd = 0): TubeSpectrum =>
  ({ substance: 'a gas', components: [{ name: 'atom', strengthSd }], lines }) as unknown as TubeSpectrum;

describe('lines on a curve', () => {
  test('come in ascending order of the ordinate, those beyond the curve left out', () => {
    const found = linesOnCurve(tubeOf([500, 600, 399, 701, 550].map((nm) => tubeLine(nm))), curve);
    expect(found.map(({ ordinate }) => ordinate)).toEqual([800, 900, 1000]);
    const atItsEnds = tubeOf([400, 400.1, 699.9, 700].map((nm) => tubeLine(nm)));
    expect(linesOnCurve(atItsEnds, curve).map(({ readAtNm }) => readAtNm)).toEqual([699.9, 400.1]);
  });

  test('know their component, how strong it may be, and how well their wavelength is known', () => {
    const components = [
      { name: 'atom', strengthSd: 0 },
      { name: 'ion', strengthSd: 0.8 },
    ];
    const tube = {
      ...tubeOf([
        tubeLine(500, { component: 'ion', uNm: 0.05 }),
        tubeLine(600),
        // A component 0.8 stronger than usual shows this one, the other nothing so faint.
        tubeLine(510, { component: 'ion', prominence: FAINTEST_PROMINENCE - 0.7 }),
        tubeLine(520, { component: 'ion', prominence: FAINTEST_PROMINENCE - 0.9 }),
        tubeLine(530, { prominence: FAINTEST_PROMINENCE - 0.7 }),
      ]),
      components,
    };
    const found = linesOnCurve(tube, curve);
    expect(found.map(({ readAtNm, component, strengthSd }) => [readAtNm, component, strengthSd])).toEqual([
      [600, 0, 0],
      [510, 1, 0.8],
      [500, 1, 0.8],
    ]);
    // 0.05 nm of 2 units each.
    expect(found.map(({ ownVariance }) => ownVariance)).toEqual([0, 0, expect.closeTo(0.01, 12)]);
  });

  test.each([
    ['red', +1],
    ['violet', -1],
  ] as const)(
    'the head of a band shaded to the %s is read a little to that side, not sharply',
    (degraded, side) => {
      const [head] = linesOnCurve(tubeOf([tubeLine(500, { kind: 'band-head', degraded })]), curve);
      expect(head!.readAtNm).toBeCloseTo(500 + side * HEAD_BIAS.meanNm, 12);
      expect(head!.ordinate).toBeCloseTo(1000 - side * 2 * HEAD_BIAS.meanNm, 12);
      expect(head!.ownVariance).toBeCloseTo((2 * HEAD_BIAS.sdNm) ** 2, 12);
    },
  );

  test('a line that nobody could see is none, unless its component may be stronger than usual', () => {
    const faint = [tubeLine(500, { prominence: FAINTEST_PROMINENCE - 0.5 })];
    expect(linesOnCurve(tubeOf(faint), curve)).toHaveLength(0);
    expect(linesOnCurve(tubeOf(faint, 0.6), curve)).toHaveLength(1);
    expect(
      linesOnCurve(tubeOf([tubeLine(500, { prominence: FAINTEST_PROMINENCE + 0.01 })]), curve),
    ).toHaveLength(1);
  });
});

describe('lines through a view of the bench', () => {
  const places = 44;
  const view = {
    shift: 7,
    common: { modes: ['level', 'lean'] },
    // Tables from 370 nm in steps of 10 nm.
    table: {
      residualVariance: Float64Array.from({ length: places }, () => 0.09),
      modes: [
        new Float64Array(places).fill(2),
        Float64Array.from({ length: places }, (_, i) => (370 + 10 * i - 550) / 100),
      ],
    },
  } as unknown as BenchView;
  const placed = (tube: TubeSpectrum) => {
    const lines = linesOnCurve(tube, curve);
    return placedLines(lines, linePlaces(lines, view));
  };

  test('are shifted with it, as uncertain as curve and line together, each mode where the line is', () => {
    const tube = tubeOf(
      [tubeLine(500, { uNm: 0.1, prominence: -1, prominenceSd: 0.5, expected: false })],
      0.4,
    );
    const [line] = placed(tube);
    expect(line).toEqual({
      wavelengthNm: 500,
      members: [{ substance: 'a gas', wavelengthNm: 500, ordinate: 1000, prominence: -1, component: 0 }],
      ordinate: 1007,
      variance: expect.closeTo(0.09 + 0.2 ** 2, 12),
      varianceClass: varianceClass(0.13),
      prominence: -1,
      prominenceSd: 0.5 * PROMINENCE_SD_FACTOR,
      strengthSd: 0.4,
      component: 0,
      expected: false,
      modes: [2, expect.closeTo(-0.5, 9)],
    });
  });

  test('of a mixture are those of the tube that they are of', () => {
    const mixed = tubeOf([tubeLine(500, { substance: 'argon' })]);
    expect(placed(mixed)[0]!.members[0]!.substance).toBe('argon');
  });
});

const onCurve = (ordinate: number, prominence: number, component = 0): LineOnCurve => ({
  wavelengthNm: 1000 - ordinate / 2,
  members: [{ substance: 'a gas', wavelengthNm: 1000 - ordinate / 2, ordinate, prominence, component }],
  readAtNm: 1000 - ordinate / 2,
  ordinate,
  ownVariance: 0.01,
  prominence,
  prominenceSd: 0.3,
  strengthSd: 0,
  component,
  expected: true,
});

describe('lines that are not resolved', () => {
  test('are one from the first of them to just within the resolution, and two beyond', () => {
    const lines = [onCurve(100, 0), onCurve(101, 0), onCurve(102, 0)];
    expect(mergedLines(lines, 2).map(({ members }) => members.length)).toEqual([3]);
    expect(mergedLines(lines, 1.9).map(({ members }) => members.length)).toEqual([2, 1]);
    expect(mergedLines(lines, 0)).toEqual(lines);
  });

  test('are as bright as both, at their common weight, less sharply, and called by the brighter', () => {
    const [both] = mergedLines([onCurve(100, 0), onCurve(104, Math.log(3))], 5);
    expect(Math.exp(both!.prominence)).toBeCloseTo(4, 9);
    expect(both!.ordinate).toBeCloseTo((100 + 3 * 104) / 4, 9);
    // Half of their spread: 1/4 · 3² + 3/4 · 1².
    expect(both!.ownVariance).toBeCloseTo(0.01 + (0.25 * 9 + 0.75) / 2, 9);
    expect(both!.wavelengthNm).toBe(1000 - 104 / 2);
  });

  test('gain with the component that each is of', () => {
    const [both] = mergedLines([onCurve(100, 0, 0), onCurve(101, 0, 1)], 5);
    expect(Math.exp(prominenceWith(both!, [0, Math.log(5)]))).toBeCloseTo(1 + 5, 9);
    expect(prominenceWith(onCurve(100, 0.5, 1), [9, -1])).toBe(-0.5);
    const [alike] = mergedLines([onCurve(100, 0, 1), onCurve(101, 0, 1)], 5);
    expect(prominenceWith(alike!, [9, -1])).toBeCloseTo(Math.log(2) - 1, 12);
  });
});
