/** "Did you mean ...": the known name that a mistyped one is closest to. */

/** Edits (insert, delete, replace, swap of neighbours) from one word to the other. */
export function edits(a: string, b: string): number {
  const rows = Array.from({ length: a.length + 1 }, (_, i) => [i, ...Array<number>(b.length).fill(0)])
  const at = (i: number, j: number): number => rows[i]?.[j] ?? 0
  for (let j = 0; j <= b.length; j++) (rows[0] as number[])[j] = j
  for (let i = 1; i <= a.length; i++) {
    for (let j = 1; j <= b.length; j++) {
      const replace = at(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1)
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
      const swap = swapped ? at(i - 2, j - 2) + 1 : Infinity
      ;(rows[i] as number[])[j] = Math.min(at(i - 1, j) + 1, at(i, j - 1) + 1, replace, swap)
    }
  }
  return at(a.length, b.length)
}

/** The closest known name, where it is close enough to be what was meant. */
export function nearest(name: string, known: readonly string[]): string | undefined {
  const ranked = known
    .map((candidate) => ({ candidate, distance: edits(name.toLowerCase(), candidate.toLowerCase()) }))
    .sort((one, other) => one.distance - other.distance)
  const [best] = ranked
  return best && best.distance <= Math.max(2, Math.floor(name.length / 3)) ? best.candidate : undefined
}

/** Ends a message: `; did you mean "takeoffTrim"?`, or the names that there are. */
export function didYouMean(name: string, known: readonly string[]): string {
  const best = nearest(name, known)
  if (best !== undefined) return `; did you mean "${best}"?`
  return known.length > 0 ? `; there are ${known.slice(0, 12).join(', ')}${known.length > 12 ? ' ...' : ''}` : ''
}
