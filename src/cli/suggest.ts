/** "Did you mean": names close to what was typed. */
import Fuse from 'fuse.js';

/** Closest first; empty when nothing comes near. */
export function closestNames(typed: string, names: readonly string[]): string[] {
  return new Fuse([...names], { threshold: 0.4, ignoreDiacritics: true })
    .search(typed)
    .map(({ item }) => item);
}
