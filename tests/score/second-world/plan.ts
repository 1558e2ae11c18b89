/** The columns of the second world. */
import type { InstrumentKind } from './instrument.ts';
import type { NamingFault } from './lamp.ts';
import type { GlassFamily } from './prism.ts';

export interface WorldColumn {
  readonly name: string;
  readonly family: GlassFamily;
  readonly instrument: InstrumentKind;
  /** Chance of a slip in each number read off. */
  readonly slipChance: number;
  readonly faults: readonly NamingFault[];
  readonly isMixed: boolean;
}

const plain = { slipChance: 0, faults: [], isMixed: false } as const;
const mixed = { family: 'any', instrument: 'any', slipChance: 0, faults: [], isMixed: true } as const;

export const worldColumns: readonly WorldColumn[] = [
  { ...plain, name: "flint 5'", family: 'flint', instrument: "5'" },
  { ...plain, name: "flint 1'", family: 'flint', instrument: "1'" },
  { ...plain, name: "crown 5'", family: 'crown', instrument: "5'" },
  { ...mixed, name: 'mixed, 3 % slips', slipChance: 0.03 },
  { ...mixed, name: 'mixed, 8 % slips', slipChance: 0.08 },
  { ...mixed, name: 'known lines misnamed', faults: ['shift', 'swap', 'neighbour'] },
  { ...mixed, name: 'coarse circles and dials', instrument: 'coarse or dial' },
];
