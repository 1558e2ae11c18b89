/** The value kept under a key, made when it is first asked for; it lives as long as the store that it is kept in. */
export function remembered<K, V>(
  store: { get(key: K): V | undefined; set(key: K, value: V): unknown },
  key: K,
  make: () => V,
): V {
  const known = store.get(key);
  if (known !== undefined) return known;
  const fresh = make();
  store.set(key, fresh);
  return fresh;
}

/** What is worked out when it is first asked for, and then kept. */
export function once<V>(make: () => V): () => V {
  let made: { readonly value: V } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
