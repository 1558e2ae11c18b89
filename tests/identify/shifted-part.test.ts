/** All readings of a tube shifted, but in one window or on one side only: it is named, and not the bench. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { formatAngle } from '../../src/angle/format-angle.ts';
import { benchOf, GlassReader, heliumNm, mercuryNm, type PlainRecord } from '../calibrate/glass-bench.ts';

const reader = new GlassReader();
const text = (arcmin: number): string => formatAngle((((arcmin / 60) % 360) + 360) % 360, 1);

/** What is said of a tube of helium; `reading`: of a deviation, with whether it is the tube's. */
function said(
  instrument: PlainRecord,
  reading: (deviationArcmin: number, isTube: boolean) => unknown,
  more: PlainRecord = {},
): string {
  const read = (nm: number, isTube: boolean) => [reading(Math.round(reader.deviationArcmin(nm)), isTube)];
  const { tubes } = analyseBench(
    benchOf({
      instrument: { leastCount: "1'", ...instrument },
      known: {
        lamp: 'mercury',
        lines: mercuryNm.slice(1).map((nm) => ({ wavelengthNm: nm, readings: read(nm, false) })),
      },
      unknown: { label: 'T', lines: heliumNm.slice(1, 7).map((nm) => ({ readings: read(nm, true) })) },
      ...more,
    }),
  );
  expect(tubes[0]!.candidates[0]!.substance).toBe('helium');
  return tubes[0]!.doubts.find(({ kind }) => kind === 'moved-central')!.message;
}

describe.each([1, -1])('two windows, lines on the side %d of the central image', (side) => {
  const [first, second] = [181 * 60 + 4, 60 + 1];
  const withWindows = (offs: readonly [number, number]): string =>
    said(
      { method: 'central', windows: 2 },
      (deviation, isTube) =>
        [first, second].map((zero, i) => text(zero + side * (deviation + (isTube ? offs[i]! : 0)))),
      { central: [[text(first), text(second)]] },
    );

  test('the one that is off by itself is named, with what it is off by', () => {
    expect(withWindows([0, 10])).toMatch(
      /^T: in the second window all .* lie (?:9|10)\.\d+' .* further out than/,
    );
    expect(withWindows([-12, 0])).toMatch(
      /^T: in the first window all .* lie 1[12]\.\d+' .* further in than/,
    );
    expect(withWindows([0, 10])).toContain('in the first they do not');
  });

  test('both off: the bench was moved', () => {
    expect(withWindows([8, 8])).toMatch(
      /^T: all its readings lie [78]\.\d+' .* was the bench, the slit or the table/,
    );
    expect(withWindows([9, 6])).toMatch(/^T: all its readings lie 7\.\d+' /);
  });
});

describe.each([1, -1])('both sides, the left at larger angles or at smaller (%d)', (larger) => {
  const middle = 181 * 60 + 4;
  const withSides = (left: number, right: number): string =>
    said({ method: 'both-sides' }, (deviation, isTube) => ({
      left: text(middle + larger * (deviation + (isTube ? left : 0))),
      right: text(middle - larger * (deviation + (isTube ? right : 0))),
    }));

  test('the one that is off by itself is named', () => {
    expect(withSides(10, 0)).toMatch(/^T: on the left side all .* lie (?:9|10)\.\d+' .* further out than/);
    expect(withSides(0, -10)).toMatch(/^T: on the right side all .* lie (?:9|10)\.\d+' .* further in than/);
    expect(withSides(0, 10)).toContain('on the left they do not');
  });

  test('both off: the prism is set otherwise', () =>
    expect(withSides(8, 8)).toMatch(/^T: all its readings lie [78]\.\d+' .* further apart/));
});
