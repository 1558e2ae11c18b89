/** One simulated bench through the whole program and through the references. */
import { analyseBench } from '../../src/analysis/analyse.ts';
import type { Candidate } from '../../src/analysis/types.ts';
import type { TubeSpectrum } from '../../src/lines/spectrum.ts';
import { tubes } from '../../src/lines/table.ts';
import type { SimulatedBench } from './bench-plan.ts';
import type { IdentificationColumn } from './identification-plan.ts';
import { benchSeed } from './options.ts';
import { Random } from './random.ts';
import { nearestLine, oracle, plainAlignment, slipOracle } from './references.ts';
import { simulateBench } from './simulate-bench.ts';

export interface IdentificationRow {
  readonly substance: string;
  readonly recordedLines: number;
  /** Name of the first row, and whether the true tube is in it. */
  readonly first: string;
  readonly isFirstRight: boolean;
  readonly isInFirstThree: boolean;
  readonly firstProbability: number;
  readonly isDecided: boolean;
  readonly milliseconds: number;
  /** Was each reference right? */
  readonly nearestLine: boolean;
  readonly plainAlignment: boolean;
  readonly oracle: boolean;
  /** Null where there are no slips to be ignorant of. */
  readonly slipOracle: boolean | null;
}

/**
 * Tubes that nobody tells apart on a small prism: what is left on the shelf when one of them is left out must not
 * be another of them.
 */
const alike: readonly (readonly string[])[] = [
  ['hydrogen', 'deuterium', 'water vapour'],
  ['nitrogen', 'air'],
];

const likeOnes = (substance: string): readonly string[] =>
  alike.find((group) => group.includes(substance)) ?? [substance];

/** A bench of this tube with two recorded lines at least. Null where the tube hardly ever shows two. */
function drawBench(random: Random, column: IdentificationColumn, tube: TubeSpectrum): SimulatedBench | null {
  for (let attempt = 0; attempt < 200; attempt++) {
    const plan = column.draw(random, random.pick(['helium', 'mercury'] as const));
    const simulated = simulateBench(random, { ...plan, tube });
    const hasFault = simulated.truth.fault !== null || (plan.fault ?? null) === null;
    if (hasFault && simulated.truth.unknown.length >= 2) return simulated;
  }
  return null;
}

const names = (row: Candidate): readonly string[] => [row.substance, ...row.indistinguishable];

export function scoreIdentification(
  column: IdentificationColumn,
  bench: number,
  seed: number,
): IdentificationRow | null {
  const random = new Random(benchSeed(seed, column.name, bench));
  const { leaveOutChance = 0 } = column;
  const isLeftOut = leaveOutChance === 1 || (leaveOutChance > 0 && random.chance(leaveOutChance));
  const tube = tubes[bench % tubes.length]!;
  const simulated = drawBench(random, column, tube);
  if (simulated === null) return null;
  const listed = isLeftOut
    ? tubes.filter(({ substance }) => !likeOnes(tube.substance).includes(substance))
    : tubes;
  const shelf = isLeftOut ? listed.map(({ substance }) => substance) : null;
  const shelved = {
    ...simulated.bench,
    tubes: simulated.bench.tubes.map((unknown) => ({ ...unknown, shelf })),
  };
  const start = performance.now();
  const { candidates, verdict } = analyseBench(shelved).tubes[0]!;
  const milliseconds = performance.now() - start;

  const isTrue = (row: Candidate | undefined): boolean =>
    row !== undefined && names(row).includes(isLeftOut ? 'unlisted' : tube.substance);
  // A reference gives one name: right where it names the true tube or one that is in its row or like it.
  const rowOfTruth = candidates.find((row) => row.with.length === 0 && names(row).includes(tube.substance));
  const accepted = [...likeOnes(tube.substance), ...(rowOfTruth ? names(rowOfTruth) : [])];
  const isAccepted = (name: string | null): boolean => name !== null && accepted.includes(name);
  const hasSlips = simulated.truth.instrument.slipChance > 0;
  return {
    substance: tube.substance,
    recordedLines: simulated.truth.unknown.length,
    first: candidates[0]!.substance,
    isFirstRight: isTrue(candidates[0]),
    isInFirstThree: candidates.slice(0, 3).some(isTrue),
    firstProbability: candidates[0]!.probability,
    isDecided: verdict.kind === 'identified',
    milliseconds,
    nearestLine: isAccepted(nearestLine(simulated, listed)),
    plainAlignment: isAccepted(plainAlignment(simulated, listed)),
    oracle: isAccepted(oracle(simulated, listed)),
    slipOracle: hasSlips ? isAccepted(slipOracle(simulated, listed)) : null,
  };
}
