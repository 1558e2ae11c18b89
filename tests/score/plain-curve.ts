/** What a spreadsheet would do: least squares in 1/λ² through the known lines as they were named. */
import { Matrix, solve } from 'ml-matrix';

export interface PlainCurve {
  deviationAt(wavelengthNm: number): number;
  /** Wavelength at a deviation between 380 and 760 nm; the nearer end outside. */
  wavelengthAt(deviationArcmin: number): number;
  readonly residualSdArcmin: number;
}

const powers = (wavelengthNm: number, count: number): number[] => {
  const x = (500 / wavelengthNm) ** 2;
  return Array.from({ length: count }, (_, power) => x ** power);
};

/** Null with fewer than two known lines or with all of them named alike. */
export function plainCurve(
  points: readonly { wavelengthNm: number; deviationArcmin: number }[],
): PlainCurve | null {
  const distinct = new Set(points.map((point) => point.wavelengthNm)).size;
  const count = Math.min(3, distinct);
  if (count < 2) return null;
  const design = new Matrix(points.map((point) => powers(point.wavelengthNm, count)));
  const deviations = Matrix.columnVector(points.map((point) => point.deviationArcmin));
  const coefficients = solve(design, deviations).to1DArray();
  const deviationAt = (nm: number): number =>
    powers(nm, count).reduce((sum, term, k) => sum + term * coefficients[k]!, 0);
  const squares = points.reduce((sum, p) => sum + (p.deviationArcmin - deviationAt(p.wavelengthNm)) ** 2, 0);
  return {
    deviationAt,
    residualSdArcmin: Math.sqrt(squares / Math.max(1, points.length - count)),
    wavelengthAt(deviationArcmin) {
      let [low, high] = [380, 760];
      for (let step = 0; step < 40; step++) {
        const middle = (low + high) / 2;
        if (deviationAt(middle) > deviationArcmin) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    },
  };
}
