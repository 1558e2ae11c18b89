/** Invented readings: a prism of catalogue glass at minimum deviation, read by a seeded observer. */
import { formatAngle } from '../../src/angle/format-angle.ts';
import { glasses, refractiveIndex } from '../../src/calibrate/curve/glasses.ts';
import { minimumDeviationDeg } from '../../src/calibrate/curve/minimum-deviation.ts';

export interface InventedPrism {
  readonly glass: string;
  readonly apexAngleDeg: number;
  readonly centralDeg: number;
  readonly leastCountArcmin: number;
  /** Standard deviation of one setting of the cross-hairs. */
  readonly settingScatterArcmin: number;
}

/** Uniform random numbers in [0, 1) from a seed (the mulberry32 generator). */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A standard normal deviate by the method of Box and Muller (Ann. Math. Statist. 29, 610, 1958). */
function normalDeviate(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** An observer at an invented spectrometer; every call is one setting of the cross-hairs. */
export class InventedObserver {
  readonly #prism: InventedPrism;
  readonly #random: () => number;
  readonly #deviationDeg: (wavelengthNm: number) => number;

  constructor(prism: InventedPrism, seed: number) {
    const glass = glasses.find(({ name }) => name === prism.glass);
    if (glass === undefined) throw new Error(`no such glass: ${prism.glass}`);
    this.#prism = prism;
    this.#random = seededRandom(seed);
    this.#deviationDeg = (wavelengthNm) =>
      minimumDeviationDeg(prism.apexAngleDeg, refractiveIndex(glass, wavelengthNm));
  }

  central(): string {
    return this.#read(this.#prism.centralDeg);
  }

  /** The line on the side of larger readings; `slipArcmin` is added after rounding, as a misreading is. */
  line(wavelengthNm: number, slipArcmin = 0): string {
    return this.#read(this.#prism.centralDeg + this.#deviationDeg(wavelengthNm), slipArcmin);
  }

  bothSides(wavelengthNm: number): { left: string; right: string } {
    const deviationDeg = this.#deviationDeg(wavelengthNm);
    return {
      left: this.#read(this.#prism.centralDeg + deviationDeg),
      right: this.#read(this.#prism.centralDeg - deviationDeg),
    };
  }

  /** A drum that shows 20 units for a degree of deviation, read to its least count of a tenth. */
  drum(wavelengthNm: number): number {
    const scatterDeg = (this.#prism.settingScatterArcmin / 60) * normalDeviate(this.#random);
    return Math.round((this.#deviationDeg(wavelengthNm) + scatterDeg - 40) * 20 * 10) / 10;
  }

  #read(directionDeg: number, slipArcmin = 0): string {
    const { leastCountArcmin, settingScatterArcmin } = this.#prism;
    const scattered = directionDeg * 60 + settingScatterArcmin * normalDeviate(this.#random);
    const rounded = Math.round(scattered / leastCountArcmin) * leastCountArcmin + slipArcmin;
    return formatAngle(rounded / 60, leastCountArcmin);
  }
}
