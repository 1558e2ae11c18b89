/** An object of these keys of another one, in the order in which they are named: what a JSON output prints of it. */
export function picked<From, Key extends keyof From>(from: From, ...keys: readonly Key[]): Pick<From, Key> {
  return Object.fromEntries(keys.map((key) => [key, from[key]])) as Pick<From, Key>;
}
