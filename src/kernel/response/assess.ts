/** What fills each slot, against the figures -> the parts of a judgement, and from them the verdict. */

import { isGauge, type Judged, type Phraseology, type Value } from '../kinds/kind.ts'
import { isNumeric, isSameValue } from '../kinds/table.ts'
import type { Token } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { compareAll } from './compare.ts'
import type { Filled, WordFiller } from './fill.ts'
import type { Frame } from './frame.ts'
import { areContrary } from './lexicon.ts'
import type { Because, Judgement, Part } from './model.ts'
import type { Outcome } from './outcome.ts'
import type { FigureSlot, WordSlot } from './path.ts'

export interface Assessment {
  readonly judgement: Judgement
  /** Every required part was said, right or wrong. */
  readonly whole: boolean
  /** Words of a command stood in the answer. */
  readonly commanded: boolean
}

/** What the fillers of slots are measured by. */
export interface Standard {
  readonly figures: Judged
  readonly phraseology: Phraseology
  /** Names of parts that an earlier breath said. */
  readonly held: ReadonlySet<string>
  /** Nothing may stand beside the answer. */
  readonly exact: boolean
  /** Figure -> the implausible value of the try before. */
  readonly implausibleBefore: Readonly<Record<string, Value>> | undefined
  readonly isTyped: boolean
}

interface Finding {
  readonly part: Part
  /** Why this part makes "say again", if it does. */
  readonly doubt?: Because
  /** Why it is wrong. */
  readonly because?: Because
  /** Right, but not as the phraseology wants it. */
  readonly offForm?: boolean
}

const FORMS = { digits: 'digit by digit', words: 'in the words of the list' } as const

export function assess(frame: Frame, filled: Filled, standard: Standard): Assessment {
  const findings = frame.path.flatMap(
    (slot, index) =>
      (slot.type === 'figure'
        ? figureFinding(frame, filled, slot, index, standard)
        : wordFinding(filled.words.get(index) ?? [], slot, standard.held, filled.mixed)) ?? [],
  )
  const otherStates = (filled.words.get(-1) ?? []).map(({ tokens }): Finding => {
    const heard = wordsOfTokens(tokens)
    return { part: { name: heard, kind: 'word', state: 'wrong', heard, read: heard }, because: 'state' }
  })
  const all = [...findings, ...otherStates]
  const whole = all.every(({ part }) => part.state !== 'missing' || (part.read !== undefined && !part.lacks))
  const judgement = verdictOf(frame, filled, all, standard)
  return { judgement, whole, commanded: filled.commanded }
}

function figureFinding(
  frame: Frame,
  filled: Filled,
  slot: FigureSlot,
  index: number,
  { figures, phraseology, held, implausibleBefore, isTyped }: Standard,
): Finding | undefined {
  const base = { name: slot.name, kind: 'figure' } as const
  const fillers = filled.figures.get(index)
  if (!fillers) {
    if (held.has(slot.name)) return { part: { ...base, state: 'ok' } }
    // Its label was said, and no number after it.
    if (filled.labelled.has(index)) return { part: { ...base, state: 'missing', lacks: 'digits' } }
    return slot.required ? { part: { ...base, state: 'missing' } } : undefined
  }
  const heard = heardIn(fillers)
  const figure = ownOf(figures, slot.figure)
  // Without a value nothing is right or wrong.
  const isUsable = figure && (isGauge(figure) || !isNumeric(figure) || Number.isFinite(figure.value))
  if (!isUsable || !frame.specs[index]) return { part: { ...base, state: 'missing', heard }, doubt: 'notUnderstood' }
  const outcome = compareAll(figure, fillers, phraseology)
  const before = ownOf(implausibleBefore, slot.figure) ?? ownOf(implausibleBefore, slot.name)
  const isAgain = before !== undefined && 'read' in outcome && isSameValue(figure, before, outcome.read ?? '')
  // Of several values it may only have been put in the wrong place.
  const isSure = (isTyped && frame.figureCount === 1) || isAgain
  if (isGauge(figure)) {
    const isOutside = outcome.is === 'wrong' && outcome.because === 'limit'
    return findingOf({ ...base, heard, ...(isOutside && { limits: figure.read }) }, outcome, isSure)
  }
  return findingOf({ ...base, heard, expected: figure.value }, outcome, isSure)
}

function findingOf(base: Omit<Part, 'state'>, outcome: Outcome, isSure: boolean): Finding {
  switch (outcome.is) {
    case 'right':
      return { part: { ...base, state: 'ok', read: outcome.read }, offForm: !outcome.form }
    case 'wrong': {
      const read = outcome.read === undefined ? {} : { read: outcome.read }
      return { part: { ...base, state: 'wrong', ...read }, because: outcome.because }
    }
    case 'lacking': {
      const read = outcome.read === undefined ? {} : { read: outcome.read }
      return { part: { ...base, state: 'missing', ...read, lacks: outcome.lacks } }
    }
    case 'implausible':
      // Typed, or the same one twice in a row, it was no slip of the ear.
      if (isSure) return { part: { ...base, state: 'wrong', read: outcome.read }, because: 'value' }
      return { part: { ...base, state: 'missing', read: outcome.read }, doubt: 'implausible' }
    case 'doubtful':
      return { part: { ...base, state: 'missing' }, doubt: outcome.because }
  }
}

function wordFinding(
  fillers: readonly WordFiller[],
  slot: WordSlot,
  held: ReadonlySet<string>,
  isMixed: boolean,
): Finding | undefined {
  const base = { name: slot.name, kind: 'word' } as const
  if (fillers.length === 0) {
    if (held.has(slot.name)) return { part: { ...base, state: 'ok' } }
    return slot.required ? { part: { ...base, state: 'missing' } } : undefined
  }
  const heard = heardIn(fillers)
  const own = fillers.filter((filler) => filler.own)
  if (own.length === 0) {
    return { part: { ...base, state: 'wrong', heard, read: heard, expected: slot.name }, because: 'state' }
  }
  if (own.length < fillers.length) {
    // "Left on, right off": of `both on`, one is wrong.
    if (isMixed) return { part: { ...base, state: 'wrong', heard, read: heard, expected: slot.name }, because: 'state' }
    return { part: { ...base, state: 'missing', heard }, doubt: 'twoValues' }
  }
  if (isOneOrOther(own, slot)) return { part: { ...base, state: 'missing', heard }, doubt: 'twoValues' }
  return {
    part: { ...base, state: 'ok', heard, read: wordsOfTokens(own.at(-1)?.tokens ?? []) },
    offForm: own.some(({ literal }) => !literal),
  }
}

/** "Left, right" where either would be right: of its ways two were said that cannot both be so. */
function isOneOrOther(own: readonly WordFiller[], { wordings }: WordSlot): boolean {
  const said = own.map(({ tokens }) => tokens.map(({ text }) => text).join(' '))
  const ways = [...new Set(said)].filter((text) => wordings.some((wording) => wording.text === text))
  return ways.some((one, at) => ways.slice(at + 1).some((other) => areContrary(one, other)))
}

const heardIn = (fillers: readonly { readonly tokens: readonly Token[] }[]) =>
  fillers.map(({ tokens }) => wordsOfTokens(tokens)).join(', ')

/** As it was said, with what was written together still together: "5.2". */
function wordsOfTokens(tokens: readonly Token[]): string {
  let text = ''
  let end = -1
  for (const token of tokens) {
    const isJoined = text !== '' && token.start === end
    text += isJoined && token.text === 'is' ? "'s" : isJoined || text === '' ? token.text : ` ${token.text}`
    end = token.end
  }
  return text
}

function verdictOf(
  frame: Frame,
  filled: Filled,
  findings: readonly Finding[],
  { phraseology, exact }: Standard,
): Judgement {
  const parts = findings.map(({ part }) => part)
  const doubt = filled.doubt ?? findings.find((finding) => finding.doubt)?.doubt
  if (doubt) return { verdict: 'sayAgain', because: doubt, parts: unsettled(parts) }
  const wrong = findings.find(({ part }) => part.state === 'wrong')
  if (wrong) return { verdict: 'negative', because: wrong.because ?? 'value', parts }
  const missing = parts.filter(({ state }) => state === 'missing')
  const isHeard = !filled.beside || parts.some(({ heard }) => heard !== undefined)
  const begun = isHeard && parts.some((part) => part.state === 'ok' || part.lacks !== undefined)
  const isAsked = filled.unheard && (missing.length === 0 || !parts.some(({ state }) => state === 'ok'))
  if (filled.unknown || isAsked || (exact && (filled.beside || filled.unheard)))
    return { verdict: 'sayAgain', because: 'notUnderstood', parts: unsettled(parts) }
  if (filled.partial && begun) return { verdict: 'incomplete', because: 'missing', parts: unsettled(parts) }
  if (missing.length > 0) {
    if (!begun) return { verdict: 'sayAgain', because: 'notUnderstood', parts }
    return { verdict: 'incomplete', because: 'missing', parts: filled.unheard ? doubted(parts) : parts }
  }
  if (parts.length === 0) return { verdict: 'sayAgain', because: 'notUnderstood', parts }
  const form = formAsked(frame, filled, findings, phraseology)
  return form ? { verdict: 'sayAgain', because: 'form', form, parts } : { verdict: 'correct', parts }
}

/** Of an answer that was not understood nothing is said to be right or wrong. */
function unsettled(parts: readonly Part[]): readonly Part[] {
  return parts.map((part) =>
    part.state === 'missing' || part.heard === undefined ? part : { ...part, state: 'missing' },
  )
}

/** Right, but said beside what was not understood: to be said again with the rest. */
function doubted(parts: readonly Part[]): readonly Part[] {
  return parts.map((part) => (part.state === 'ok' && part.heard !== undefined ? { ...part, doubtful: true } : part))
}

function formAsked(
  frame: Frame,
  filled: Filled,
  findings: readonly Finding[],
  phraseology: Phraseology,
): string | undefined {
  if (phraseology === 'plain') return undefined
  if (findings.some(({ part, offForm }) => part.kind === 'figure' && offForm)) return FORMS.digits
  if (!filled.inOrder) return FORMS.words
  if (phraseology !== 'verbatim') return undefined
  const unlabelled = frame.path.some(
    (slot, i) => slot.type === 'figure' && slot.labels.length > 0 && filled.figures.has(i) && !filled.labelled.has(i),
  )
  const offWords = findings.some(({ part, offForm }) => part.kind === 'word' && offForm)
  return unlabelled || offWords ? FORMS.words : undefined
}
