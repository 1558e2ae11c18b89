/** The report of a bench that was moved between its two lamps: one frame in tables and figures, and where it counts from. */
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import type { Analysis } from '../../src/analysis/types.ts';
import { curveFigure, residualFigure } from '../../src/present/report/figures/calibration-figures.ts';
import { renderReport } from '../../src/present/report/write-report.ts';
import {
  benchOf,
  GlassReader,
  heliumNm,
  knownLamp,
  linesAt,
  mercuryNm,
  neonNm,
  type PlainRecord,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';

const still = new GlassReader();

function analysed(arcmin: number, parts: PlainRecord = {}): Analysis {
  const moved = new GlassReader({ centralDeg: 181 + (4 + arcmin) / 60 });
  return analyseBench(
    benchOf(
      recordOf(still, {
        instrument: { method: 'central', leastCount: "1'", apexAngle: { value: 60 } },
        known: [
          knownLamp(still, { lamp: 'helium', lines: linesAt(heliumNm) }),
          knownLamp(moved, { lamp: 'mercury', lines: linesAt(mercuryNm) }),
        ],
        unknown: unknownTube(moved, neonNm),
        ...parts,
      }),
    ),
  );
}

const written = (analysis: Analysis, format: 'md' | 'csv'): string =>
  renderReport(analysis, format, { file: 'bench.json', generatedOn: null });

/** `48°20'` in arc-minutes. */
const arcminOf = (text: string): number => {
  const [, degrees, minutes] = /^(\d+)°(\d+(?:\.\d+)?)'$/.exec(text)!;
  return 60 * Number(degrees) + Number(minutes);
};

const [moved, sound] = [analysed(15), analysed(0)];
const nm = [...heliumNm, ...mercuryNm];

test('the table of known lines has true deviations, and says where they count from', () => {
  const markdown = written(moved, 'md');
  const rows = Papa.parse<string[]>(written(moved, 'csv')).data;
  const heads = rows.findIndex((row) => row.includes('stated (nm)'));
  const column = rows[heads]!.findIndex((head) => head.startsWith('deviation'));
  const lines = rows.slice(heads + 1, heads + 1 + nm.length);
  lines.forEach((row, i) => {
    expect(Math.abs(arcminOf(row[column]!) - still.deviationArcmin(nm[i]!))).toBeLessThanOrEqual(1);
  });
  expect(markdown).toMatch(
    /moved before mercury was read, by 14\.\d+' \(uncertainty 0\.\d+'\), and the central image with it: deviations count from 181°04'00" for helium and from 181°18'\d\d" for mercury and tube 1\./,
  );
  expect(markdown).toMatch(
    /all read 14\.\d+'.*\| used with the move taken off; the readings stay as typed \|/,
  );
  expect(written(sound, 'md')).not.toMatch(/moved before/);
});

test('a shift that all readings of a tube share is taken off in a column of its own, and is no slip of each', () => {
  const shifted = new GlassReader({ centralDeg: 181 + 19 / 60 });
  const analysis = analysed(0, { unknown: unknownTube(shifted, neonNm) });
  expect(analysis.tubes[0]!.shift!.value).toBeCloseTo(15, 0);
  const markdown = written(analysis, 'md');
  const [heads = '', , ...rows] = markdown
    .slice(markdown.indexOf('| # | reading |'))
    .split('\n')
    .map((row) => row.trim());
  const titles = heads.split(' | ');
  const cell = (row: string, title: string) => Number(row.split(' | ')[titles.indexOf(title)]);
  for (const row of rows.slice(0, neonNm.length)) {
    const less = cell(row, 'less shift (nm)');
    expect(Math.abs(less - cell(row, 'listed'))).toBeLessThan(3 * cell(row, 'its u (nm)'));
    expect(Math.abs(less - cell(row, 'listed') - cell(row, 'diff.'))).toBeLessThan(0.11);
    expect(row).not.toContain('slip');
  }
  expect(markdown).toContain('diff.: less shift minus listed');
  expect(written(sound, 'md')).not.toContain('less shift');
});

test.each([
  ['curve', curveFigure, 1],
  ['residuals', residualFigure, 40],
])(
  'the figure of the %s shows the lines where they stand on a bench that stood still',
  (_, draw, apartPx) => {
    const places = ({ ...analysis }: Analysis): number[] =>
      [...draw(analysis, analysis.calibration.curve!).matchAll(/<circle[^>]* cy="([\d.]+)"/g)].map(([, y]) =>
        Number(y),
      );
    const [here, there] = [places(moved), places(sound)];
    expect(here.length).toBeGreaterThanOrEqual(nm.length);
    expect(here.length).toBe(there.length);
    here.forEach((y, i) => {
      expect(Math.abs(y - there[i]!)).toBeLessThan(apartPx);
    });
  },
);

test('the indices in it are those of a bench that stood still', () => {
  const indices = ({ calibration }: Analysis): number[] =>
    calibration.indices!.lines.map(({ value }) => value);
  const [here, there] = [indices(moved), indices(sound)];
  here.forEach((value, i) => {
    expect(Math.abs(value - there[i]!)).toBeLessThan(0.0002);
    expect(written(moved, 'md')).toContain(value.toFixed(5));
  });
});

test('with central readings before and after the move it says which is which, and which counts for whom', () => {
  const moved = new GlassReader({ centralDeg: 181 + 19 / 60 });
  const central = [still.central(), moved.central(), moved.central()];
  const unknown = [
    unknownTube(moved, neonNm, { label: 'tube A' }),
    unknownTube(moved, neonNm, { label: 'tube B', central: [moved.central()] }),
  ];
  const markdown = written(analysed(15, { central, unknown }), 'md');
  expect(markdown).toContain("Central image: 181°04' before the move, 181°19'; 181°19' after it.");
  expect(markdown).toMatch(
    /deviations count from 181°0[34]'\d\d" for helium, from 181°1[89]'\d\d" for mercury and tube A and from its own for tube B\./,
  );
});

test('a move of another day is not told of lamps that this record has not', () => {
  const { bench: calibrationFrom } = moved;
  const today = benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    known: { lines: [] },
    unknown: unknownTube(new GlassReader({ centralDeg: 181 + 19 / 60 }), neonNm),
  });
  const analysis = analyseBench(today, { calibrationFrom });
  expect(analysis.calibration.moved).not.toBeNull();
  expect(written(analysis, 'md')).not.toMatch(/moved before +was/);
});
