/** What all readings of a tube share, and what may be wrong with it: from rows of a ranking made by hand. */
import { describe, expect, test } from 'vitest';
import { formatAngle } from '../../src/angle/format-angle.ts';
import { ownCentralFindings, sharedFindings } from '../../src/identify/findings/central-findings.ts';
import type { Row } from '../../src/identify/rank/rank.ts';
import { benchConstants } from '../../src/observe/bench-constants.ts';
import { movedProbability } from '../../src/observe/bench-move.ts';
import type { CentralHypothesis } from '../../src/observe/central-hypotheses.ts';
import { lampOrigin, originShift, tubeOrigin } from '../../src/observe/origin.ts';
import { benchOf } from '../calibrate/glass-bench.ts';
import { straightCurve } from '../calibrate/straight-curve.ts';

const knocked = { sd: 12, reach: 300 };

/** A tube whose own central image stands so many arc-minutes from the calibration's; null: it has none. */
function benchWith(ownArcmin: readonly number[] | null) {
  const bench = benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    central: ["100°00'"],
    known: [],
    unknown: {
      lines: [{ readings: ["149°00'"] }, { readings: ["150°00'"] }],
      ...(ownArcmin === null
        ? {}
        : { central: ownArcmin.map((arcmin) => formatAngle(100 + arcmin / 60, 1)) }),
    },
  });
  const state = { origin: lampOrigin(bench), constants: benchConstants(bench), settingVariance: 0.5 };
  return { bench, tube: bench.tubes[0]!, state };
}

const row = (
  probability: number,
  explanation: 'plain' | 'central-misread' | 'moved' | null,
  more: { readonly central?: CentralHypothesis; readonly movedShare?: number } = {},
): Row =>
  ({
    probability,
    reading:
      explanation === null
        ? null
        : {
            found: { movedShare: more.movedShare ?? 0 },
            assumption: { likelihoods: { view: { explanation, central: more.central ?? null } } },
          },
  }) as unknown as Row;

const hypothesis = (apartArcmin: number, isMisread: boolean): CentralHypothesis => ({
  shiftArcmin: 0,
  probability: 1,
  alternatives: [
    { probability: 1, misread: isMisread ? [{ readBy: 'tube', readingDeg: 100, corrected: null }] : [] },
  ],
  apartArcmin,
});

type Common = Parameters<typeof sharedFindings>[5];
function shared(
  ownArcmin: readonly number[] | null,
  rows: readonly Row[],
  common: Common = null,
  day: 'same' | 'another' = 'same',
) {
  const { bench, tube, state } = benchWith(ownArcmin);
  return sharedFindings(bench, tube, state, straightCurve, rows, common, day);
}

describe('a shift of all readings', () => {
  const common = { value: 9, u: 1.5 };

  test('where the row says that the bench was moved: with the share of its evidence that says so', () =>
    expect(shared(null, [row(0.8, 'moved', { movedShare: 0.75 }), row(0.2, 'plain')], common)).toEqual([
      { what: 'moved', probability: expect.closeTo(0.6, 12), shift: common, only: null, isBack: false },
    ]));

  test('where it only turned out so: as probable as such a difference makes it', () => {
    const expected = movedProbability(9, 2.25, knocked);
    for (const lead of [row(0.8, 'plain'), row(0.8, null)])
      expect(shared(null, [lead, row(0.2, 'plain')], common)).toEqual([
        {
          what: 'moved',
          probability: expect.closeTo(0.8 * expected, 9),
          shift: common,
          only: null,
          isBack: false,
        },
      ]);
  });

  test('is none where a central reading is misread, nor without one', () => {
    expect(shared(null, [row(0.8, 'central-misread', { central: hypothesis(0, true) })], common)).toEqual([]);
    expect(shared(null, [row(0.8, 'plain')])).toEqual([]);
  });
});

describe('a tube’s own central image', () => {
  const plain = row(1, 'plain', { central: hypothesis(0, false) });
  const { bench, tube, state } = benchWith([0]);
  const { u } = originShift(state.origin, tubeOrigin(bench, tube, state.origin), state.settingVariance)!;
  const noticed = Math.ceil(4 * u + 1);

  test('that differs is told from four standard uncertainties and a count on, either way', () => {
    expect(shared([noticed - 1], [plain])).toEqual([]);
    expect(shared([1 - noticed], [plain])).toEqual([]);
    for (const off of [noticed, -noticed]) {
      const [found, ...more] = shared([off], [plain]);
      expect(more).toEqual([]);
      expect(found).toMatchObject({
        what: 'central-differs',
        probability: expect.closeTo(movedProbability(off, u ** 2, knocked), 6),
        u: expect.closeTo(u, 9),
        misread: false,
      });
      expect(Math.abs((found as { apartArcmin: number }).apartArcmin)).toBeCloseTo(noticed, 6);
    }
    expect(shared([40], [row(1, null)])).toHaveLength(1);
  });

  test('from another day is turned, and no fault', () =>
    expect(shared([40], [plain], null, 'another')).toEqual([]));

  test('that is misread is told with the part of the rows that take it so', () => {
    const misread = { central: hypothesis(0, true) };
    const rows = [
      row(0.5, 'central-misread', misread),
      row(0.1, 'plain'),
      row(0.2, 'central-misread', misread),
      row(0.2, null),
    ];
    expect(shared([30], rows)).toEqual([
      {
        what: 'central-misread',
        probability: expect.closeTo(0.7 / 0.8, 12),
        alternatives: misread.central.alternatives,
      },
    ]);
  });

  test('that is misread and even so differs is both', () => {
    const misread = { central: hypothesis(noticed, true) };
    const found = shared([30], [row(1, 'central-misread', misread)]);
    expect(found).toMatchObject([
      { what: 'central-misread', probability: 1 },
      { what: 'central-differs', apartArcmin: noticed, misread: true },
    ]);
    const near = { central: hypothesis(noticed - 1, true) };
    expect(shared([30], [row(1, 'central-misread', near)])).toHaveLength(1);
  });
});

describe('readings of a tube’s own central list', () => {
  const own = (arcmin: readonly number[] | null) => {
    const { bench, tube, state } = benchWith(arcmin);
    return ownCentralFindings(bench, tube, state);
  };

  test('are told where one is out of their mean', () => {
    expect(own([0, 0, 30])).toMatchObject([
      { what: 'central-apart', found: { spreadArcmin: expect.closeTo(30, 6) } },
    ]);
    expect(own([0, 1, 2])).toEqual([]);
    expect(own(null)).toEqual([]);
  });

  test('are told where two of them lie apart, once: not where one is said to be misread', () => {
    expect(own([0, 6])).toMatchObject([{ what: 'central-apart', found: { leftOut: [] } }]);
    expect(own([0, 3])).toEqual([]);
    const { bench, tube, state } = benchWith([0, 30]);
    const misread = (readBy: 'tube' | 'calibration') => ({
      what: 'central-misread' as const,
      probability: 1,
      alternatives: [{ probability: 1, misread: [{ readBy, readingDeg: 100, corrected: null }] }],
    });
    expect(ownCentralFindings(bench, tube, state, [misread('tube')])).toEqual([]);
    expect(ownCentralFindings(bench, tube, state, [misread('calibration')])).toHaveLength(1);
  });

  test('and of a list that several tubes share once, with the first', () => {
    const { bench, tube, state } = benchWith([0, 0, 30]);
    const sharing = { ...bench, central: tube.central! };
    expect(ownCentralFindings(sharing, tube, state)).toHaveLength(1);
    expect(ownCentralFindings(sharing, { ...tube, index: 1 }, state)).toEqual([]);
    expect(ownCentralFindings(bench, { ...tube, index: 1 }, state)).toHaveLength(1);
  });
});
