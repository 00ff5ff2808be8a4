/** Whether an author's synonyms leave values exact and states apart: no number, no command, no state of anything else. */

import { ALPHABET } from '../kernel/kinds/letters.ts'
import { isNumberToken, transcriptOf } from '../kernel/numbers/tokens.ts'
import type { Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import { readCommand } from '../kernel/response/commands.ts'
import { HARMLESS, HESITATIONS, isNegation, isStateWord, opposites } from '../kernel/response/lexicon.ts'
import { isEmpty, withSynonyms } from '../kernel/response/packSynonyms.ts'
import { SYNONYMS } from '../kernel/response/synonyms.ts'
import { responseOrNothing } from './checkNotation.ts'
import type { PackText } from './packSchema.ts'
import type { ProceduresText } from './proceduresSchema.ts'
import { reporting } from './reporting.ts'
import { tooManyWays } from './responseBounds.ts'
import type { Path, Source } from './source.ts'
import { type Worded, wordedIn } from './worded.ts'

export function checkSynonyms(
  source: Source,
  { synonyms }: PackText,
  procedures: ProceduresText | undefined,
): Problem[] {
  if (isEmpty(synonyms)) return []
  const problems: Problem[] = []
  const report = reporting(source, problems)
  const worded = procedures ? wordedIn(procedures) : []
  const owners = new Map(Object.keys(synonyms).map((word) => [word, word]))
  for (const [word, others] of Object.entries(synonyms)) {
    const key: Path = ['synonyms', word]
    const wrong = isOfValues(word)
    if (wrong !== undefined) {
      problems.push({
        code: 'synonym.word',
        message: `${quoted(word)} ${wrong}`,
        place: source.placeOfKey(['synonyms'], word),
        severity: 'error',
      })
    }
    for (const [index, text] of others.entries()) {
      const at: Path = [...key, index]
      const owner = owners.get(text)
      if (owner !== undefined) {
        const message =
          owner === word
            ? `${quoted(text)} stands twice for ${quoted(word)}`
            : `${quoted(text)} would stand for ${quoted(word)} and for ${quoted(owner)}; it can say only one of them`
        report('synonym.twice', at, message)
        continue
      }
      owners.set(text, word)
      const why = isOfValues(text) ?? saysElse(text) ?? excludes(word, text) ?? saysOther(worded, word, text)
      if (why !== undefined) report('synonym.word', at, `${quoted(text)} ${why}`)
    }
    if (wrong === undefined && procedures && !worded.some(({ wordings }) => wordings.some((one) => has(one, word)))) {
      const known = () => new Set(worded.flatMap(({ wordings }) => wordings.flatMap((one) => one.split(' '))))
      report('synonym.unused', key, `no answer of the pack has ${quoted(word)}`, { name: word, known }, 'advice')
    }
  }
  if (problems.length > 0) return problems
  for (const { name, text } of worded) {
    const { tree } = responseOrNothing(text)
    const tooMany = tooManyWays(withSynonyms(tree, synonyms))
    if (tooMany === undefined || tooManyWays(tree) !== undefined) continue
    report('synonym.many', ['synonyms'], `with these ${name} is too much: ${tooMany}`)
    break
  }
  return problems
}

/** Values are said in these, and "not" speaks against any state. */
function isOfValues(text: string): string | undefined {
  const { tokens } = transcriptOf(text)
  if (tokens.some(isNumberToken)) return 'holds a number word; values are said in numbers alone'
  if (tokens.some((token) => SPELLING.has(token.text)))
    return 'holds a word of the spelling alphabet; values are said in those'
  return tokens.some((token) => isNegation(token.text))
    ? 'says that something is not; give a word for what is'
    : undefined
}

/** Why a text can stand for no word at all. */
function saysElse(text: string): string | undefined {
  const transcript = transcriptOf(text)
  const words = transcript.tokens.map((token) => token.text)
  if (words.some((word) => OF_COMMANDS.has(word)) || readCommand(transcript, { yesNo: true }))
    return 'is a word of command; those mean the same everywhere'
  return words.every((word) => HARMLESS.has(word) || HESITATIONS.has(word))
    ? 'says nothing by itself: it may stand beside any answer'
    : undefined
}
const SPELLING = new Set(Object.values(ALPHABET).flat())
/** Wherever they stand in an utterance. */
const OF_COMMANDS = new Set('correction disregard negative remark recheck stop abort sorry pardon scratch'.split(' '))

/** By the trade's own tables: "released" for "set", or "gone" for "connected". */
function excludes(word: string, text: string): string | undefined {
  const against = new Set(word.split(' ').flatMap((one) => [...opposites(one)]))
  const other = text.split(' ').find((one) => against.has(one) && !word.split(' ').includes(one))
  if (other !== undefined) return `says the opposite of ${quoted(word)}`
  const mates = SYNONYMS.filter((line) => line.includes(text) && !line.includes(word)).flat()
  const mate = mates.find((one) => against.has(one))
  return mate === undefined ? undefined : `is said for ${quoted(mate)}, the opposite of ${quoted(word)}`
}

/** By what is asked for in this pack. */
function saysOther(worded: readonly Worded[], word: string, text: string): string | undefined {
  for (const { name, wordings, states } of worded) {
    if (states.some((state) => state.includes(text) && !state.includes(word)))
      return `is a state of ${name}; it cannot stand for ${quoted(word)}`
    const said = [...wordings, ...states.flat()].flatMap((one) => one.split(' ')).filter(isStateWord)
    const state = said.find(
      (one) => opposites(one).has(text) && !word.split(' ').some((own) => opposites(one).has(own)),
    )
    if (state !== undefined) return `is the opposite of ${quoted(state)}, a state of ${name}`
    if (wordings.some((one) => has(one, word) && has(one, text)))
      return `stands beside ${quoted(word)} in the answer to ${name}`
  }
  return undefined
}

const has = (text: string, words: string) => ` ${text} `.includes(` ${words} `)
