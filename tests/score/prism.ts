/**
 * Exact deviations of a simulated prism. Written apart from `src/calibrate` on purpose: a mistake there must not
 * be repeated here.
 */
import catalogue from '../../data/glasses.json' with { type: 'json' };
import type { Random } from './random.ts';

const radian = Math.PI / 180;
const arcminPerRadian = 60 / radian;

export type GlassFamily = 'crown' | 'flint' | 'dense' | 'mixed';

/** Glasses that a family blends; a bench gets one of them or a blend of two. */
const familyGlasses: Record<GlassFamily, readonly string[]> = {
  crown: ['N-BK7', 'N-K5', 'N-BAK4'],
  flint: ['F2', 'LLF1', 'SF5'],
  dense: ['SF5', 'SF10', 'N-SF11'],
  mixed: ['N-BK7', 'N-K5', 'LLF1', 'N-BAK4', 'F2', 'SF5', 'SF10', 'N-SF11'],
};

/** n² of a catalogue glass against the wavelength in air (nm): Sellmeier's sum. */
function squaredIndexOf(name: string): (wavelengthNm: number) => number {
  const glass = catalogue.glasses.find((entry) => entry.name === name);
  if (glass === undefined) throw new RangeError(`no glass named ${name} in data/glasses.json`);
  return (wavelengthNm) => {
    const um2 = wavelengthNm ** 2 / 1e6;
    let sum = 1;
    for (const { strength, resonanceUm2 } of glass.sellmeier) sum += (strength * um2) / (um2 - resonanceUm2);
    return sum;
  };
}

export interface Prism {
  readonly glass: string;
  readonly apexDeg: number;
  index(wavelengthNm: number): number;
}

/** One glass of the family, or a blend of two (of n or of n²): a real melt is no catalogue glass exactly. */
export function drawPrism(random: Random, family: GlassFamily): Prism {
  const names = familyGlasses[family];
  // A flint prism is at least half of F2, the usual flint of school and student prisms (common practice, no source).
  const first = family === 'flint' ? 'F2' : random.pick(names);
  const second = random.pick(names.filter((name) => name !== first));
  const share = random.chance(0.4) ? 0 : random.between(0, 0.5);
  const blendsSquares = random.chance(0.5);
  const apexDeg = random.normal(60, 0.3);
  const squares = [squaredIndexOf(first), squaredIndexOf(second)] as const;
  const index = (nm: number): number => {
    const [a, b] = [squares[0](nm), squares[1](nm)];
    return blendsSquares
      ? Math.sqrt(a + share * (b - a))
      : Math.sqrt(a) + share * (Math.sqrt(b) - Math.sqrt(a));
  };
  const glass = share === 0 ? first : `${first} with ${Math.round(100 * share)} % ${second}`;
  return { glass, apexDeg, index };
}

/** A prism of one catalogue glass. */
export function cataloguePrism(glass: string, apexDeg: number): Prism {
  const square = squaredIndexOf(glass);
  return { glass, apexDeg, index: (nm) => Math.sqrt(square(nm)) };
}

/** Minimum deviation δ = 2 asin(n sin(A/2)) - A in arc-minutes (Born & Wolf, Principles of Optics, section 4.7.2). */
export function minimumDeviationArcmin(prism: Prism, wavelengthNm: number): number {
  const halfApex = (prism.apexDeg / 2) * radian;
  return arcminPerRadian * 2 * (Math.asin(prism.index(wavelengthNm) * Math.sin(halfApex)) - halfApex);
}

/** Angle of incidence at which a wavelength is at minimum deviation, degrees. */
export function minimumIncidenceDeg(prism: Prism, wavelengthNm: number): number {
  return Math.asin(prism.index(wavelengthNm) * Math.sin((prism.apexDeg / 2) * radian)) / radian;
}

/** Deviation in arc-minutes for any angle of incidence: Snell's law at both faces. */
export function deviationAtIncidenceArcmin(prism: Prism, wavelengthNm: number, incidenceDeg: number): number {
  const n = prism.index(wavelengthNm);
  const apex = prism.apexDeg * radian;
  const incidence = incidenceDeg * radian;
  const emergence = Math.asin(n * Math.sin(apex - Math.asin(Math.sin(incidence) / n)));
  return arcminPerRadian * (incidence + emergence - apex);
}
