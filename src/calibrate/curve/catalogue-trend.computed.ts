/** The curves of catalogue prisms summed up; the build computes it (esbuild.config.mjs). */
import { prismBasis, SCALED_NM } from './basis.ts';
import { glasses, refractiveIndex } from './glasses.ts';
import { leastSquares } from './least-squares.ts';
import { minimumDeviationDeg } from './minimum-deviation.ts';

/** How the higher constants of catalogue prisms follow from their dispersion c1 (in arc-minutes). */
export interface CatalogueTrend {
  /** Level c0 to dispersion: c1 = levelTrend[0] + levelTrend[1] c0. */
  readonly levelTrend: readonly number[];
  /** Ratio c_k/c1 as a quadratic in c1, for k = 2, 3, 4. */
  readonly ratioTrends: readonly (readonly number[])[];
  readonly c1Range: readonly [number, number];
}

/** Eight glasses and the middle of each pair, at three apex angles. */
function catalogueConstants(): number[][] {
  const wavelengthsNm = Array.from({ length: 23 }, (_, i) => SCALED_NM.shortest + 15 * i);
  const design = wavelengthsNm.map((nm) => [...prismBasis.at(nm)]);
  const indices = glasses.map((glass) => wavelengthsNm.map((nm) => refractiveIndex(glass, nm)));
  const blends = indices.flatMap((first, a) => [
    first,
    ...indices.slice(0, a).map((second) => first.map((n, i) => (n + second[i]!) / 2)),
  ]);
  const deviations = blends.flatMap((blend) =>
    [59, 60, 61].map((apexDeg) => blend.map((n) => 60 * minimumDeviationDeg(apexDeg, n))),
  );
  return leastSquares(design, deviations);
}

function trendOf(constants: readonly number[][]): CatalogueTrend {
  const c1 = constants.map((c) => c[1]!);
  const ratios = [2, 3, 4].map((k) => constants.map((c) => c[k]! / c[1]!));
  const [levelTrend] = leastSquares(
    constants.map((c) => [1, c[0]!]),
    [c1],
  );
  const ratioTrends = leastSquares(
    c1.map((value) => [1, value, value * value]),
    ratios,
  );
  return { levelTrend: levelTrend!, ratioTrends, c1Range: [Math.min(...c1), Math.max(...c1)] };
}

export const catalogueTrend: CatalogueTrend = trendOf(catalogueConstants());
