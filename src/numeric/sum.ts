/** Sum of what `of` gives for each item; 0 of none. */
export function sumOf<Item>(items: readonly Item[], of: (item: Item, at: number) => number): number {
  return items.reduce((sum, item, at) => sum + of(item, at), 0);
}

/** Sum of the values; 0 of none. */
export function sum(values: readonly number[]): number {
  return sumOf(values, (value) => value);
}

/** Arithmetic mean; NaN of nothing. */
export function mean(values: readonly number[]): number {
  return sum(values) / values.length;
}
