/** Two substances in one tube: "mainly X, with lines of Y". */
import type { TubeSpectrum } from '../lines/spectrum.ts';
import { startingGases } from '../lines/table.ts';
import type { ModelLine } from './model-lines.ts';

export interface Mixture {
  readonly main: TubeSpectrum;
  readonly admixture: TubeSpectrum;
  readonly spectrum: TubeSpectrum;
  readonly logPrior: number;
}

/** Chance of any mixture at all, and what a pair that laboratories do have is worth beyond others. */
const ANY_MIXTURE = 0.02;
const USUAL_PAIR = 8;
/** ln by which the lines of an admixture are fainter than in a tube of their own. */
const FAINTER = 0.7;
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
  const usual =
    USUAL_PAIRS.some((pair) => pair.includes(main.substance) && pair.includes(admixture.substance)) ||
    startingGases(main.substance).includes(admixture.substance);
  const lines = [
    ...main.lines,
    ...admixture.lines.map((line) => ({ ...line, prominence: line.prominence - FAINTER })),
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
      const bright = lines.filter((line) => line.prominence > -2);
      const met = unexplained.filter((ordinate) =>
        bright.some((line) => Math.abs(line.ordinate - ordinate) < reach),
      );
      // Many lines meet anything: what counts is how few were needed.
      return { tube, met: met.length, score: met.length - 0.05 * bright.length };
    })
    .filter(({ met }) => met >= 2)
    .sort((a, b) => b.score - a.score)
    .slice(0, most)
    .map(({ tube }) => tube);
}
