/** Two substances in one tube: "mainly X, with lines of Y". */
import type { TubeSpectrum } from '../../lines/spectrum.ts';
import { startingGases } from '../../lines/table.ts';
import type { ModelLine } from '../spectrum/expected-lines.ts';

export interface Mixture {
  readonly main: TubeSpectrum;
  readonly admixture: TubeSpectrum;
  readonly spectrum: TubeSpectrum;
  readonly logPrior: number;
}

/**
 * Chance of any mixture at all: sets for teaching hold one substance to a tube. And what a pair that laboratories do
 * have is worth beyond others. These and the numbers below: common practice, no source; judged by the scores.
 */
const ANY_MIXTURE = 0.02;
const USUAL_PAIR = 8;
/** ln by which the lines of an admixture are fainter than in a tube of their own: about half as bright. */
const FAINTER = 0.7;
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

/** A line of this prominence, between medium and weak, is likely written down. */
const BRIGHT = -2;
/** One line meets a reading by chance too easily. */
const FEWEST_MET = 2;
/** Many lines meet anything: what counts is how few were needed, so that twenty cost as much as one reading met. */
const COST_OF_A_LINE = 0.05;

/** `tubes`: how many substances there are to mix; priors are relative to one substance alone. */
export function mixtureOf(main: TubeSpectrum, admixture: TubeSpectrum, tubes: number): Mixture {
  const usual =
    USUAL_PAIRS.some((pair) => pair.includes(main.substance) && pair.includes(admixture.substance)) ||
    startingGases(main.substance).includes(admixture.substance);
  const lines = [
    ...main.lines,
    ...admixture.lines.map((line) => ({
      ...line,
      prominence: line.prominence - FAINTER,
      substance: admixture.substance,
    })),
  ].sort((a, b) => a.wavelengthNm - b.wavelengthNm);
  return {
    main,
    admixture,
    spectrum: { substance: main.substance, symbol: main.symbol, lines },
    logPrior: Math.log((ANY_MIXTURE / (tubes - 1)) * (usual ? USUAL_PAIR : 1)),
  };
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
      const bright = lines.filter((line) => line.prominence > BRIGHT);
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
