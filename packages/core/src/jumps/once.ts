/** The same function, computing what each key gives only once. It lives as long as the call that makes it. */
export function once<K, V>(compute: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    if (!known.has(key)) known.set(key, compute(key));
    return known.get(key) as V;
  };
}
