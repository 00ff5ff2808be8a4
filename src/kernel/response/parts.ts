/** What was said for each part -> the parts of a judgement, and from them the verdict. */

import type { Figures, Phraseology, Value } from '../kinds/kind.ts'
import { isNumeric, isSameValue } from '../kinds/table.ts'
import type { Token } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import type { Bound, WordSaying } from './bind.ts'
import { compareAll, type Outcome } from './compare.ts'
import type { Because, Judgement, Part } from './model.ts'
import type { FigureSlot, WordSlot } from './path.ts'
import type { Scene } from './scene.ts'

export interface Account {
  readonly judgement: Judgement
  /** Every required part was said, right or wrong. */
  readonly whole: boolean
  /** Words of a command stood in the answer. */
  readonly commanded: boolean
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

export const FORMS = { digits: 'digit by digit', words: 'in the words of the list' } as const

export function accountOf(
  scene: Scene,
  bound: Bound,
  figures: Figures,
  phraseology: Phraseology,
  held: ReadonlySet<string>,
  implausibleBefore: Readonly<Record<string, Value>> | undefined,
): Account {
  const findings: Finding[] = []
  scene.path.forEach((slot, index) => {
    if (slot.type === 'figure') {
      const finding = figureFinding(scene, bound, slot, index, figures, phraseology, held, implausibleBefore)
      if (finding) findings.push(finding)
    } else {
      const finding = wordFinding(bound.words.get(index), slot, held)
      if (finding) findings.push(finding)
    }
  })
  const strays = bound.words.get(-1) ?? []
  for (const stray of strays) {
    const heard = wordsOfTokens(stray.tokens)
    findings.push({ part: { name: heard, kind: 'word', state: 'wrong', heard, read: heard }, because: 'state' })
  }
  const whole = findings.every(({ part }) => part.state !== 'missing' || (part.read !== undefined && !part.lacks))
  return { judgement: verdictOf(scene, bound, findings, phraseology), whole, commanded: bound.commanded }
}

function figureFinding(
  scene: Scene,
  bound: Bound,
  slot: FigureSlot,
  index: number,
  figures: Figures,
  phraseology: Phraseology,
  held: ReadonlySet<string>,
  implausibleBefore: Readonly<Record<string, Value>> | undefined,
): Finding | undefined {
  const base = { name: slot.name, kind: 'figure' } as const
  const sayings = bound.figures.get(index)
  const figure = ownOf(figures, slot.figure)
  if (!sayings) {
    if (held.has(slot.name)) return { part: { ...base, state: 'ok' } }
    // Its label was said, and no number behind it.
    if (bound.labelled.has(index)) return { part: { ...base, state: 'missing', lacks: 'digits' } }
    return slot.required ? { part: { ...base, state: 'missing' } } : undefined
  }
  const heard = sayings.map(({ tokens }) => wordsOfTokens(tokens)).join(', ')
  // Without a value nothing is right or wrong.
  const usable = figure && !(isNumeric(figure) && !Number.isFinite(figure.value))
  if (!usable || !scene.specs[index]) return { part: { ...base, state: 'missing', heard }, doubt: 'notUnderstood' }
  const outcome = compareAll(figure, sayings, phraseology)
  const part = { ...base, heard, expected: figure.value }
  const before = ownOf(implausibleBefore, slot.figure) ?? ownOf(implausibleBefore, slot.name)
  return findingOf(
    part,
    outcome,
    before !== undefined && 'read' in outcome && isSameValue(figure, before, outcome.read ?? ''),
  )
}

function findingOf(base: Omit<Part, 'state'>, outcome: Outcome, again: boolean): Finding {
  switch (outcome.is) {
    case 'right':
      return { part: { ...base, state: 'ok', read: outcome.read }, offForm: !outcome.form }
    case 'wrong': {
      const read = outcome.read === undefined ? {} : { read: outcome.read }
      return { part: { ...base, state: 'wrong', ...read }, because: outcome.because }
    }
    case 'lacking':
      return {
        part: {
          ...base,
          state: 'missing',
          ...(outcome.read === undefined ? {} : { read: outcome.read }),
          lacks: outcome.lacks,
        },
      }
    case 'implausible':
      // The same one twice in a row was no slip of the ear.
      if (again) return { part: { ...base, state: 'wrong', read: outcome.read }, because: 'value' }
      return { part: { ...base, state: 'missing', read: outcome.read }, doubt: 'implausible' }
    case 'doubtful':
      return { part: { ...base, state: 'missing' }, doubt: outcome.because }
  }
}

function wordFinding(
  sayings: readonly WordSaying[] | undefined,
  slot: WordSlot,
  held: ReadonlySet<string>,
): Finding | undefined {
  const base = { name: slot.name, kind: 'word' } as const
  if (!sayings || sayings.length === 0) {
    if (held.has(slot.name)) return { part: { ...base, state: 'ok' } }
    return slot.required ? { part: { ...base, state: 'missing' } } : undefined
  }
  const heard = sayings.map(({ tokens }) => wordsOfTokens(tokens)).join(', ')
  const own = sayings.filter((saying) => saying.own)
  if (own.length === 0)
    return { part: { ...base, state: 'wrong', heard, read: heard, expected: slot.name }, because: 'state' }
  if (own.length < sayings.length) return { part: { ...base, state: 'missing', heard }, doubt: 'twoValues' }
  return {
    part: { ...base, state: 'ok', heard, read: wordsOfTokens(own.at(-1)?.tokens ?? []) },
    offForm: own.some(({ literal }) => !literal),
  }
}

function wordsOfTokens(tokens: readonly Token[]): string {
  let text = ''
  let end = -1
  for (const token of tokens) {
    text += text === '' || token.start === end ? token.text : ` ${token.text}`
    end = token.end
  }
  return text
}

function verdictOf(scene: Scene, bound: Bound, findings: readonly Finding[], phraseology: Phraseology): Judgement {
  const parts = findings.map(({ part }) => part)
  const doubt = bound.doubt ?? findings.find((finding) => finding.doubt)?.doubt
  if (doubt) return { verdict: 'sayAgain', because: doubt, parts: unsettled(parts) }
  const wrong = findings.find(({ part }) => part.state === 'wrong')
  if (wrong) return { verdict: 'negative', because: wrong.because ?? 'value', parts }
  if (bound.unknown) return { verdict: 'sayAgain', because: 'notUnderstood', parts: unsettled(parts) }
  const missing = parts.filter(({ state }) => state === 'missing')
  if (missing.length > 0) {
    const begun = parts.some((part) => part.state === 'ok' || part.lacks !== undefined)
    if (!begun) return { verdict: 'sayAgain', because: 'notUnderstood', parts }
    return { verdict: 'incomplete', because: 'missing', parts }
  }
  if (parts.length === 0) return { verdict: 'sayAgain', because: 'notUnderstood', parts }
  const form = formAsked(scene, bound, findings, phraseology)
  return form ? { verdict: 'sayAgain', because: 'form', form, parts } : { verdict: 'correct', parts }
}

/** Of an answer that was not understood nothing is said to be right or wrong. */
function unsettled(parts: readonly Part[]): readonly Part[] {
  return parts.map((part) =>
    part.state === 'missing' || part.heard === undefined ? part : { ...part, state: 'missing' },
  )
}

function formAsked(
  scene: Scene,
  bound: Bound,
  findings: readonly Finding[],
  phraseology: Phraseology,
): string | undefined {
  if (phraseology === 'plain') return undefined
  if (findings.some(({ part, offForm }) => part.kind === 'figure' && offForm)) return FORMS.digits
  if (!bound.inOrder) return FORMS.words
  if (phraseology !== 'verbatim') return undefined
  const unlabelled = scene.path.some(
    (slot, i) => slot.type === 'figure' && slot.labels.length > 0 && bound.figures.has(i) && !bound.labelled.has(i),
  )
  const offWords = findings.some(({ part, offForm }) => part.kind === 'word' && offForm)
  return unlabelled || offWords ? FORMS.words : undefined
}
