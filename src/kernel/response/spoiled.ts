/** What is no read-back, though it has the words of one: a question, a request, the other end of the aircraft. */

import type { Token } from '../numbers/tokens.ts'

const words = (text: string): ReadonlySet<string> => new Set(text.split(' '))

/** Said of the other end of the aircraft, and of what was not given: nothing beside it is taken for read back. */
const SPOILING = words('tail instead unless until push pushback takeoff request requesting rolling')
const OTHER_END = words('nose face facing')
/** With one of these begins a question, and no read-back. */
const ASKING = words('is are do did can could may shall would should ready looking confirm')
const ASKED: ReadonlySet<string> = new Set(['is it', 'ready to', 'ready for', 'looking for', 'good to'])

/** Something in a transmission says that it reads nothing back. `isCall`: it need not. */
export function isSpoiled(tokens: readonly Token[], isOwn: (word: string) => boolean, isCall = false): boolean {
  const said = tokens.map(({ text }) => text)
  if (said.some((word) => SPOILING.has(word) && !isOwn(word))) return true
  if (isOwn('tail') && said.some((word) => OTHER_END.has(word))) return true
  if (isCall) return false
  const [first = ''] = said
  return (ASKING.has(first) && !isOwn(first)) || said.some((word, at) => ASKED.has(`${word} ${said[at + 1] ?? ''}`))
}
