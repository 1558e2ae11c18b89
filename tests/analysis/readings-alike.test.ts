/** Two readings that read alike, of which one was misread by a division of the scale: that one of them is, is told. */
import { expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { benchOf } from '../calibrate/glass-bench.ts';
import { cataloguePrism, minimumDeviationArcmin } from '../score/prism.ts';

// NIST SRD 108.
const mercury = [404.66, 435.83, 491.61, 546.07, 576.96, 579.07, 623.44, 690.75];
const helium = [447.15, 471.31, 501.57, 587.56, 706.52];
/** By it helium's 667.82 lies 30.0' from its 587.56. */
const prism = cataloguePrism('F2', 57.5);

const reading = (nm: number): string => {
  const arcmin = Math.round(30 * 60 + minimumDeviationArcmin(prism, nm));
  return `${Math.floor(arcmin / 60)}°${String(arcmin % 60).padStart(2, '0')}'`;
};

const doubtsWith = (readings: readonly string[]) =>
  analyseBench(
    benchOf({
      instrument: { method: 'central', leastCount: "1'" },
      central: ["30°00'"],
      known: {
        lamp: 'mercury',
        lines: mercury.map((nm) => ({ wavelengthNm: nm, readings: [reading(nm)] })),
      },
      unknown: { lines: readings.map((text) => ({ readings: [text] })) },
    }),
  ).tubes[0]!.doubts.map(({ message }) => message);

const sound = helium.map((nm) => reading(nm));

test('a reading misread for another of the same tube: one of the two is told to be', () => {
  // 667.82 with a half degree missed.
  const [doubt] = doubtsWith([...sound, reading(587.56)]).filter((each) => each.includes('misread'));
  expect(doubt).toContain('one of its readings is probably misread: ');
  expect(doubt).toContain('reading 4, ');
  expect(doubt).toContain(', or reading 6, ');
});

test('none is where every line was read where it stands', () => {
  expect(doubtsWith([...sound, reading(667.82)])).toEqual([]);
});

test('they may also be one line written down twice, and that is said', () => {
  const [doubt] = doubtsWith([...sound, reading(587.56)]).filter((each) => each.includes('misread'));
  expect(doubt).toContain('it may also be one line written down twice');
});
