/** Two substances in one tube: "mainly X, with lines of Y". */

import { joinedTubes } from '../../lines/merge-lines.ts';
import { holdsJust, substancesIn } from '../../lines/mixed-lamps.ts';
import type { TubeSpectrum } from '../../lines/spectrum.ts';
import { startingGases, tubeNamed } from '../../lines/table.ts';
import { once, remembered } from '../../numeric/remembered.ts';
import {
  ADMIXTURE_FAINTER,
  ADMIXTURE_SD,
  ANY_MIXTURE,
  BRIGHT_ADMIXTURE,
  COST_OF_A_LINE,
  FEWEST_MET,
  STARTING_GAS,
  USUAL_PAIR,
} from '../assumptions.ts';
import type { ModelLine } from '../spectrum/expected-lines.ts';

export interface Mixture {
  readonly main: TubeSpectrum;
  readonly admixture: TubeSpectrum;
  readonly spectrum: TubeSpectrum;
  readonly logPrior: number;
}

/** Lamps and discharge tubes that are sold with both, and gases that stay in one another. */
const USUAL_PAIRS: readonly (readonly [string, string])[] = [
  ['mercury', 'cadmium'],
  ['mercury', 'argon'],
  ['mercury', 'neon'],
  ['mercury', 'zinc'],
  ['zinc', 'cadmium'],
  ['helium', 'hydrogen'],
  ['helium', 'neon'],
  ['neon', 'argon'],
];

/** `tubes`: how many substances there are to mix; priors are relative to one substance alone. */
export function mixtureOf(main: TubeSpectrum, admixture: TubeSpectrum, tubes: number): Mixture {
  const usual = USUAL_PAIRS.some(
    (pair) => pair.includes(main.substance) && pair.includes(admixture.substance),
  );
  return {
    main,
    admixture,
    spectrum: together(main, admixture, ADMIXTURE_FAINTER, ADMIXTURE_SD),
    logPrior: Math.log((ANY_MIXTURE / (tubes - 1)) * (usual ? USUAL_PAIR : 1)),
  };
}

const startedLamps = new WeakMap<TubeSpectrum, readonly Mixture[]>();

/** A metal lamp with each gas that it may be started with; the same objects for the same lamp. */
export function withStartingGas(metal: TubeSpectrum): readonly Mixture[] {
  return remembered(startedLamps, metal, () => {
    const gases = startingGases(metal.substance).flatMap((name) => tubeNamed(name) ?? []);
    return gases.map((gas) => {
      // Most are never asked for.
      const spectrum = once(() => together(metal, gas, STARTING_GAS.fainter, STARTING_GAS.amountSd));
      return {
        main: metal,
        admixture: gas,
        get spectrum() {
          return spectrum();
        },
        logPrior: Math.log(STARTING_GAS.chance / gases.length),
      };
    });
  });
}

/** Is one of the two the gas that the other is started with? */
export function isStartingPair(one: TubeSpectrum, other: TubeSpectrum): boolean {
  const starts = (metal: TubeSpectrum, gas: TubeSpectrum): boolean =>
    startingGases(metal.substance).includes(gas.substance);
  return starts(one, other) || starts(other, one);
}

/** A mixed lamp is no admixture, nor mixed with what it holds; and a pair that is itself a candidate is weighed as that. */
export function mayBeMixed(
  main: TubeSpectrum,
  admixture: TubeSpectrum,
  candidates: readonly TubeSpectrum[],
): boolean {
  const both = [...substancesIn(main.substance), admixture.substance];
  return (
    substancesIn(admixture.substance).length === 1 &&
    new Set(both).size === both.length &&
    !candidates.some(({ substance }) => holdsJust(substance, both))
  );
}

/** Lines of both, those of the admixture `fainter` by so much, give or take `amountSd`. */
function together(
  main: TubeSpectrum,
  admixture: TubeSpectrum,
  fainter: number,
  amountSd: number,
): TubeSpectrum {
  const faint = admixture.lines.map((line) => ({
    ...line,
    prominence: line.prominence - fainter,
    substance: admixture.substance,
  }));
  // How much there is of the admixture is not known either.
  const added = admixture.components.map((each) =>
    each.strengthSd > 0 ? each : { ...each, strengthSd: amountSd },
  );
  const { components, lines } = joinedTubes([main, { ...admixture, components: added, lines: faint }]);
  return { substance: main.substance, symbol: main.symbol, components, lines };
}

/**
 * Tubes that could account for what a main substance leaves unexplained: at least two bright lines of theirs near
 * the `unexplained` ordinates, best first.
 */
export function likelyAdmixtures(
  others: readonly { readonly tube: TubeSpectrum; readonly lines: readonly ModelLine[] }[],
  unexplained: readonly number[],
  reach: number,
  most: number,
): TubeSpectrum[] {
  return others
    .map(({ tube, lines }) => {
      const bright = lines.filter((line) => line.prominence > BRIGHT_ADMIXTURE);
      const met = unexplained.filter((ordinate) =>
        bright.some((line) => Math.abs(line.ordinate - ordinate) < reach),
      );
      return { tube, met: met.length, score: met.length - COST_OF_A_LINE * bright.length };
    })
    .filter(({ met }) => met >= FEWEST_MET)
    .sort((a, b) => b.score - a.score)
    .slice(0, most)
    .map(({ tube }) => tube);
}
