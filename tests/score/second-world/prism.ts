/** A prism by ray tracing: catalogue glass or a blend of two, at minimum deviation, near it, or set once and left. */
import glassFile from '../../../data/glasses.json' with { type: 'json' };
import type { Random } from '../random.ts';
import { prisms } from './assumptions.ts';

export type GlassFamily = 'flint' | 'crown' | 'any';

const families: Readonly<Record<Exclude<GlassFamily, 'any'>, readonly string[]>> = {
  flint: ['F2', 'SF5', 'SF10', 'N-SF11'],
  crown: ['N-BK7', 'N-K5', 'N-BAK4'],
};

export interface Prism {
  readonly apexRad: number;
  readonly indexSquared: (nm: number) => number;
  /** Incidence of a prism set once, radians; null where every line is set anew. */
  readonly fixedIncidenceRad: number | null;
}

function indexSquaredOf(name: string): (nm: number) => number {
  const { sellmeier } = glassFile.glasses.find((glass) => glass.name === name)!;
  return (nm) => {
    const square = (nm / 1000) ** 2;
    return sellmeier.reduce(
      (sum, { strength, resonanceUm2 }) => sum + (strength * square) / (square - resonanceUm2),
      1,
    );
  };
}

/** Wavelength at which people set a prism that stays. */
export const fixedAtNm = 589.3;

export function drawPrism(random: Random, family: GlassFamily, isFixed: boolean): Prism {
  const names = family === 'any' ? glassFile.glasses.map(({ name }) => name) : families[family];
  const [one, other, share] = [random.pick(names), random.pick(names), random.uniform()];
  const [first, second] = [indexSquaredOf(one), indexSquaredOf(other)];
  const indexSquared = (nm: number) => share * first(nm) + (1 - share) * second(nm);
  const apexRad = (random.normal(prisms.apexDeg.mean, prisms.apexDeg.spread) * Math.PI) / 180;
  const prism = { apexRad, indexSquared, fixedIncidenceRad: null };
  return isFixed ? { ...prism, fixedIncidenceRad: leastIncidenceRad(prism, fixedAtNm) } : prism;
}

/** At minimum deviation the ray crosses the prism symmetrically (Born & Wolf, Principles of Optics, sec. 4.7.2). */
function leastIncidenceRad({ apexRad, indexSquared }: Prism, nm: number): number {
  return Math.asin(Math.sqrt(indexSquared(nm)) * Math.sin(apexRad / 2));
}

/** Deviation in arc-minutes by Snell's law at both faces, the table turned by `missetDeg` from minimum deviation. */
export function tracedDeviationArcmin(prism: Prism, nm: number, missetDeg = 0): number {
  const index = Math.sqrt(prism.indexSquared(nm));
  const incidence = prism.fixedIncidenceRad ?? leastIncidenceRad(prism, nm) + (missetDeg * Math.PI) / 180;
  const inside = prism.apexRad - Math.asin(Math.sin(incidence) / index);
  return ((incidence + Math.asin(index * Math.sin(inside)) - prism.apexRad) * 180 * 60) / Math.PI;
}
