/** What kind of simulated bench is wanted, and what is true of the bench that comes out. */
import type { TubeSpectrum } from '../../src/lines/spectrum.ts';
import type { Bench } from '../../src/record/bench.ts';
import type { Looking, SeenLine } from './discharge-tube.ts';
import type { Instrument, PlantedSlip } from './instrument.ts';
import type { LampName, NamingFault } from './known-lamp.ts';
import type { GlassFamily } from './prism.ts';
import type { SlipKind } from './slips.ts';

/** What kind of bench is wanted; what is left out is drawn or is as most benches are. */
export interface BenchPlan {
  readonly family: GlassFamily;
  readonly leastCountArcmin: 5 | 1 | 0.5;
  readonly lamp: LampName;
  /** How many known lines are read; fewer where the lamp shows fewer. Default 5 to 9. */
  readonly knownLines?: readonly [number, number];
  readonly method?: Bench['method'];
  readonly windows?: 1 | 2;
  readonly prism?: Bench['prism'];
  /** Settings per line and of the central image. Default 1. */
  readonly repeats?: number;
  /** Chance of a slip in every raw reading. Default 0. */
  readonly slipChance?: number;
  /** One fault, planted for certain among the known lines. */
  readonly fault?: { readonly slip: SlipKind } | { readonly naming: NamingFault } | null;
  /** The unknown tube, and how its observer differs from `drawLooking`. */
  readonly tube?: TubeSpectrum | null;
  readonly looking?: Partial<Looking>;
}

export interface KnownTruth {
  readonly wavelengthNm: number;
  readonly statedNm: number;
  readonly slips: readonly PlantedSlip[];
}

export interface UnknownTruth extends SeenLine {
  readonly slips: readonly PlantedSlip[];
}

export interface BenchTruth {
  readonly instrument: Instrument;
  /** Mean deviation that this person would set for a wavelength, misset included, arc-minutes. */
  readonly deviationAt: (wavelengthNm: number) => number;
  readonly substance: string | null;
  readonly known: readonly KnownTruth[];
  readonly unknown: readonly UnknownTruth[];
  readonly centralSlips: readonly PlantedSlip[];
  /** The planted fault, or null where the plan has none or it could not happen to these lines. */
  readonly fault: BenchPlan['fault'];
  readonly looking: Looking;
}

export interface SimulatedBench {
  readonly bench: Bench;
  readonly truth: BenchTruth;
}
