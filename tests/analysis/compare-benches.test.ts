/** Two records side by side: who is off, and what follows from both. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { compareBenches } from '../../src/analysis/compare-benches.ts';
import {
  benchOf,
  GlassReader,
  heliumNm,
  knownLamp,
  neonNm,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';

const reader = new GlassReader();
const turned = new GlassReader({ centralDeg: 201 + 4 / 60 });
const tube = (of: GlassReader, nms: readonly number[], more: object = {}) =>
  unknownTube(of, nms, { label: 'tube C', ...more });
const before = analyseBench(benchOf(recordOf(reader, { unknown: tube(reader, neonNm) })));

describe('the station', () => {
  test('a known line misread in one of the records is named, in whichever it is', () => {
    const lines = heliumNm.map((nm) => ({ nm, slipArcmin: nm === 587.56 ? 30 : 0 }));
    const now = analyseBench(
      benchOf(recordOf(turned, { known: knownLamp(turned, { lamp: 'helium', lines }) })),
    );
    const found = compareBenches(before, now);
    expect(found.station.findings).toEqual(['central-moved']);
    expect(found.known.filter(({ off }) => off !== null)).toMatchObject([
      { wavelengthNm: 587.56, off: 'now' },
    ]);
    expect(found.known.find(({ wavelengthNm }) => wavelengthNm === 587.56)!.difference.value).toBeCloseTo(
      30,
      6,
    );
    expect(compareBenches(now, before).known.filter(({ off }) => off !== null)).toMatchObject([
      { off: 'before' },
    ]);
  });
});

test('known lines are told from red to violet, in whatever order they stand in the records', () => {
  const lines = [447.15, 706.52, 501.57, 667.82].map((nm) => ({ nm }));
  const now = analyseBench(
    benchOf(recordOf(turned, { known: knownLamp(turned, { lamp: 'helium', lines }) })),
  );
  expect(compareBenches(before, now).known.map(({ wavelengthNm }) => wavelengthNm)).toEqual([
    706.52, 667.82, 501.57, 447.15,
  ]);
});

describe('two partners at one tube', () => {
  const mine = neonNm.filter((nm) => nm !== 633.44);
  const now = analyseBench(benchOf(recordOf(turned, { unknown: tube(turned, mine, { label: 'Tube c' }) })));
  const [found] = compareBenches(before, now).tubes;

  test('their readings are paired, and what only one has stays alone', () => {
    expect(found!.lines).toHaveLength(neonNm.length);
    expect(found!.lines.filter((line) => line.now === null)).toMatchObject([
      { before: neonNm.indexOf(633.44) },
    ]);
    for (const line of found!.lines) if (line.now !== null) expect(mine[line.now]).toBe(neonNm[line.before!]);
  });

  test('the joint wavelength lies between the two, and is surer than either', () => {
    for (const { before: old, now: fresh, wavelengthNm, standardUncertaintyNm } of found!.lines) {
      if (old === null || fresh === null) continue;
      const [a, b] = [before.tubes[0]!.lines[old]!, now.tubes[0]!.lines[fresh]!];
      expect(wavelengthNm).toBeGreaterThanOrEqual(Math.min(a.wavelengthNm!, b.wavelengthNm!) - 1e-9);
      expect(wavelengthNm).toBeLessThanOrEqual(Math.max(a.wavelengthNm!, b.wavelengthNm!) + 1e-9);
      // GUM 5.1: two independent values weighted by 1/u².
      const u = 1 / Math.sqrt(1 / a.standardUncertaintyNm! ** 2 + 1 / b.standardUncertaintyNm! ** 2);
      expect(standardUncertaintyNm).toBeCloseTo(u, 9);
    }
  });

  test.each(['before', 'now'] as const)(
    "a slip of one of them (%s) is told beside the other's reading, and has no say in the wavelength",
    (whose) => {
      const at = neonNm.indexOf(614.31);
      const unknown = tube(turned, neonNm) as { lines: { readings: string[] }[] };
      unknown.lines[at]!.readings = [turned.line(614.31, 30)];
      const slipped = analyseBench(benchOf(recordOf(turned, { unknown })));
      const [records, other] = whose === 'now' ? [[before, slipped], before] : [[slipped, before], before];
      const [tubes] = compareBenches(records[0]!, records[1]!).tubes;
      const line = tubes!.lines.find((each) => each[whose] === at);
      expect(line).toMatchObject({ before: at, now: at, off: whose });
      expect(line!.wavelengthNm).toBe(other.tubes[0]!.lines[at]!.wavelengthNm);
      expect(tubes!.lines.filter(({ off }) => off !== null)).toEqual([line]);
    },
  );

  test('tubes of other labels are not set beside each other', () => {
    const other = analyseBench(
      benchOf(recordOf(reader, { unknown: tube(reader, neonNm, { label: 'tube D' }) })),
    );
    expect(compareBenches(before, other).tubes).toEqual([]);
  });
});
