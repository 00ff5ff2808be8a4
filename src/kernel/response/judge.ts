/**
 * From what was heard to a verdict. A text is freed of the challenge, cut at "correction", scanned, filled into the slots
 * of the response and compared with the figures; other texts of the recogniser can then only veto. Whatever cannot be
 * placed is "say again". Never throws, whatever the text.
 */

import { isNumberToken, type Token, type Transcript } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { type Asked, askedFor } from './asked.ts'
import { type Assessment, assess } from './assess.ts'
import { completing } from './begun.ts'
import { withoutChallenge } from './challenge.ts'
import { readCommand } from './commands.ts'
import { withCorrections } from './corrections.ts'
import { fillSlots } from './fill.ts'
import { equallyLikely, type Hypotheses } from './hypotheses.ts'
import { HARMLESS, HESITATIONS, isNegation, isStateWord } from './lexicon.ts'
import type { JudgeInput, Judgement, Part } from './model.ts'
import { withoutOpening } from './opening.ts'
import { inForm } from './saidOtherwise.ts'
import { attemptsIn } from './scan.ts'
import { valueless } from './valueless.ts'

/** Judges an answer. */
export function judge(input: JudgeInput): Judgement {
  const asked = askedFor(input.response, input.figures, input)
  const judgeOne = (heard: Transcript) => judgeTranscript(input, asked, heard)
  const judgement = vetoed(input, withBegun(input, judgeOne), judgeOne)
  const isAsked = input.challenge !== undefined && isTypedQuestion(input.heard)
  return judgement.verdict === 'correct' && isAsked ? unsaid(judgement) : judgement
}

/** "Signs on?" asks, and answers no challenge. */
export const isTypedQuestion = ({ text }: Transcript) => text.trimEnd().endsWith('?')

const unsaid = (judgement: Judgement): Judgement => ({
  verdict: 'sayAgain',
  because: 'notUnderstood',
  parts: doubtfulParts(judgement),
})

/** With the breath before, where what was said now is the rest of that. */
function withBegun({ heard, begun }: JudgeInput, judgeOne: (heard: Transcript) => Judgement): Judgement {
  const judgement = judgeOne(heard)
  const short = judgement.parts.find(
    ({ lacks, read, heard }) => heard && (lacks === 'decimals' || (lacks === 'digits' && read === undefined)),
  )
  const before = short && ownOf(begun, short.name)
  const whole = before === undefined || !short?.lacks ? undefined : completing(before, heard, short.lacks)
  return whole ? judgeOne(whole) : judgement
}

/** Another text can take a verdict away, never give one: which one is right must not choose. */
export function vetoed(
  hypotheses: Hypotheses,
  first: Judgement,
  judgeOther: (heard: Transcript) => Judgement,
): Judgement {
  if (first.verdict === 'sayAgain') return first
  for (const heard of equallyLikely(hypotheses)) {
    const other = judgeOther(heard)
    if (other.verdict === 'correct' && sameParts(first, other)) continue
    const speaks =
      other.verdict === 'command' ||
      heard.tokens.some((token) => isNumberToken(token) || isStateWord(token.text) || isNegation(token.text)) ||
      other.parts.some((part) => part.heard !== undefined)
    if (!speaks) continue
    const same = other.verdict === first.verdict && other.command === first.command && sameParts(first, other)
    if (same) continue
    return { verdict: 'sayAgain', because: 'ambiguous', parts: doubtfulParts(first) }
  }
  return first
}

function sameParts(a: Judgement, b: Judgement): boolean {
  return a.parts.every((part) => {
    const other = b.parts.find((each) => each.name === part.name)
    return (
      part.heard === undefined || other?.heard === undefined || (other.state === part.state && other.read === part.read)
    )
  })
}

/** Parts of an answer that nobody stands by: nothing in it is right or wrong. */
function doubtfulParts(judgement: Judgement): Judgement['parts'] {
  return judgement.parts.map((part) => ({ ...part, state: 'missing' as const }))
}

/** One text by itself. Words that challenge and answer share ("flaps": "flaps set") may be the answer's, not an echo. */
function judgeTranscript(input: JudgeInput, asked: Asked, heard: Transcript): Judgement {
  const tokens = withoutOpening(
    heard.tokens,
    asked.frames.some((frame) => frame.vocabulary.has('right')),
  )
  const freed = judgeBody(input, asked, heard, withoutChallenge(tokens, asked.challenge))
  if (freed.verdict === 'correct' || !asked.isEchoLikeAnswer) return freed
  const whole = judgeBody(input, asked, heard, tokens)
  return whole.verdict === 'correct' ? whole : freed
}

function judgeBody(input: JudgeInput, asked: Asked, heard: Transcript, body: readonly Token[]): Judgement {
  const own = (word: string) => asked.frames.some((frame) => frame.vocabulary.has(word))
  if (isRefusal(body) && !own('negative')) {
    return input.yesNo
      ? { verdict: 'command', command: 'negative', parts: [] }
      : { verdict: 'negative', because: 'refused', parts: [] }
  }
  // "Stand by" is the command, also where the answer is "standby".
  if (!own('stand') && body.some(({ text }) => text === 'stand') && readCommand(heard, input)?.command === 'standBy')
    return { verdict: 'command', command: 'standBy', parts: [] }
  const isRemark = body.find(({ text }) => !HESITATIONS.has(text))?.text === 'remark' && !own('remark')
  if (!isRemark && body.some(({ text }) => text === 'disregard') && !own('disregard')) {
    return { verdict: 'command', command: 'disregard', parts: [] }
  }
  const assessment = isRemark ? undefined : bestAssessment(input, asked, body, own('correction'))
  if (assessment?.judgement.verdict === 'correct') return assessment.judgement
  return (
    command(input, heard, assessment) ??
    claimed(input, asked, body, assessment) ??
    assessment?.judgement ??
    NOT_UNDERSTOOD
  )
}

/** "Checked" to a value, where nothing of the answer was said before. */
function claimed(
  { held = [], begun = {} }: JudgeInput,
  asked: Asked,
  body: readonly Token[],
  assessment: Assessment | undefined,
): Judgement | undefined {
  if (held.length + Object.keys(begun).length > 0) return undefined
  const { verdict, parts = [] } = assessment?.judgement ?? {}
  const saysNothing = !parts.some(({ kind, heard }) => kind === 'figure' && heard !== undefined)
  const isLeft = verdict === undefined || verdict === 'sayAgain' || verdict === 'incomplete'
  return isLeft && saysNothing ? valueless(asked, body, parts) : undefined
}

const NOT_UNDERSTOOD: Judgement = { verdict: 'sayAgain', because: 'notUnderstood', parts: [] }

/** "Negative", and nothing beside it that says something. */
function isRefusal(body: readonly Token[]): boolean {
  const content = body.filter(({ text }) => !HESITATIONS.has(text) && (text === 'negative' || !HARMLESS.has(text)))
  return content.length > 0 && content.every(({ text }) => text === 'negative')
}

/** Words of command count where the answer is not one to the item. */
function command(input: JudgeInput, heard: Transcript, assessment: Assessment | undefined): Judgement | undefined {
  if (assessment?.judgement.parts.some((part) => part.kind === 'word' && part.state === 'wrong')) return undefined
  const whole = readCommand(heard, input)
  if (whole) return { verdict: 'command', ...whole, parts: [] }
  if (!assessment?.commanded || assessment.whole) return undefined
  const words = heard.tokens.map(({ text }) => text).join(' ')
  const inside = /stand ?by/.test(words) ? 'standBy' : /say again/.test(words) ? 'sayAgain' : undefined
  return inside && { verdict: 'command', command: inside, parts: [] }
}

/** In words. */
const LONGEST_ANSWER = 200

/** How much of an answer a verdict accounts for, from the least. */
const RANKS = ['notUnderstood', 'command', 'incomplete', 'negative', 'doubtful', 'correct'] as const

function rankOf({ verdict, because }: Judgement): number {
  if (verdict !== 'sayAgain') return RANKS.indexOf(verdict)
  return RANKS.indexOf(because === 'notUnderstood' || because === 'missing' ? 'notUnderstood' : 'doubtful')
}

/** The way through the response that the answer fits best. */
function bestAssessment(
  { figures, phraseology = 'plain', held: heldParts, implausibleBefore, exact = false, isTyped = false }: JudgeInput,
  { frames }: Asked,
  body: readonly Token[],
  ownsCorrection: boolean,
): Assessment | undefined {
  // A whole speech is no answer; nothing in it is looked for.
  const answer = body.length > LONGEST_ANSWER ? [] : inForm(frames, body)
  const attempts = ownsCorrection
    ? [answer]
    : attemptsIn(withCorrections(answer, (word) => frames.some((frame) => frame.vocabulary.has(word))))
  const held = new Set(heldParts)
  const found: Assessment[] = []
  for (const frame of frames) {
    const filled = fillSlots(frame, attempts, held)
    const assessment = assess(frame, filled, { figures, phraseology, held, implausibleBefore, exact, isTyped })
    if (assessment.judgement.verdict === 'correct') return assessment
    found.push(assessment)
  }
  // What is right in one unit is not wrong in the other, only not understood for what stands beside it.
  const isRight = found.some(({ judgement: { because, parts } }) => because !== 'unit' && parts.some(isReadRight))
  const left = isRight ? found.filter(({ judgement }) => judgement.because !== 'unit') : found
  return left.toSorted((one, other) => rankOf(other.judgement) - rankOf(one.judgement))[0]
}

const isReadRight = ({ kind, read, expected }: Part) => kind === 'figure' && read !== undefined && read === expected
