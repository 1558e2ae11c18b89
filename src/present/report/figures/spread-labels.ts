/** The items that get a label where only `most` labels have room: all of them, or every second, third ... one. */
export function thinned<Item>(items: readonly Item[], most: number): Item[] {
  const every = Math.max(1, Math.ceil(items.length / most));
  return items.filter((_, at) => at % every === 0);
}

/**
 * Places for labels of the given width that keep the order of their anchors, do not overlap and lie as near to the
 * anchors as possible (least squares: isotonic regression by pooling adjacent violators). Anchors must be sorted.
 */
export function spreadLabels(anchors: readonly number[], width: number): number[] {
  const pools: { sum: number; count: number }[] = [];
  const level = (pool: { sum: number; count: number }): number => pool.sum / pool.count;
  for (const [at, anchor] of anchors.entries()) {
    let pool = { sum: anchor - at * width, count: 1 };
    for (let last = pools.at(-1); last !== undefined && level(last) > level(pool); last = pools.at(-1)) {
      pool = { sum: last.sum + pool.sum, count: last.count + pool.count };
      pools.pop();
    }
    pools.push(pool);
  }
  const levels = pools.flatMap((pool) => Array.from({ length: pool.count }, () => level(pool)));
  return levels.map((value, at) => value + at * width);
}
