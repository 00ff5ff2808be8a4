/** Things that share a key, in their order, by that key. */
export function grouped<T>(things: Iterable<T>, keyOf: (thing: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>()
  for (const thing of things) {
    const key = keyOf(thing)
    const group = groups.get(key)
    if (group) group.push(thing)
    else groups.set(key, [thing])
  }
  return groups
}
