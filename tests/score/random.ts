/** Seeded random numbers for simulated benches: the same seed gives the same benches on every machine. */
export class Random {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** Uniform in [0, 1): the mulberry32 generator (Tommy Ettinger, public domain). */
  uniform(): number {
    this.#state = (this.#state + 0x6d2b79f5) | 0;
    let bits = Math.imul(this.#state ^ (this.#state >>> 15), 1 | this.#state);
    bits = (bits + Math.imul(bits ^ (bits >>> 7), 61 | bits)) ^ bits;
    return ((bits ^ (bits >>> 14)) >>> 0) / 2 ** 32;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.uniform();
  }

  /** Whole number from low to high, both included. */
  whole(low: number, high: number): number {
    return low + Math.floor((high - low + 1) * this.uniform());
  }

  chance(probability: number): boolean {
    return this.uniform() < probability;
  }

  sign(): 1 | -1 {
    return this.chance(0.5) ? 1 : -1;
  }

  /** Box and Muller's transformation. */
  normal(mean = 0, standardDeviation = 1): number {
    const radius = Math.sqrt(-2 * Math.log(1 - this.uniform()));
    return mean + standardDeviation * radius * Math.cos(2 * Math.PI * this.uniform());
  }

  logNormal(median: number, logStandardDeviation: number): number {
    return median * Math.exp(this.normal(0, logStandardDeviation));
  }

  pick<T>(items: readonly T[]): T {
    return items[Math.floor(items.length * this.uniform())]!;
  }

  /** One of the items, each with its own weight. */
  pickWeighted<T extends { readonly weight: number }>(items: readonly T[]): T {
    let rest = this.uniform() * items.reduce((sum, item) => sum + item.weight, 0);
    for (const item of items) {
      rest -= item.weight;
      if (rest < 0) return item;
    }
    return items.at(-1)!;
  }

  shuffle<T>(items: readonly T[]): T[] {
    return items
      .map((item) => ({ item, key: this.uniform() }))
      .sort((a, b) => a.key - b.key)
      .map(({ item }) => item);
  }

  /** A number of rare events; the mean must be small. */
  poisson(mean: number): number {
    const limit = Math.exp(-mean);
    let count = 0;
    for (let product = this.uniform(); product > limit; product *= this.uniform()) count++;
    return count;
  }
}
