/** Cauchy's formula n = a + b/λ² + c/λ⁴ through measured indices (Born & Wolf, Principles of Optics, section 2.3.4). */
import { Matrix, QrDecomposition } from 'ml-matrix';
import { sum, sumOf } from '../numeric/sum.ts';
import { TERM_IS_SHOWN } from './assumptions.ts';
import { perSquareUm } from './compare/other-curves.ts';
import type { LineIndex, Uncertain } from './refractive-index.ts';

export interface CauchyFormula {
  /** a, b (µm²) and, where the indices show it, c (µm⁴). */
  readonly constants: readonly Uncertain[];
  /** Largest difference between a measured index and the formula. */
  readonly worst: number;
}

/** Null with fewer than two wavelengths; the third term only where the readings of the lines show it. */
export function fitCauchy(lines: readonly LineIndex[]): CauchyFormula | null {
  const wavelengths = new Set(lines.map(({ wavelengthNm }) => wavelengthNm)).size;
  if (wavelengths < 2) return null;
  return wavelengths >= 4 && isThirdShown(lines) ? withTerms(lines, 3) : withTerms(lines, 2);
}

/** What moves all lines alike says nothing of how the formula must bend to follow them. */
function isThirdShown(lines: readonly LineIndex[]): boolean {
  const ownErrors = lines.map((line) => ({ ...line, fromCentral: 0, fromApexAngle: 0 }));
  const third = withTerms(ownErrors, 3).constants[2]!;
  return Math.abs(third.value) > TERM_IS_SHOWN * third.standardUncertainty;
}

/** n by the formula, λ in nm. */
export function cauchyIndex({ constants }: CauchyFormula, wavelengthNm: number): number {
  const x = perSquareUm(wavelengthNm);
  return sumOf(constants, ({ value }, power) => value * x ** power);
}

/**
 * Plain least squares, as a spreadsheet does it: the constants are M·n with M = (F'F)^-1 F', so the errors of the
 * indices go through M, those of the lines each for itself and the common ones together (JCGM 100:2008, 5.2.2).
 */
function withTerms(lines: readonly LineIndex[], terms: number): CauchyFormula {
  const design = new Matrix(
    lines.map(({ wavelengthNm }) =>
      Array.from({ length: terms }, (_, power) => perSquareUm(wavelengthNm) ** power),
    ),
  );
  const solution = new QrDecomposition(design).solve(Matrix.eye(lines.length)).to2DArray();
  const constants = solution.map((row): Uncertain => {
    const through = (part: (line: LineIndex) => number): number[] => row.map((m, j) => m * part(lines[j]!));
    return {
      value: sum(through(({ value }) => value)),
      standardUncertainty: Math.hypot(
        ...through(({ fromReading }) => fromReading),
        sum(through(({ fromCentral }) => fromCentral)),
        sum(through(({ fromApexAngle }) => fromApexAngle)),
      ),
    };
  });
  const formula = { constants, worst: 0 };
  const worst = Math.max(
    ...lines.map(({ value, wavelengthNm }) => Math.abs(value - cauchyIndex(formula, wavelengthNm))),
  );
  return { constants, worst };
}
