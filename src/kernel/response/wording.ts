/**
 * Near words: a heard word that is none of the words known here may be one of the item's own, misheard or in another
 * form ("stow" for "stowed"). The one place where similarity decides, and it decides about words only: numbers,
 * states, opposites and negated forms never come here or never pass.
 */

import Fuse from 'fuse.js'

/** What recognisers write for words of answers. */
const MISHEARD: ReadonlyMap<string, readonly string[]> = new Map([
  ['armed', ['harmed', 'armd']],
  ['checked', ['check', 'checks', 'czech', 'cheque', 'chequed', 'checkt']],
  ['closed', ['close', 'clothes', 'clothed', 'clothe']],
  ['stowed', ['stode', 'stoad', 'stowt']],
  ['set', ['sat', 'sett']],
  ['idle', ['idol', 'idyll']],
  ['free', ['freed']],
  ['received', ['receive']],
  ['steady', ['study']],
  ['aligned', ['aligns']],
  ['secure', ['secured', 'sekure']],
  ['secured', ['secure']],
  ['locked', ['lockt']],
  ['released', ['release', 'releases']],
  ['retracted', ['retract']],
  ['extended', ['extend']],
  ['removed', ['remove', 'removes']],
  ['confirmed', ['confirm']],
  ['completed', ['complete']],
  ['complete', ['completed', 'compleat']],
  ['briefed', ['brief']],
  ['reviewed', ['review']],
  ['on', ['onn']],
  ['auto', ['otto', 'automatic']],
  ['green', ['greens']],
  ['rotate', ['rotates', 'rotated']],
  ['v', ['vee']],
])

/**
 * Fuse.js finds the candidate; score and length were found on the tuning words of the tests and kept on their check
 * words. Similarity alone takes "inverted" for "inserted", so a candidate must be another form of the same word, or
 * off by a vowel, a doubled letter or two letters swapped: any other letter makes another word too often.
 */
export const NEAR = { score: 0.4, shortest: 3, slipFrom: 5 } as const

/** Finds the item's own word for a heard one; made once for each response. */
export interface Nearer {
  /** A word that recognisers are known to write for one of the item's. */
  misheard(heard: string): string | undefined
  /** One that is merely near; for words that are not known otherwise. */
  near(heard: string): string | undefined
}

export function nearerTo(own: readonly string[]): Nearer {
  const table = new Map<string, string>()
  for (const word of own) {
    for (const heard of MISHEARD.get(word) ?? []) if (!own.includes(heard)) table.set(heard, word)
  }
  const long = own.filter((word) => word.length >= NEAR.shortest)
  const fuse = new Fuse(long, {
    includeScore: true,
    threshold: NEAR.score,
    ignoreLocation: true,
    ignoreFieldNorm: true,
    minMatchCharLength: 2,
  })
  return {
    misheard: (heard) => table.get(heard),
    near: (heard) => {
      if (heard.length < NEAR.shortest || heard.length > 20 || long.length === 0) return undefined
      const found = fuse.search(heard, { limit: 2 }).filter(({ item, score = 1 }) => isNear(heard, item, score))
      return found.length === 1 ? found[0]?.item : undefined
    },
  }
}

function isNear(heard: string, own: string, score: number): boolean {
  return score <= NEAR.score && (stemsOf(heard).some((stem) => stemsOf(own).includes(stem)) || isSlip(heard, own))
}

/** What is left of a word without the endings of the same word: stow, stows, stowed. */
function stemsOf(word: string): readonly string[] {
  const stems = [word]
  for (const ending of ['s', 'd', 'ed']) {
    if (!word.endsWith(ending) || word.length - ending.length < NEAR.shortest) continue
    const stem = word.slice(0, -ending.length)
    stems.push(stem)
    if (ending === 'ed' && stem.at(-1) === stem.at(-2)) stems.push(stem.slice(0, -1))
  }
  return stems
}

/** A vowel or a doubled letter left out or put in, or two neighbours swapped; first and last letter kept. */
function isSlip(heard: string, own: string): boolean {
  const [long, short] = heard.length >= own.length ? [heard, own] : [own, heard]
  if (short.length < NEAR.slipFrom || heard[0] !== own[0] || heard.at(-1) !== own.at(-1)) return false
  let at = 0
  while (at < short.length && long[at] === short[at]) at++
  if (long.length === short.length + 1) {
    const odd = long[at] ?? ''
    return /[aeiou]/.test(odd) || odd === long[at - 1] || odd === long[at + 1]
      ? long.slice(at + 1) === short.slice(at)
      : false
  }
  const swapped = long[at] === short[at + 1] && long[at + 1] === short[at]
  return long.length === short.length && swapped && long.slice(at + 2) === short.slice(at + 2)
}
