/** The columns of the calibration score, and the faults that are planted. */
import type { BenchPlan } from './bench-plan.ts';
import type { LampName } from './known-lamp.ts';
import type { GlassFamily } from './prism.ts';

export interface CalibrationColumn {
  readonly name: string;
  readonly plan: BenchPlan;
}

const families: readonly GlassFamily[] = ['crown', 'flint', 'dense'];
const lamps: readonly LampName[] = ['helium', 'mercury'];
const leastCounts = { "5'": 5, "1'": 1, '30"': 0.5 } as const;

const ordinary = families.flatMap((family) =>
  Object.entries(leastCounts).flatMap(([text, leastCountArcmin]) =>
    lamps.map((lamp) => ({ name: `${family} ${text} ${lamp}`, plan: { family, leastCountArcmin, lamp } })),
  ),
);

const flint = { family: 'flint', leastCountArcmin: 1, lamp: 'mercury' } as const;
const mixed = { family: 'mixed', leastCountArcmin: 1, lamp: 'helium' } as const;

export const calibrationColumns: readonly CalibrationColumn[] = [
  ...ordinary,
  ...[2, 3, 4].map((count) => ({
    name: `mixed 1' helium, ${count} lines`,
    plan: { ...mixed, knownLines: [count, count] as const },
  })),
  { name: "flint 1' mercury, both sides", plan: { ...flint, method: 'both-sides' } },
  { name: "flint 1' mercury, two windows", plan: { ...flint, windows: 2 } },
  { name: "flint 1' mercury, prism set once", plan: { ...flint, prism: 'fixed' } },
  { name: 'mixed scale helium', plan: { ...mixed, method: 'scale' } },
];

export const faults = {
  "slip of 30'": { slip: 'half-degree' },
  'slip of 1°': { slip: 'degree' },
  'slip of 10°': { slip: 'ten-degrees' },
  'digits swapped': { slip: 'digits-swapped' },
  'named for a neighbour': { naming: 'neighbour' },
  'two names swapped': { naming: 'swap' },
  'names shifted by one': { naming: 'shift' },
  'wrong lamp': { naming: 'wrong-lamp' },
} as const satisfies Record<string, BenchPlan['fault']>;

export type FaultName = keyof typeof faults;
export const faultNames = Object.keys(faults) as FaultName[];
