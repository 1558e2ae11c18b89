/** The columns of the identification score. */
import type { BenchPlan } from './bench-plan.ts';
import type { LampName } from './known-lamp.ts';
import type { Random } from './random.ts';

export interface IdentificationColumn {
  readonly name: string;
  readonly draw: (random: Random, lamp: LampName) => BenchPlan;
  /** Chance that the true tube, and those that are like it, are not on the shelf. */
  readonly leaveOutChance?: number;
  /** Wanted: first choice right, per cent. */
  readonly target: string;
  readonly targetError: string;
}

/** Any glass and any circle. */
const mixed = (random: Random, lamp: LampName): BenchPlan => ({
  family: 'mixed',
  leastCountArcmin: random.pick([5, 1, 0.5] as const),
  lamp,
});

/** Against believing one's own simulator: other brightnesses than the line table's, the brightest written first. */
const stressed: BenchPlan['looking'] = { prominenceScatter: 1.2, oddTubeChance: 0.1, cut: 'brightest' };

const plain =
  (family: BenchPlan['family'], leastCountArcmin: BenchPlan['leastCountArcmin']) =>
  (_: Random, lamp: LampName): BenchPlan => ({ family, leastCountArcmin, lamp });

/** A few of every kind: what a probability given to a student has to allow for, and no column alone shows. */
const asTheyCome = (random: Random, lamp: LampName): BenchPlan => ({
  family: 'crown',
  leastCountArcmin: 5,
  lamp,
  slipChance: random.pick([0, 0.03, 0.08]),
  ...(random.chance(0.15) ? { looking: stressed } : {}),
});

export const identificationColumns: readonly IdentificationColumn[] = [
  { name: "flint 5'", draw: plain('flint', 5), target: '>= 96', targetError: '<= 0.03' },
  { name: "flint 1'", draw: plain('flint', 1), target: '>= 98.5', targetError: '<= 0.03' },
  { name: "crown 5'", draw: plain('crown', 5), target: '>= 83', targetError: '<= 0.03' },
  {
    name: 'mixed, 3 % slips',
    draw: (random, lamp) => ({ ...mixed(random, lamp), slipChance: 0.03 }),
    target: '>= 96',
    targetError: '<= 0.03',
  },
  {
    name: 'mixed, 8 % slips',
    draw: (random, lamp) => ({ ...mixed(random, lamp), slipChance: 0.08 }),
    target: '>= 93',
    targetError: '<= 0.03',
  },
  {
    name: 'mixed, misnamed known lines',
    draw: (random, lamp) => ({
      ...mixed(random, lamp),
      fault: { naming: random.pick(['neighbour', 'swap', 'shift'] as const) },
    }),
    target: '>= 95',
    targetError: '<= 0.03',
  },
  {
    name: 'mixed, stress',
    draw: (random, lamp) => ({ ...mixed(random, lamp), looking: stressed }),
    target: '',
    targetError: '<= 0.05',
  },
  {
    name: "crown 5', as they come",
    draw: asTheyCome,
    leaveOutChance: 0.015,
    target: '',
    targetError: '<= 0.03',
  },
  { name: 'mixed, left out', draw: mixed, leaveOutChance: 1, target: '', targetError: '' },
];
