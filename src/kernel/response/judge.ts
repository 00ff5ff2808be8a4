/**
 * From what was heard to a verdict. A text is freed of the challenge, cut at "correction", scanned, bound to the parts
 * of the response and compared with the figures; other texts of the recogniser can then only veto. Whatever cannot be
 * placed is "say again". Never throws, whatever the text.
 */

import { isNumberToken, joined, type Token, type Transcript, transcriptOf } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { type Asked, askedFor } from './asked.ts'
import { bind } from './bind.ts'
import { withoutChallenge } from './challenge.ts'
import { readCommand } from './commands.ts'
import { equallyLikely, type Hypotheses } from './hypotheses.ts'
import { HARMLESS, HESITATIONS, isNegation, isStateWord } from './lexicon.ts'
import type { JudgeInput, Judgement } from './model.ts'
import { type Account, accountOf } from './parts.ts'
import { scan } from './scan.ts'

/** Judges an answer. */
export function judge(input: JudgeInput): Judgement {
  const asked = askedFor(input.response, input.figures, input)
  const judgeOne = (heard: Transcript) => judgeTranscript(input, asked, heard)
  return vetoed(input, withBegun(input, judgeOne), judgeOne)
}

/** A direction by itself completes the number of the breath before; chosen by form, whatever comes of it. */
function withBegun({ heard, begun }: JudgeInput, judgeOne: (heard: Transcript) => Judgement): Judgement {
  const judgement = judgeOne(heard)
  const sided = judgement.parts.find((part) => part.lacks === 'digits' && part.read === undefined && part.heard)
  const before = sided && ownOf(begun, sided.name)
  return before === undefined ? judgement : judgeOne(joined(transcriptOf(before), heard))
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
  const freed = judgeBody(input, asked, heard, withoutChallenge(heard.tokens, asked.challenge))
  if (freed.verdict === 'correct' || !asked.isEchoLikeAnswer) return freed
  const whole = judgeBody(input, asked, heard, heard.tokens)
  return whole.verdict === 'correct' ? whole : freed
}

function judgeBody(input: JudgeInput, asked: Asked, heard: Transcript, body: readonly Token[]): Judgement {
  const own = (word: string) => asked.scenes.some((scene) => scene.vocabulary.has(word))
  if (isRefusal(body) && !own('negative')) {
    return input.yesNo
      ? { verdict: 'command', command: 'negative', parts: [] }
      : { verdict: 'negative', because: 'refused', parts: [] }
  }
  const isRemark = body.find(({ text }) => !HESITATIONS.has(text))?.text === 'remark' && !own('remark')
  if (!isRemark && body.some(({ text }) => text === 'disregard') && !own('disregard')) {
    return { verdict: 'command', command: 'disregard', parts: [] }
  }
  const account = isRemark ? undefined : bestAccount(input, asked, body, own('correction'))
  if (account?.judgement.verdict === 'correct') return account.judgement
  return (
    command(input, heard, account) ?? account?.judgement ?? { verdict: 'sayAgain', because: 'notUnderstood', parts: [] }
  )
}

/** "Negative", and nothing beside it that says something. */
function isRefusal(body: readonly Token[]): boolean {
  const content = body.filter(({ text }) => !HESITATIONS.has(text) && (text === 'negative' || !HARMLESS.has(text)))
  return content.length > 0 && content.every(({ text }) => text === 'negative')
}

/** Words of command count where the answer is not one to the item. */
function command(input: JudgeInput, heard: Transcript, account: Account | undefined): Judgement | undefined {
  if (account?.judgement.parts.some((part) => part.kind === 'word' && part.state === 'wrong')) return undefined
  const whole = readCommand(heard, input)
  if (whole) return { verdict: 'command', ...whole, parts: [] }
  if (!account?.commanded || account.whole) return undefined
  const words = heard.tokens.map(({ text }) => text).join(' ')
  const inside = /stand ?by/.test(words) ? 'standBy' : /say again/.test(words) ? 'sayAgain' : undefined
  return inside && { verdict: 'command', command: inside, parts: [] }
}

/** In words. */
const LONGEST_ANSWER = 200

const RANK: Readonly<Record<Judgement['verdict'], number>> = {
  correct: 4,
  negative: 3,
  incomplete: 2,
  command: 1,
  sayAgain: 0,
}

function rank({ verdict, because }: Judgement): number {
  return verdict === 'sayAgain' && because !== 'notUnderstood' && because !== 'missing' ? 3.5 : RANK[verdict]
}

/** The way through the response that the answer fits best. */
function bestAccount(
  { figures, phraseology = 'plain', held: heldParts, implausibleBefore }: JudgeInput,
  { scenes }: Asked,
  body: readonly Token[],
  ownsCorrection: boolean,
): Account | undefined {
  // A whole speech is no answer; nothing in it is looked for.
  const answer = body.length > LONGEST_ANSWER ? [] : body
  const stretches = ownsCorrection ? [answer] : stretchesOf(answer)
  const held = new Set(heldParts)
  let best: Account | undefined
  for (const scene of scenes) {
    const bound = bind(
      scene,
      stretches.map((stretch) => scan(scene, stretch)),
      held,
    )
    const account = accountOf(scene, bound, figures, phraseology, held, implausibleBefore)
    if (!best || rank(account.judgement) > rank(best.judgement)) best = account
    if (best.judgement.verdict === 'correct') break
  }
  return best
}

/** What stands before, between and after words of correction. */
export function stretchesOf(body: readonly Token[]): readonly (readonly Token[])[] {
  const stretches: Token[][] = [[]]
  for (const token of body) {
    if (token.text === 'correction') stretches.push([])
    else stretches.at(-1)?.push(token)
  }
  return stretches
}
