/** How many ways a response can be said: those beyond what is unfolded would be accepted here and never heard. */

import { MOST_PATHS, MOST_WORDINGS } from '../kernel/bounds.ts'
import { type Expansion, figuresOf } from '../kernel/response/expansion.ts'

/** Says what is too much of a response, if so. */
export function tooManyWays(response: Expansion): string | undefined {
  const { paths, wordings } = waysOf(response)
  if (paths > MOST_PATHS) return `its figures can be said in ${shown(paths)} ways; at most ${MOST_PATHS}`
  if (wordings > MOST_WORDINGS)
    return `some of its words can be said in ${shown(wordings)} ways; at most ${MOST_WORDINGS}`
  return undefined
}

/** Where it is no longer worth counting. */
const BEYOND = 1_000_000

function shown(ways: number): string {
  return ways >= BEYOND ? 'more than a million' : String(ways)
}

interface Ways {
  /** Through the alternatives that hold figures. */
  readonly paths: number
  /** Of the group of words that can be said in most ways. */
  readonly wordings: number
}

function waysOf(node: Expansion): Ways {
  if (node.type === 'figure') return { paths: 1, wordings: 0 }
  if (node.type === 'optional') return waysOf(node.part)
  const isGroup = node.type !== 'sequence' || node.tag !== undefined
  if (isGroup && figuresOf(node).length === 0) return { paths: 1, wordings: phrasings(node) }
  const inside = (node.type === 'either' ? node.options : node.type === 'sequence' ? node.parts : []).map(waysOf)
  const paths = inside.map((one) => one.paths)
  return {
    paths: node.type === 'either' ? sum(paths) : product(paths),
    wordings: Math.max(0, ...inside.map((one) => one.wordings)),
  }
}

function phrasings(node: Expansion): number {
  switch (node.type) {
    case 'words':
    case 'figure':
      return 1
    case 'optional':
      return 1 + phrasings(node.part)
    case 'either':
      return sum(node.options.map(phrasings))
    case 'sequence':
      return product(node.parts.map(phrasings))
  }
}

const sum = (counts: readonly number[]) => counts.reduce((all, one) => Math.min(all + one, BEYOND), 0)
const product = (counts: readonly number[]) => counts.reduce((all, one) => Math.min(all * one, BEYOND), 1)
