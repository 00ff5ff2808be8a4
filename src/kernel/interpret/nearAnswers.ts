/**
 * What answers would have drawn that differ from the one heard in one place: made by rule from its words, and judged by what
 * judges every answer. Nothing of them is known before the answer itself is in.
 */

import { sayValue } from '../kinds/table.ts'
import { DIGIT_WORDS, TEEN_WORDS } from '../numbers/words.ts'
import type { Pack } from '../pack/checklist.ts'
import { opposites } from '../response/lexicon.ts'
import type { Part } from '../response/model.ts'
import { partsOfWords, wordsIn } from '../response/wordsOf.ts'
import type { RunEvent } from '../run/core/events.ts'
import { type AnswerEvent, isAnswer } from '../run/core/forRoom.ts'
import type { RunState } from '../run/core/state.ts'
import { interpret } from './interpret.ts'

/** An answer, and the state of the run that it came in. */
export interface GivenAnswer {
  readonly before: RunState
  readonly event: AnswerEvent
}

export interface NearAnswer {
  readonly how: 'putRight' | 'otherDigit' | 'opposite' | 'leftOut'
  readonly words: readonly string[]
  /** Places of the words that are others than were said; where some were left out, none. */
  readonly changed: readonly number[]
  /** What it would have been; undefined where it would have been no answer. */
  readonly judgement: AnswerEvent['judgement'] | undefined
}

const MOST = 3

/** At most three; none of a key press. */
export function nearAnswers(pack: Pack, { before, event }: GivenAnswer): NearAnswer[] {
  const { evidence, judgement } = event
  if (evidence.by !== 'voice' && evidence.by !== 'typed') return []
  const judged = (text: string) => judgedAs(pack, before, event, text)
  const said = wordsIn(evidence.text)
  const right = putRight(pack, before, said, judgement.parts)
  const base = right?.words ?? said
  // What was only half said, or not understood, is still to be said right.
  const isTold = judgement.verdict === 'correct' || judgement.parts.some(({ state }) => state === 'wrong')
  const parts = right ? (judged(base.join(' '))?.parts ?? []) : judgement.parts
  const others = [right, otherDigit(base, parts), opposite(base, parts), leftOut(base, parts)]
  return others
    .filter((one) => one !== undefined)
    .filter(({ words }, at, all) => all.findIndex((other) => other.words.join(' ') === words.join(' ')) === at)
    .slice(0, MOST)
    .map((one) => ({ ...one, judgement: judged(one.words.join(' ')) }))
    .filter((one) => isTold || one.judgement?.verdict !== 'correct')
}

/** By the line that judged the answer itself, in the same state. */
function judgedAs(pack: Pack, { demonstration: _, frozen: __, ...state }: RunState, event: AnswerEvent, text: string) {
  const { by, beganAt = 0, endedAt = 0 } = event.evidence
  const heard = { listenId: state.listenId, text, beganAt, endedAt, by: by === 'typed' ? by : ('voice' as const) }
  const other = interpret(pack, state, heard).event
  return isAnswer(other as RunEvent) && 'judgement' in other ? other.judgement : undefined
}

type Changed = Omit<NearAnswer, 'judgement'>

const changedAt = (how: Changed['how'], words: readonly string[], at: number, word: string): Changed => ({
  how,
  words: words.with(at, word),
  changed: [at],
})

/** Each wrong value in place of the right one. */
function putRight(
  pack: Pack,
  { settings }: RunState,
  said: readonly string[],
  parts: readonly Part[],
): Changed | undefined {
  const taken = partsOfWords(said, parts)
  const wrong = parts.flatMap(({ kind, state, name, expected }, place) => {
    const spec = pack.figures.declarations[name]?.spec
    const isValue = kind === 'figure' && state === 'wrong' && expected !== undefined && spec !== undefined
    if (!isValue || !taken.includes(place)) return []
    const words = wordsIn(
      sayValue({ ...spec, value: expected } as Parameters<typeof sayValue>[0], settings.phraseology),
    )
    return [{ place, words }]
  })
  if (wrong.length === 0) return undefined
  const words: string[] = []
  const changed: number[] = []
  said.forEach((word, at) => {
    const put = wrong.find(({ place }) => place === taken[at])
    if (!put) words.push(word)
    else if (taken[at - 1] !== put.place) {
      changed.push(...put.words.map((_, offset) => words.length + offset))
      words.push(...put.words)
    }
  })
  return { how: 'putRight', words, changed }
}

const NEXT_WORD: ReadonlyMap<string, string> = new Map(
  [DIGIT_WORDS, TEEN_WORDS].flatMap((row) =>
    row.map((word, at) => [word, row[(at + 1) % row.length] ?? word] as const),
  ),
)

/** The last digit of the first value is the next one up: six for five. */
function otherDigit(words: readonly string[], parts: readonly Part[]): Changed | undefined {
  const taken = partsOfWords(words, parts)
  const value = parts.findIndex(({ kind }, place) => kind === 'figure' && taken.includes(place))
  for (let at = words.length - 1; at >= 0; at--) {
    const word = words[at] ?? ''
    const next = NEXT_WORD.get(word.toLowerCase()) ?? numeralAfter(word)
    if (taken[at] === value && next !== undefined) return changedAt('otherDigit', words, at, next)
  }
  return undefined
}

const numeralAfter = (word: string): string | undefined =>
  /^\d[\d.,]*$/.test(word) ? word.replace(/\d$/, (digit) => String((Number(digit) + 1) % 10)) : undefined

/** A direction is its opposite; where no value has one, a state. */
function opposite(words: readonly string[], parts: readonly Part[]): Changed | undefined {
  const taken = partsOfWords(words, parts)
  const found = words.flatMap((word, at) => {
    const [other] = opposites(word.toLowerCase())
    const part = parts[taken[at] ?? -1]
    return part && other !== undefined ? [{ at, other, kind: part.kind }] : []
  })
  const chosen = found.find(({ kind }) => kind === 'figure') ?? found.at(-1)
  return chosen && changedAt('opposite', words, chosen.at, chosen.other)
}

/** The last part is left out; of a single value its last word. */
function leftOut(words: readonly string[], parts: readonly Part[]): Changed | undefined {
  const taken = partsOfWords(words, parts)
  const last = taken.findLast((place) => place !== undefined)
  if (last === undefined) return undefined
  const isOnly = taken.every((place) => place === undefined || place === last)
  const rest = isOnly ? words.toSpliced(taken.lastIndexOf(last), 1) : words.filter((_, at) => taken[at] !== last)
  return rest.length === 0 ? undefined : { how: 'leftOut', words: rest, changed: [] }
}
