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
  ROOM_LIGHT,
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

const isUsualPair = (one: TubeSpectrum, other: TubeSpectrum): boolean =>
  USUAL_PAIRS.some((pair) => pair.includes(one.substance) && pair.includes(other.substance));

/** `tubes`: how many substances there are to mix; priors are relative to one substance alone. */
export function mixtureOf(main: TubeSpectrum, admixture: TubeSpectrum, tubes: number): Mixture {
  return {
    main,
    admixture,
    spectrum: together(main, admixture, ADMIXTURE_FAINTER, ADMIXTURE_SD),
    logPrior: Math.log((ANY_MIXTURE / (tubes - 1)) * (isUsualPair(main, admixture) ? USUAL_PAIR : 1)),
  };
}

/** Why a second spectrum may show that is no part of what the tube is called. */
export type Companion = 'starting-gas' | 'room-light';

/** The light of mercury that is everywhere in a laboratory: of fluorescent lamps and of the lamp that calibrates. */
const ROOM_LIGHT_OF = 'mercury';

/** What the second of two substances is to the first; null where only both in one tube would show both. */
export function companionOf(main: TubeSpectrum, other: TubeSpectrum): Companion | null {
  if (startingGases(main.substance).includes(other.substance)) return 'starting-gas';
  const isLightOfRoom =
    other.substance === ROOM_LIGHT_OF && !substancesIn(main.substance).includes(ROOM_LIGHT_OF);
  return isLightOfRoom && !isUsualPair(main, other) ? 'room-light' : null;
}

/** Is one of the two a companion of the other? */
export function areCompanions(one: TubeSpectrum, other: TubeSpectrum): boolean {
  return companionOf(one, other) !== null || companionOf(other, one) !== null;
}

const accompaniedTubes = new WeakMap<TubeSpectrum, readonly Mixture[]>();

/** A tube with each companion that may show beside it; the same objects for the same tube. */
export function withCompanions(tube: TubeSpectrum): readonly Mixture[] {
  return remembered(accompaniedTubes, tube, () => {
    const gases = startingGases(tube.substance);
    const names = [...gases, ROOM_LIGHT_OF].flatMap((name) => tubeNamed(name) ?? []);
    return names.flatMap((companion): Mixture[] => {
      const what = companionOf(tube, companion);
      if (what === null) return [];
      const { chance, fainter, amountSd } = what === 'starting-gas' ? STARTING_GAS : ROOM_LIGHT;
      // Most are never asked for.
      const spectrum = once(() => together(tube, companion, fainter, amountSd));
      return [
        {
          main: tube,
          admixture: companion,
          get spectrum() {
            return spectrum();
          },
          logPrior: Math.log(what === 'starting-gas' ? chance / gases.length : chance),
        },
      ];
    });
  });
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
    substance: admixture.substance,
    ...line,
    prominence: line.prominence - fainter,
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
