/** `known` where there is one lamp or tube (the record is written so then), `known[1]` among several. */
export function placeIn(key: string, list: readonly unknown[], index: number): string {
  return list.length === 1 ? key : `${key}[${index}]`;
}
