/** What follows from a verdict on an answer to the open item. */

import type { Figure, Value } from '../../kinds/kind.ts'
import { isComposed, sayValue } from '../../kinds/table.ts'
import { spokenUnit, unitAloud, unitAmong } from '../../kinds/unitWords.ts'
import { isNumberToken, type Token, tokensOf } from '../../numbers/tokens.ts'
import type { Item, Pack } from '../../pack/checklist.ts'
import { findItem, responseOf, saidFigures } from '../../pack/place.ts'
import { papersWith } from '../../papers/papersWith.ts'
import { isKnownWord } from '../../response/lexicon.ts'
import type { Part } from '../../response/model.ts'
import { acceptedAs } from '../core/accepted.ts'
import { askAgain, tooSoonToAsk } from '../core/askingAgain.ts'
import type { Evidence, RunEvent } from '../core/events.ts'
import { unmet } from '../core/interlocks.ts'
import { answeredAnew } from '../core/lateCatch.ts'
import { PROMPT_AFTER_MISS_MS, sayAndListen } from '../core/listening.ts'
import { advance } from '../core/moving.ts'
import { notYet, withRefusal } from '../core/notYet.ts'
import { listed, say } from '../core/phrases.ts'
import { itemState, lastClosed, missingFigures, withItem } from '../core/progress.ts'
import type { RunState, Step } from '../core/state.ts'
import { plannedFor, seatWords } from '../partner/seat.ts'

type Answered = RunEvent<'answered'>

/** Throws where the pack does not have the item. */
export function answered(pack: Pack, before: RunState, event: Answered): Step {
  const { item, list } = findItem(pack, event.item)
  const { judgement, evidence } = event
  const last = { item: item.id, challenge: item.challenge, text: evidence.text, by: evidence.by, judgement }
  const state: RunState = { ...withReadings(pack, before, judgement.parts), last, standingBy: false }
  switch (judgement.verdict) {
    case 'correct': {
      const blockedBy = unmet(pack, state, item.interlocks, event.t)
      if (blockedBy) return notYet(pack, withRefusal(state), item.id, blockedBy)
      const words = item.answers === 'both' ? [otherSeat(pack, state, item, judgement.parts)] : []
      const { by } = evidence
      const done = closeItem(answeredAnew(state, item.id, 'pilot'), item, {
        status: 'done',
        by,
        expected: event.expected,
        revision: event.revision,
      })
      return advance(pack, done, list.id, { words, tone: 'tick' })
    }
    case 'negative':
      return missed(pack, answeredAnew(state, item.id, 'otherseat'), item, event)
    case 'incomplete':
      return judgement.because === 'valueless'
        ? valueless(pack, state, item)
        : incomplete(pack, state, item, judgement.parts)
    case 'sayAgain':
      return sayAgain(pack, state, item, event)
    case 'command':
      // Commands come as events of their own; an answer that is one changes nothing.
      return { state, effects: [] }
  }
}

/** What was read off a gauge is kept, in one breath or in two. */
function withReadings(pack: Pack, state: RunState, parts: readonly Part[]): RunState {
  const read = parts.flatMap(({ name, kind, state, read }): [string, Value][] => {
    const isReading = kind === 'figure' && state === 'ok' && pack.figures.declarations[name]?.read !== undefined
    return isReading && read !== undefined ? [[name, read]] : []
  })
  return read.length === 0 ? state : { ...state, readings: { ...state.readings, ...Object.fromEntries(read) } }
}

/** Done or passed, in the wording that applies now; the last that was closed. */
export function closeItem(state: RunState, item: Item, change: Parameters<typeof withItem>[2]): RunState {
  const response = responseOf(item, state).text
  return lastClosed(withItem(state, item.id, { ...change, response, partsSoFar: [], begun: {}, sayAgains: 0 }), item.id)
}

/** Its own side of the cockpit is simulated, and said to be so: it sees nothing, and agrees with nothing (law 8). */
function otherSeat(pack: Pack, state: RunState, item: Item, parts: readonly Part[]): string {
  // Of alternatives, such as a setting in hectopascals or in inches, the one that the pilot said.
  const said = parts.flatMap(({ kind, name }) => (kind === 'figure' ? [name] : []))
  return seatWords(pack, state, item, said, plannedFor(state, item.id))
}

/**
 * What was heard, as words: a value that was read is said as a value, so that a misreading is noticed; as it was heard one
 * that is finer than its kind can say, or of which a part was not said.
 */
function heardWords(pack: Pack, state: RunState, event: Answered): string {
  const wrong = event.judgement.parts.filter((part) => part.state === 'wrong')
  const words = wrong.map((part) => {
    const spec = part.kind === 'figure' && part.read !== undefined && pack.figures.declarations[part.name]?.spec
    if (!spec || isFiner(part.read, 'decimals' in spec ? spec.decimals : undefined, spec.kind)) return part.heard ?? ''
    const value = sayValue({ ...spec, value: part.read } as Figure, state.settings.phraseology)
    // By itself the number may be right: the unit is what was wrong.
    const unit = event.judgement.because === 'unit' && unitAmong(tokensOf(part.heard ?? '').map(({ text }) => text))
    if (unit) return `${value} ${unit}`
    return part.heard === undefined || isAllSaid(part.heard, value) ? value : part.heard
  })
  return words.filter((text) => text).join(', ') || event.evidence.text
}

/** Nothing is in the value that was not in the words: no direction that was left out, no digits for "neutral". */
function isAllSaid(heard: string, value: string): boolean {
  const [said, told] = [tokensOf(heard), tokensOf(value)]
  // "27L" is two seven left.
  const isSaid = ({ text }: Token) => said.some((one) => one.text !== '' && text.startsWith(one.text))
  return (
    told.filter((one) => !isNumberToken(one)).every(isSaid) && (said.some(isNumberToken) || !told.some(isNumberToken))
  )
}

const WHOLE: ReadonlySet<string> = new Set(['integer', 'weight', 'temperature', 'speed', 'altitude', 'heading'])

function isFiner(value: Part['read'], decimals: number | undefined, kind: string): boolean {
  const places = decimals ?? (WHOLE.has(kind) ? 0 : undefined)
  if (typeof value !== 'number' || places === undefined) return false
  return Math.abs(value - Number(value.toFixed(places))) > 1e-9
}

function missed(pack: Pack, before: RunState, item: Item, event: Answered): Step {
  const previous = itemState(before, item.id)
  const wrong = event.judgement.parts.filter((part) => part.state === 'wrong')
  const refused =
    wrong.length > 0 ? wrong.map((part) => `${part.name}=${part.read ?? part.heard}`).join(' ') : undefined
  const misses = previous.misses + 1
  // A state rests on no figures.
  const isFigure = wrong.some(({ kind }) => kind === 'figure')
  const isSameAgain = isFigure && refused === previous.refused
  const isOutside = event.judgement.because === 'limit'
  const { coachAfter } = before.settings
  const coached = coachAfter > 0 && misses >= coachAfter ? coaching(pack, before, item, wrong) : []
  const looked = coachAfter > 0 && item.look ? item.look : []
  const state = withItem(before, item.id, {
    misses,
    looks: previous.looks + looked.length,
    sayAgains: 0,
    partsSoFar: [],
    begun: {},
    ...(refused !== undefined && { refused }),
  })
  // One thing to do at a time; the challenge was just said.
  const unit = event.judgement.because === 'unit' ? unitAsked(pack, wrong) : undefined
  const advice = unit
    ? [say.inUnit(unit)]
    : isSameAgain
      ? isOutside
        ? [say.openOrPass()]
        : [say.judgedAgainst(sayValue({ kind: 'integer', value: acceptedAs(before, event.revision) }, 'plain'))]
      : looked.length > 0
        ? [say.lookAt(looked)]
        : []
  const words = [say.heard(heardWords(pack, before, event), sideOf(wrong)), ...(coached.length > 0 ? coached : advice)]
  return sayAndListen(pack, state, words, {
    promptAfterMs: PROMPT_AFTER_MISS_MS,
    tone: 'attention',
  })
}

/** The unit that a value is wanted in, where it was said in another one. */
function unitAsked(pack: Pack, wrong: readonly Part[]): string | undefined {
  const names = wrong.flatMap(({ kind, name }) => (kind === 'figure' ? [name] : []))
  const measure = names.length === 1 ? pack.figures.declarations[names[0] ?? '']?.measure : undefined
  const { unit } = measure === undefined ? {} : spokenUnit(measure)
  return unit && unitAloud(unit)
}

/** On which side of its limits a reading is. */
function sideOf(wrong: readonly Part[]): 'low' | 'high' | undefined {
  const { limits, read } = wrong.find((part) => part.limits) ?? {}
  if (!limits || typeof read !== 'number') return undefined
  return limits.min !== undefined && read < limits.min ? 'low' : 'high'
}

/** Where to look, never the value (law 4); a limit stands on the card. */
function coaching(pack: Pack, state: RunState, item: Item, wrong: readonly Part[]): string[] {
  const outside = wrong.flatMap(({ name, limits }) => {
    const { spec, label } = pack.figures.declarations[name] ?? {}
    if (!limits || !spec || !label) return []
    const words = (value: number | undefined) =>
      value === undefined ? undefined : sayValue({ ...spec, value }, state.settings.phraseology)
    return [say.limitsOf(label, words(limits.min), words(limits.max))]
  })
  if (outside.length > 0) return outside
  const figures = wrong.flatMap(({ kind, name }) => (kind === 'figure' ? [name] : []))
  // What a station gave stands on no paper as it is now.
  const printed = figures.filter((name) => state.fromStations[name] === undefined)
  const titles = [...new Set(printed.flatMap((name) => papersWith(pack, name).map(({ title }) => title)))]
  if (titles.length > 0) return [say.coach(titles)]
  return figures.length > 0 && item.look ? [say.lookAt(item.look)] : []
}

/** Said to be done, and the value left out: the pilot's miss. */
function valueless(pack: Pack, before: RunState, item: Item): Step {
  const state = withItem(before, item.id, { misses: itemState(before, item.id).misses + 1, sayAgains: 0 })
  return sayAndListen(pack, state, [say.valueless()], { promptAfterMs: PROMPT_AFTER_MISS_MS, tone: 'attention' })
}

function incomplete(pack: Pack, before: RunState, item: Item, parts: readonly Part[]): Step {
  const right = parts.filter((part) => part.state === 'ok' && !part.doubtful).map((part) => part.name)
  const partsSoFar = [...new Set([...itemState(before, item.id).partsSoFar, ...right])]
  const begun = Object.fromEntries(
    parts.flatMap(({ name, state, heard }) => (state === 'missing' && heard ? [[name, heard]] : [])),
  )
  const state = withItem(before, item.id, { partsSoFar, begun, sayAgains: 0 })
  const named = (some: readonly Part[]) => [...new Set(some.map((part) => missingName(pack, before, item, part)))]
  const missing = named(parts.filter((part) => part.state === 'missing'))
  // Right, beside words that nobody knows: it was said, and is to be said again.
  const again = named(parts.filter(({ doubtful }) => doubtful)).filter((name) => !missing.includes(name))
  return sayAndListen(pack, state, [
    again.length > 0 ? say.sayAgain(listed(again)) : '',
    missing.length > 0 ? say.missing(item.challenge, missing) : '',
  ])
}

/** A part by its name, never by its value: an untagged word part has only its own wording for a name. */
function missingName(pack: Pack, state: RunState, item: Item, part: Part): string {
  if (part.lacks === 'direction') return 'direction'
  if (part.lacks === 'decimals') return 'decimals'
  const spec = pack.figures.declarations[part.name]?.spec
  if (part.lacks === 'digits' && !(spec && isComposed(spec))) return 'all digits'
  if (part.kind === 'figure') return pack.figures.declarations[part.name]?.label ?? 'the rest'
  const { wordings } = responseOf(item, state)
  const isAnswer = wordings.some((words) => ` ${words} `.includes(` ${part.name} `))
  return isAnswer ? 'the rest' : part.name
}

/** Single digits help a number that was not understood, and nobody who said none: "checked, no". */
function mayHoldDigits({ text, by }: Evidence): boolean {
  const tokens = tokensOf(text)
  return tokens.some(isNumberToken) || (by === 'voice' && !tokens.every((token) => isKnownWord(token.text)))
}

/** The ear's doing, counted apart from misses: first again, then in single digits, then keys and quiet. */
function sayAgain(pack: Pack, before: RunState, item: Item, event: Answered): Step {
  const { judgement, evidence } = event
  // No answer can be right here: what has to be settled or entered first is said again.
  if (missingFigures(pack, before, item).length > 0)
    return sayAndListen(pack, withItem(before, item.id, { sayAgains: 1 }), [], { prompt: true })
  const { by } = evidence
  const soon = tooSoonToAsk(pack, before, by)
  if (soon) return soon
  const times = itemState(before, item.id).sayAgains + 1
  const implausible = Object.fromEntries(
    judgement.because === 'implausible'
      ? judgement.parts.flatMap((part) => (part.read === undefined ? [] : [[part.name, part.read]]))
      : [],
  )
  const state = withItem(before, item.id, { sayAgains: times, implausible })
  if (judgement.because === 'form' && judgement.form) return askAgain(pack, state, [say.form(judgement.form)])
  if (judgement.because === 'twoValues') return askAgain(pack, state, [say.twoValues()])
  const hasDigits = saidFigures(item, state).length > 0 && mayHoldDigits(evidence)
  const asksDigits = hasDigits && state.settings.digitsFirst
  if (times === 1 && !asksDigits) return askAgain(pack, state, [say.sayAgain(item.challenge)])
  // What is typed is read in any case: only a voice may be helped by keys.
  if (times <= 2 || by !== 'voice')
    return askAgain(pack, state, [hasDigits ? say.singleDigits(item.challenge) : say.sayAgain(item.challenge)])
  if (times === 3) return askAgain(pack, state, [say.useKeys()])
  // Said once, lest quiet be taken for deaf; a tone for each after that.
  return sayAndListen(pack, state, times === 4 ? [say.stillListening()] : [], { tone: 'soft' })
}
