/** What is told of a tube whatever it is: what it lacks, which tubes it may be, and its lines in numbers. */
import { expect, test } from 'vitest';
import { calibrate } from '../../src/calibrate/calibrate.ts';
import { identifyTube } from '../../src/identify/identify.ts';
import { benchOf, heliumNm, type PlainRecord, recordOf, unknownTube } from '../calibrate/glass-bench.ts';
import { reader } from './tube-bench.ts';

function identified(nms: readonly number[], more: PlainRecord = {}, parts: PlainRecord = {}) {
  const bench = benchOf(recordOf(reader, { unknown: unknownTube(reader, nms, more), ...parts }));
  const { calibration, state } = calibrate(bench);
  return identifyTube(bench, bench.tubes[0]!, calibration, state);
}
const shelf = ['helium', 'neon'];

test('it lacks a calibration, readings, or more of them', () => {
  expect(identified([585.25], { shelf }, { known: { lamp: 'helium', lines: [] } })).toMatchObject({
    lacks: 'calibration',
    candidates: [],
    readings: 0,
  });
  expect(identified([], { shelf })).toMatchObject({ lacks: 'readings', candidates: [], readings: 0 });
  expect(identified([585.25], { shelf })).toMatchObject({ lacks: 'more-readings', readings: 1 });
  expect(identified([640.22, 585.25], { shelf })).toMatchObject({ lacks: null, readings: 2 });
});

test('it may be what stands on the shelf, and none of that', () => {
  const names = (of: readonly string[]) =>
    identified([640.22, 585.25], { shelf: of })
      .candidates.filter((row) => row.with.length === 0)
      .flatMap(({ substance, indistinguishable }) => [substance, ...indistinguishable])
      .sort();
  expect(names(shelf)).toEqual(['helium', 'neon', 'unlisted']);
  expect(names(['neon', 'mercury', 'HgCd'])).toEqual(['mercury', 'mercury-cadmium', 'neon', 'unlisted']);
});

test('its lines have a deviation, a wavelength and what is in its uncertainty', () => {
  const { lines } = identified([640.22, 585.25], { shelf });
  for (const [i, nm] of [640.22, 585.25].entries()) {
    const line = lines[i]!;
    expect(line).toMatchObject({ index: i, extrapolated: false, status: 'used', finding: null });
    expect(line.correctedNm).toBeNull();
    expect(line.ordinate).toBeCloseTo(60 * line.deviationDeg!, 9);
    expect(Math.abs(line.deviationDeg! * 60 - reader.deviationArcmin(nm))).toBeLessThan(1);
    expect(Math.abs(line.wavelengthNm! - nm)).toBeLessThan(3 * line.standardUncertaintyNm!);
    expect(line.budget.length).toBeGreaterThan(2);
  }
});

test('a line beyond all known ones is extrapolated, one without a wavelength too; one left out has no numbers', () => {
  const middle = {
    lamp: 'helium',
    lines: heliumNm.slice(1, 7).map((nm) => ({ wavelengthNm: nm, readings: [reader.line(nm)] })),
  };
  const { lines } = identified([585.25, 700], { shelf }, { known: middle });
  expect(lines.map(({ extrapolated }) => extrapolated)).toEqual([false, true]);
  const bench = benchOf(
    recordOf(reader, {
      unknown: {
        lines: [
          { readings: [reader.line(585.25)], use: false },
          { readings: [reader.line(585.25, 1800)] },
          { readings: [reader.line(640.22)] },
        ],
      },
    }),
  );
  const { calibration, state } = calibrate(bench);
  const found = identifyTube(bench, bench.tubes[0]!, calibration, state).lines;
  expect(found[0]).toMatchObject({
    ordinate: null,
    deviationDeg: null,
    wavelengthNm: null,
    extrapolated: false,
    budget: [],
  });
  expect(found[1]).toMatchObject({
    wavelengthNm: null,
    standardUncertaintyNm: null,
    extrapolated: true,
    budget: [],
  });
});
