/** Why a verdict: what was taken for which part, what was let through, what spoke against. One sentence, for people. */

import { capital } from '../capital.ts'
import type { Band } from '../kinds/value.ts'
import { type Transcript, tokensOf } from '../numbers/tokens.ts'
import type { Because, Judgement, Part } from './model.ts'

const LACKS = { direction: 'its direction', digits: 'a number', decimals: 'its decimals' } as const

/** Where no part tells it. */
const REASONS: Readonly<Partial<Record<Because, string>>> = {
  form: 'right, but not in the form asked for',
  ambiguous: 'it can be understood in more than one way',
  implausible: 'no instrument shows such a value',
  twoValues: 'two values, and no correction between them',
  notUnderstood: 'something in it may speak against the item, or was not understood',
  missing: 'only one of several was named',
  refused: 'it was refused',
  valueless: 'said to be done, without its value',
  limit: 'a reading outside its limits',
  acknowledged: 'acknowledged, and not read back',
}

export function explained(judgement: Judgement, { tokens }: Transcript): string {
  const { verdict, because, command, parts } = judgement
  if (verdict === 'command') return `Taken for a command: ${command}.`
  const told = parts.filter(
    ({ state, heard }) => verdict !== 'sayAgain' || (state === 'missing' && heard !== undefined),
  )
  const reason = because !== undefined && (verdict === 'sayAgain' || parts.length === 0 || because === 'valueless')
  const heard = new Set(parts.flatMap((part) => tokensOf(part.heard ?? '').map(({ text }) => text)))
  const beside = tokens.map(({ text }) => text).filter((text) => !heard.has(text))
  const treated = parts.some(({ doubtful }) => doubtful) ? 'not understood' : 'let through'
  const clauses = [
    ...(reason ? [REASONS[because] ?? because] : []),
    ...told.map((part) => (verdict === 'sayAgain' ? `${part.name} may be “${part.heard}”` : clauseOf(part))),
    ...(verdict !== 'sayAgain' && beside.length > 0 ? [`${treated}: “${beside.join(' ')}”`] : []),
  ]
  const text = clauses.length > 0 ? clauses.join('; ') : 'nothing of it was understood'
  return `${capital(text)}.`
}

export const bandWords = ({ min, max }: Band) =>
  min === undefined ? `at most ${max}` : max === undefined ? `at least ${min}` : `from ${min} to ${max}`

function clauseOf({ name, state, heard, read, expected, limits, lacks, doubtful }: Part): string {
  const said = heard === undefined ? name : `${name} “${heard}”`
  switch (state) {
    case 'ok':
      if (heard === undefined) return `${name} was said before`
      return doubtful ? `${said} is right, to be said again with the rest` : `${said} is right`
    case 'wrong':
      if (limits) return `${said} is outside, read as ${read}; it must be ${bandWords(limits)}`
      return `${said} is wrong${read === undefined ? '' : `, read as ${read}`}${expected === undefined ? '' : `, for ${expected}`}`
    case 'missing':
      if (lacks !== undefined) return `${said} lacks ${LACKS[lacks]}`
      return heard === undefined ? `${name} was not said` : `${said} is not all of it`
  }
}
