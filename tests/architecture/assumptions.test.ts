/** What a room takes for granted stands in its assumptions.ts, where it is found in one look with its unit and source. */
import { describe, expect, test } from 'vitest';
import { code, type SourceFile, sources } from './imports.ts';

const rooms = ['observe', 'calibrate', 'identify', 'record', 'analysis'];

/** Numbers that nobody assumes: mathematics, conventions of a basis, steps of a numerical method, rounding. */
const noAssumption: Readonly<Record<string, readonly string[]>> = {
  'record/other-unit.ts': ['UNITS'],
  'analysis/curve-reach.ts': ['STEP_NM'],
  'analysis/query-reading.ts': ['ROUNDING_DEG'],
  'observe/bench-constants.ts': ['TO_DEVIATION'],
  'observe/central-hypotheses.ts': ['FULL_CIRCLE_ARCMIN'],
  'observe/central-image.ts': ['ROUNDING_ARCMIN'],
  'observe/reading-variance.ts': ['ROUNDING'],
  // Derived from another, and rounding.
  'calibrate/assign/transition-prior.ts': ['ONE_SIDE', 'SAME_NM'],
  'calibrate/moved-lamps.ts': ['NODES'],
  'calibrate/compare/hartmann.ts': ['BELOW_NM', 'FINEST_STEP'],
  'calibrate/compare/other-curves.ts': ['POLYNOMIAL_DEGREES'],
  'calibrate/curve/basis.ts': ['SCALED_NM', 'PRISM_CONSTANTS', 'PRISM_POLE_NM'],
  'calibrate/refractive-index.ts': ['ABBE_LINES_NM', 'SLOPE_STEP_NM'],
  'calibrate/curve/minimum-deviation.ts': ['RAD_PER_DEG', 'RAD_PER_ARCMIN'],
  'identify/bench/bench-hypothesis.ts': ['TABLE'],
  'identify/bench/unknown-reading.ts': ['NEXT_TICK'],
  'identify/evidence/alignment.ts': ['HEAVY'],
  // What a step of the search costs is measured.
  'identify/evidence/candidate-evidence.ts': ['COST_OF_DENSITIES', 'COST_OF_ANY_ORDER'],
  'identify/evidence/pairings.ts': ['COST_OF_A_LOOK'],
  'identify/evidence/slip-search.ts': ['COST_OF_GAIN'],
  'identify/evidence/shift-search.ts': ['HEAVY'],
  'identify/evidence/density-table.ts': ['STEPS', 'VARIANCE_STEP', 'SMALLEST_VARIANCE'],
  'identify/evidence/reading-likelihood.ts': ['SMALLEST', 'NOTHING'],
  'identify/spectrum/detection.ts': ['CLASSES', 'SD_CLASSES'],
  'identify/spectrum/spectra-through.ts': ['HUGE', 'PRINTABLE', 'COMPONENTS'],
};

/** Constants of a file that hold a number of their own. */
function numbersIn(file: SourceFile): string[] {
  const constants = /^(?:export )?const ([A-Z][A-Z0-9_]*)\b[^=]*= ([\s\S]*?);$/gm;
  return [...code(file).matchAll(constants)].flatMap(([, name = '', value = '']) =>
    /(?<![\w.])\d/.test(value) ? [name] : [],
  );
}

const assumptions = (room: string): SourceFile =>
  sources.find(({ path }) => path === `${room}/assumptions.ts`)!;

describe.each(rooms)('src/%s', (room) => {
  test('has its assumptions in one file', () => {
    const elsewhere = sources
      .filter(({ folder, path }) => folder === room && path !== `${room}/assumptions.ts`)
      .flatMap((file) =>
        numbersIn(file)
          .filter((name) => !noAssumption[file.path]?.includes(name))
          .map((name) => `${file.path}: ${name}`),
      );
    expect(elsewhere).toEqual([]);
  });

  test('says of each what it is', () => {
    const { text } = assumptions(room);
    const undocumented = [...text.matchAll(/^(.*)\n(?=export const (\w+))/gm)].flatMap(
      ([, before = '', name]) => (before.endsWith('*/') ? [] : [name]),
    );
    expect(numbersIn(assumptions(room)).length).toBeGreaterThan(4);
    expect(undocumented).toEqual([]);
  });

  test('uses all of them', () => {
    const names = [...assumptions(room).text.matchAll(/^export const (\w+)/gm)].map(([, name = '']) => name);
    const others = sources
      .filter(({ path }) => path !== `${room}/assumptions.ts`)
      .map(code)
      .join('\n');
    expect(names.filter((name) => !new RegExp(`\\b${name}\\b`).test(others))).toEqual([]);
  });
});
