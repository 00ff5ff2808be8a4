/**
 * Near words: a heard word that is none of the words known here may be one of the item's own, misheard or in another
 * form ("stow" for "stowed"). The one place where similarity decides, and it decides about words only: numbers,
 * states, opposites and negated forms never come here or never pass.
 */

import Fuse from 'fuse.js'

/** What recognisers write for words of answers. */
const MISHEARD: Readonly<Record<string, readonly string[]>> = {
  armed: ['harmed', 'armd'],
  checked: ['check', 'checks', 'czech', 'cheque', 'chequed', 'checkt'],
  closed: ['close', 'clothes', 'clothed', 'closet', 'clothe'],
  stowed: ['stode', 'stoad', 'stood', 'stowt'],
  set: ['sat', 'sett'],
  idle: ['idol', 'idyll'],
  free: ['freed'],
  received: ['receive'],
  steady: ['study'],
  aligned: ['aligns'],
  secure: ['secured', 'sekure'],
  secured: ['secure'],
  locked: ['lockt'],
  released: ['release', 'releases'],
  retracted: ['retract'],
  extended: ['extend'],
  removed: ['remove', 'removes'],
  confirmed: ['confirm'],
  completed: ['complete'],
  complete: ['completed', 'compleat'],
  briefed: ['brief', 'breathed'],
  reviewed: ['review'],
  on: ['onn'],
  auto: ['otto', 'automatic'],
  green: ['greens'],
  rotate: ['rotates', 'rotated'],
  v: ['vee'],
}

/** Found on the tuning set of `npm run bench`, kept on the other one. */
export const NEAR = { score: 0.34, shortest: 4, lengthApart: 3 } as const

const NEGATING = /^(un|dis|de|in|im|ir|non|ab|mis|re|pre|semi|half|over|under|out|up|a)/

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
    for (const heard of MISHEARD[word] ?? []) if (!own.includes(heard)) table.set(heard, word)
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

/** Near in length and beginning too, and neither the negated form of the other. */
function isNear(heard: string, own: string, score: number): boolean {
  if (score > NEAR.score || heard.slice(0, 2) !== own.slice(0, 2)) return false
  if (Math.abs(heard.length - own.length) > NEAR.lengthApart) return false
  return !isNegated(heard, own) && !isNegated(own, heard)
}

function isNegated(longer: string, shorter: string): boolean {
  const prefix = NEGATING.exec(longer)?.[0]
  return prefix !== undefined && longer.slice(prefix.length).startsWith(shorter.slice(0, 3))
}
