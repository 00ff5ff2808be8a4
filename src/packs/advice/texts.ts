/** Signs of a printed card in texts that are spoken: what to write instead. */

import type { Problem } from '../../kernel/problem.ts'
import { quoted } from '../../kernel/quoted.ts'
import type { Path } from '../source.ts'
import { type Advise, activitiesOf, advising, type Written } from './written.ts'

/** Keys whose text is spoken as it stands. */
const SPOKEN = new Set(['name', 'challenge', 'label', 'text', 'short', 'alsoCalled', 'look', 'stopWords', 'hold'])
/** Of these only what stands in a list of `interlocks`, or of `actions`, is plain text; elsewhere it is notation. */
const PLAIN_INSIDE = new Set(['interlocks', 'actions', 'again'])

export function adviseTexts(written: Written): Problem[] {
  const problems: Problem[] = []
  const advise = advising(written.procedures.source, problems)
  for (const { value, path } of activitiesOf(written)) visit(value, path, false, advise)
  return problems
}

function visit(value: unknown, path: Path, isSpoken: boolean, advise: Advise): void {
  if (typeof value === 'string') {
    if (isSpoken) adviseText(value, path, advise)
    return
  }
  if (typeof value !== 'object' || value === null) return
  for (const [key, inner] of Object.entries(value)) {
    const at = Array.isArray(value) ? [...path, Number(key)] : [...path, key]
    const isPlain = path.some((segment) => PLAIN_INSIDE.has(String(segment))) && ['say', 'due'].includes(key)
    visit(inner, at, Array.isArray(value) ? isSpoken : SPOKEN.has(key) || isPlain || key === 'actions', advise)
  }
}

const SIGNS = /<[^<>]*>|\([^()]*\)|_{2,}|[/|[\]{}]/

function adviseText(text: string, path: Path, advise: Advise): void {
  const found = SIGNS.exec(text)
  if (!found) return
  const [sign] = found
  advise('sign', path, insteadOf(sign, path.at(-1) === 'challenge'), found.index)
}

function insteadOf(sign: string, isChallenge: boolean): string {
  const shown = quoted(sign)
  if (sign.startsWith('<')) {
    return isChallenge
      ? `a challenge asks for a value and never says it: leave ${shown} out and write it in the response`
      : `${shown} is read aloud as it stands; leave it out, no value is said here`
  }
  if (/^\(\s*\d+\s*\)$/.test(sign)) return `${shown} is read aloud as a number; write "both", or name each part`
  if (sign.startsWith('_')) {
    return `${shown} is a blank: what is filled in is a figure, written <name> in the response; leave the blank out`
  }
  if (sign === '/') return '"/" is not read aloud; write "and" or "or", or make it two'
  return `${shown} is no word; brackets and bars belong in a response, here write the words that are said`
}
