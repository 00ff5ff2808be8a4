/** "Did you mean ...": the known name that a mistyped one is closest to. */

import { quoted } from '../kernel/quoted.ts'

/** Longer names are not compared: nobody mistypes them by a letter. */
const LONGEST_NAME = 60
/** All that there are, but for a pack as large as its bounds allow. */
const MOST_LISTED = 200

/** Edits (insert, delete, replace, swap of neighbours) from one word to the other; infinite from the limit on. */
export function edits(a: string, b: string, limit = Infinity): number {
  let before: number[] = []
  let last: number[] = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const replace = (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1)
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
      const swap = swapped ? (before[j - 2] ?? 0) + 1 : Infinity
      row.push(Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, replace, swap))
    }
    if (Math.min(...row) >= limit) return Infinity
    before = last
    last = row
  }
  return last[b.length] ?? 0
}

/** The closest known name, where it is close enough to be what was meant. */
export function nearest(name: string, known: readonly string[]): string | undefined {
  if (name.length > LONGEST_NAME) return undefined
  const given = name.toLowerCase()
  let best: string | undefined
  let least = (name.length < 4 ? 1 : Math.max(2, Math.floor(name.length / 3))) + 1
  for (const candidate of known) {
    if (Math.abs(candidate.length - given.length) >= least) continue
    const distance = edits(given, candidate.toLowerCase(), least)
    if (distance >= least) continue
    least = distance
    best = candidate
  }
  return best
}

/** Ends a message: `; did you mean "takeoffTrim"?`, or the names that there are. */
export function didYouMean(name: string, known: readonly string[]): string {
  const best = nearest(name, known)
  return best === undefined ? thereAre(known) : `; did you mean ${quoted(best)}?`
}

/** Ends a message with the names that there are. */
export function thereAre(known: readonly string[]): string {
  const listed = known.slice(0, MOST_LISTED).map((one) => (/^[\w' ./-]{1,60}$/.test(one) ? one : quoted(one)))
  if (listed.length < 2) return listed.length === 0 ? '' : `; there is only ${listed[0]}`
  const more = known.length > MOST_LISTED ? ` and ${known.length - MOST_LISTED} more` : ''
  return `; there are ${listed.join(', ')}${more}`
}
