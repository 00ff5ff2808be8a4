/** Calls of an engine start: the one that begins it, each with its value, and the abnormal ones that stop it. */

import { phrase, wordsOf } from '../hearing/phrases.ts'
import type { Figure, Figures } from '../kinds/kind.ts'
import type { Transcript } from '../numbers/tokens.ts'
import type { CallValue, Pack, Watch, WatchCall } from '../pack/checklist.ts'
import { engineNames } from '../pack/engineNames.ts'
import { isAnnounced, isOnlyNamed } from '../response/announced.ts'
import { judge } from '../response/judge.ts'
import { HARMLESS, isNegation } from '../response/lexicon.ts'
import type { Judgement, Part } from '../response/model.ts'
import { type Response, responseFrom } from '../response/response.ts'
import { isStartEnded } from '../response/stopWords.ts'
import { SYNONYMS } from '../response/synonyms.ts'
import type { EventBody } from '../run/core/events.ts'
import { outsideOf } from '../run/watch/callValue.ts'
import { runningWatch, watchAt, watchesOf, watchState } from '../run/watch/watchTiming.ts'
import { judgeAnswer, openItem } from './answer.ts'
import { namedOtherwise, withoutEngine } from './engineNamed.ts'
import { isHalfOther, type Utterance } from './utterance.ts'

const VALUE_ALONE = responseFrom('[at] <value> [percent]')

/** A call of the watch that is under way or has the floor, or the beginning of one. Limits run by the onset of speech. */
export function watchCall({
  pack,
  state,
  heard: { beganAt },
  said: all,
  opening,
  rest,
  evidence,
}: Utterance): EventBody | undefined {
  // "Correction" before a call changes nothing in what it calls, nor "negative" to a reading that is questioned.
  const isReadAgain = opening === 'negative' && state.question?.about === 'callValue'
  const { heard } = opening === 'correction' || isReadAgain ? rest : all
  const running = runningWatch(pack, state)
  const watch = running ?? watchAt(pack, state.floor, state)
  const at = Math.max(0, beganAt - state.startedAt)
  // A call is the same with the name of its engine; with that of another one it is none.
  const ways = watch ? waysToCall(pack, watch, heard) : []
  const abnormal =
    watch?.abnormal.find(({ say }) => ways.some((way) => isAnnounced(say, way))) ??
    running?.abnormal.find(({ say }) => isCried(say, heard))
  if (watch && abnormal) return { type: 'watchStopped', watch: watch.id, abnormal: abnormal.id, at, evidence }
  const begun = watchBegunBy(pack, heard)
  if (begun) return { type: 'watchBegan', watch: begun.id, at, evidence }
  if (!watch) return undefined
  const { pending } = watchState(state, watch.id)
  const { question } = state
  const asked = question?.about === 'callEarly' ? question.call.id : pending?.call
  for (const way of ways) {
    for (const call of watch.calls) {
      const called = call.value ? withValue(call, way, asked === call.id) : isAnnounced(call.say, way) && {}
      if (called) return { type: 'watchCalled', watch: watch.id, call: call.id, at, evidence, ...called }
    }
  }
  return undefined
}

/** Without the engine's name. A side alone may be a word of the call ("left magneto"), and is left out second. */
function waysToCall(pack: Pack, { calls, ...watch }: Watch, heard: Transcript): Transcript[] {
  const { full, side } = engineNames(watchesOf(pack), { calls, ...watch })
  const ways = withoutEngine(heard, full)
  const hasSides = calls.some(({ say }) => say.words.has('left') || say.words.has('right'))
  return side === undefined || hasSides ? ways : [...ways, ...ways.flatMap((way) => withoutEngine(way, [side]))]
}

/** An abnormal call where no start is running: it stops nothing, and is answered all the same. */
export function abnormalCall({ pack, state, heard: { beganAt }, said, evidence }: Utterance): EventBody | undefined {
  const watch = watchesOf(pack).find(({ abnormal }) => abnormal.some(({ say }) => isAnnounced(say, said.heard)))
  const abnormal = watch?.abnormal.find(({ say }) => isAnnounced(say, said.heard))
  if (!watch || !abnormal || watchState(state, watch.id).status === 'stopped') return undefined
  const at = Math.max(0, beganAt - state.startedAt)
  return { type: 'watchStopped', watch: watch.id, abnormal: abnormal.id, at, evidence }
}

/** "We have an engine fire", "light up, hot start": one call too many costs a start, one too few an engine. */
export function isCried({ wordings }: Response, { tokens }: Transcript): boolean {
  const said = wordsOf(tokens)
  return wordings.some((text) => {
    const words = phrase(text).split(' ')
    const at = said.findIndex((_, from) => words.every((word, index) => said[from + index] === word))
    const others = at < 0 ? [] : [...said.slice(0, at), ...said.slice(at + words.length)]
    return at >= 0 && words.length > 1 && !others.some((word) => isNegation(word) || TALKING.has(word))
  })
}
const TALKING = new Set(['if', 'unless', 'in', 'case', 'for', 'remember', 'say', 'call', 'is', 'was'])

/** "Starting number two" is as good as "starting right", whichever of them the pack has. */
function watchBegunBy(pack: Pack, heard: Transcript): Watch | undefined {
  const watches = watchesOf(pack)
  return (
    watches.find(({ begins }) => isAnnounced(begins, heard)) ??
    watches.find((watch) => {
      const { full, side, number } = engineNames(watches, watch)
      const names = [...full, side, number].filter((name) => name !== undefined)
      return namedOtherwise(heard, names).some((way) => isAnnounced(watch.begins, way))
    })
  )
}

/** The words that begin a start, said inside a list or an exchange: what they are an answer to wins. */
export function startCall(utterance: Utterance): EventBody | undefined {
  const { pack, state, said, evidence } = utterance
  const begun = watchBegunBy(pack, said.heard)
  const item = openItem(utterance)
  if (!begun || (item && judgeAnswer(utterance, item).verdict === 'correct')) return undefined
  return { type: 'watchBegan', watch: begun.id, at: Math.max(0, utterance.heard.beganAt - state.startedAt), evidence }
}

/** Words that are in many calls and in any talk beside an engine. */
const COMMON = new Set(['on', 'off', 'in', 'out', 'up', 'not', 'no', 'too', 'stays', 'still', 'percent', 'degrees'])
/** More words than a call has. */
const MOST_WORDS = 8

/**
 * What the pilot means for a start and cannot be taken for a call of it: all that is typed there, and a few spoken words with
 * one of a call among them. Undefined for other speech: whoever watches an engine talks, and says many numbers.
 */
export function callNotUnderstood(utterance: Utterance): EventBody | undefined {
  const { pack, state, heard, said, evidence } = utterance
  const running = runningWatch(pack, state)
  const watch = running ?? watchAt(pack, state.floor, state)
  if (!watch || state.floor.at !== 'watch') return undefined
  const { begins, calls, abnormal } = watch
  const says = running ? [...calls, ...abnormal].map(({ say }) => say) : [begins]
  const known = new Set(says.flatMap(({ wordings }) => wordings).flatMap((text) => phrase(text).split(' ')))
  const isOfCall = (word: string) => known.has(word) && !COMMON.has(word) && !HARMLESS.has(word)
  const words = said.heard.tokens.filter(({ number }) => !number).map(({ text }) => text)
  const isMeant = words.length <= MOST_WORDS && words.some(isOfCall) && !isHalfOther(utterance)
  return heard.by === 'typed' || isMeant ? { type: 'overheard', watch: watch.id, meant: true, evidence } : undefined
}

/** What a stop asked for, told as done: it is heard, and asked for no more. */
export function stopCarriedOut({ pack, state, said, evidence }: Utterance): EventBody | undefined {
  const stopped = watchesOf(pack).findLast(({ id }) => watchState(state, id).status === 'stopped')
  if (!stopped || runningWatch(pack, state) || !isStartEnded(said.heard.tokens)) return undefined
  return { type: 'overheard', watch: stopped.id, evidence }
}

type Called = Pick<EventBody<'watchCalled'>, 'value' | 'inRange'>

/**
 * The call with its value, or without it; where only the value was asked for, the value alone. A number by itself is no
 * call: whoever watches an engine says many.
 */
function withValue({ say, value }: WatchCall, heard: Transcript, isPending: boolean): Called | undefined {
  if (!value || isOnlyNamed(heard.tokens, say)) return undefined
  const figure = figureOf(value)
  const ways = [...(isNamed(say, heard) ? [say] : []), ...(isPending ? [VALUE_ALONE] : [])]
  for (const response of ways) {
    const asked = { response, figures: { value: figure }, heard }
    const exact = judge({ ...asked, exact: true })
    // With its value a call is known beside what else a pilot says; without it too little was said for that.
    const { verdict, parts } = exact.verdict === 'sayAgain' && response === say ? withWords(judge(asked), exact) : exact
    const hasWords = parts.every(({ name, state }) => name === 'value' || state === 'ok')
    if (!hasWords || (verdict !== 'correct' && verdict !== 'negative' && verdict !== 'incomplete')) continue
    const read = parts.find(({ name }) => name === 'value')?.read
    if (read !== undefined) return { value: read, inRange: outsideOf(value, read) === undefined }
    if (verdict === 'incomplete' && response === say) return {}
  }
  return undefined
}

function figureOf({ spec, min, max }: CallValue): Figure {
  const limits = { ...(min !== undefined && { min }), ...(max !== undefined && { max }) }
  return { ...spec, value: min ?? max ?? 0, accept: limits } as Figure
}

/** What of the words was taken for a call: the part `value` of what is read out with it, and its own words under its label. */
export function partsOfCall(
  { label, say, value }: Pick<WatchCall, 'label' | 'say' | 'value'>,
  heard: Transcript,
): readonly Part[] {
  const figures: Figures = value ? { value: figureOf(value) } : {}
  const ways = value ? [say, VALUE_ALONE].map((response) => judge({ response, figures, heard }).parts) : []
  const read = ways.flat().find((part) => part.name === 'value' && part.heard !== undefined)
  const said = ` ${wordsOf(heard.tokens).join(' ')} `
  const own = say.wordings
    .filter((words) => said.includes(` ${phrase(words)} `))
    .sort((one, other) => other.length - one.length)
    .map((words): Part => ({ name: label, kind: 'word', state: 'ok', heard: words }))
  return [...(read ? [read] : []), ...own]
}

const withWords = (judged: Judgement, exact: Judgement) => (judged.verdict === 'correct' ? judged : exact)

/** Some of the words of a call that are not just around any value. */
function isNamed(say: Response, { tokens }: Transcript): boolean {
  const said = ` ${wordsOf(tokens)
    .map((word) => ownWordFor(word, say))
    .join(' ')} `
  return say.wordings.some((words) => !VALUE_ALONE.wordings.includes(words) && said.includes(` ${phrase(words)} `))
}

/** "Peaked" is "peak" where the call has that word. */
function ownWordFor(word: string, { words }: Response): string {
  if (words.has(word)) return word
  const alike = SYNONYMS.find((line) => line.includes(word) && line.some((one) => words.has(one))) ?? []
  return alike.find((one) => words.has(one)) ?? word
}
