/**
 * For a speaker whose five is heard as nine, or the other way round: either word counts only when it is said
 * as "fife" or "niner", or said a second time. It goes by what was heard, never by what would be right.
 */

import type { Heard } from '../../kernel/hearing/heard.ts'

const EITHER = /\b(five|nine)\b/i

/** One for each run; `isOn` is asked at each utterance. */
export function createFiveNineGuard(isOn: () => boolean): (heard: Heard) => Heard {
  let before = ''
  return (heard) => {
    const isSecond = heard.text === before
    before = heard.text
    if (!isOn() || heard.by !== 'voice' || heard.doubt || isSecond || !EITHER.test(heard.text)) return heard
    return { ...heard, doubt: 'unsure' }
  }
}
