/** The error of one simulated reading as a density: what the best possible use of the readings depends on. */
import { normalCdf } from '../../src/numeric/normal.ts';
import { excessPerSquareDegree, type Instrument } from './instrument.ts';

export interface ErrorDensity {
  /** Density per arc-minute at an error (observed minus mean deviation), arc-minutes; 0 outside the table. */
  at(errorArcmin: number): number;
  readonly varianceArcmin2: number;
  /** Fisher information of one reading about its place, 1/arcmin². */
  readonly information: number;
}

const stepArcmin = 0.1;

/** Setting scatter and rectangular reading together, with the tick to either side. */
function symmetricKernel(instrument: Instrument, error: number): number {
  const { leastCountArcmin: count, settingScatterArcmin: scatter, tickChance } = instrument;
  const rectangle = (centre: number): number => {
    const [low, high] = [(error - centre - count / 2) / scatter, (error - centre + count / 2) / scatter];
    return (normalCdf(high) - normalCdf(low)) / count;
  };
  return (1 - tickChance) * rectangle(0) + (tickChance / 2) * (rectangle(-count) + rectangle(count));
}

/** Chance that the excess c·ε² lies in each step from 0 upwards, ε normal: a scaled chi-square of one degree. */
function excessChances(scaleArcmin: number): number[] {
  if (scaleArcmin < 1e-9) return [1];
  const below = (excess: number): number => 2 * normalCdf(Math.sqrt(excess / scaleArcmin)) - 1;
  const count = Math.ceil((20 * scaleArcmin) / stepArcmin);
  return Array.from({ length: count }, (_, k) => below((k + 1) * stepArcmin) - below(k * stepArcmin));
}

/** Density of the error of one setting read once in one window on one side. */
export function readingErrorDensity(instrument: Instrument, wavelengthNm = 550): ErrorDensity {
  const missetDeg = instrument.prismSetting === 'fixed' ? 0 : instrument.missetDeg;
  const chances = excessChances(excessPerSquareDegree(instrument, wavelengthNm) * missetDeg ** 2);
  const excessOf = (k: number): number => (chances.length === 1 ? 0 : (k + 0.5) * stepArcmin);
  const meanExcess = chances.reduce((sum, chance, k) => sum + chance * excessOf(k), 0);

  const reach = 1.6 * instrument.leastCountArcmin + 6 * instrument.settingScatterArcmin;
  const half = Math.ceil(reach / stepArcmin);
  const kernel = Array.from({ length: 2 * half + 1 }, (_, k) =>
    symmetricKernel(instrument, (k - half) * stepArcmin),
  );
  const table = new Array<number>(kernel.length + chances.length - 1).fill(0);
  chances.forEach((chance, shift) => {
    for (let k = 0; k < kernel.length; k++) table[k + shift]! += chance * kernel[k]!;
  });
  const errorOf = (k: number): number => (k - half) * stepArcmin + excessOf(0) - meanExcess;

  let variance = 0;
  let information = 0;
  for (let k = 1; k < table.length - 1; k++) {
    variance += table[k]! * errorOf(k) ** 2 * stepArcmin;
    const slope = (table[k + 1]! - table[k - 1]!) / (2 * stepArcmin);
    if (table[k]! > 1e-12) information += (slope ** 2 / table[k]!) * stepArcmin;
  }
  return {
    varianceArcmin2: variance,
    information,
    at(error) {
      const place = (error - errorOf(0)) / stepArcmin;
      const below = Math.floor(place);
      if (below < 0 || below >= table.length - 1) return 0;
      return table[below]! + (place - below) * (table[below + 1]! - table[below]!);
    },
  };
}
