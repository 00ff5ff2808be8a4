/**
 * From what was heard to a verdict. A text is freed of the challenge, cut at "correction", scanned, bound to the parts
 * of the response and compared with the figures; other texts of the recogniser can then only veto. Whatever cannot be
 * placed is "say again". Never throws, whatever the text.
 */

import type { Figures, Phraseology } from '../kinds/kind.ts'
import { isNumberToken, type Token, tokensOf } from '../numbers/tokens.ts'
import { bind } from './bind.ts'
import { withoutChallenge } from './challenge.ts'
import { commandOf } from './commands.ts'
import { HARMLESS, HESITATIONS, isNegation, isStateWord } from './lexicon.ts'
import type { JudgeInput, Judgement } from './model.ts'
import { type Account, accountOf } from './parts.ts'
import { scan } from './scan.ts'
import { type Scene, scenesFor } from './scene.ts'

/** Judges an answer. */
export function judge(input: JudgeInput): Judgement {
  const first = withBegun(input, judgeText(input, input.heard))
  return vetoed(input, first, (text) => judgeText(input, text))
}

/** A direction by itself completes the number of the breath before; chosen by form, whatever comes of it. */
function withBegun(input: JudgeInput, judgement: Judgement): Judgement {
  const sided = judgement.parts.find(({ lacks, read, heard }) => lacks === 'digits' && read === undefined && heard)
  const before = sided && input.begun?.[sided.name]
  return before === undefined ? judgement : judgeText(input, `${before} ${input.heard}`)
}

/** Texts of the recogniser that are as likely as the one heard. */
export function equallyLikely({ heard, score, alternatives = [] }: Heard): string[] {
  // 0 is what recognisers write that have no scores.
  const mine = score ? score : 1
  return alternatives
    .filter((each) => !each.score || each.score >= mine - 0.1 - 1e-9)
    .flatMap(({ text }) => (text === heard ? [] : text))
}

type Heard = Pick<JudgeInput, 'heard' | 'score' | 'alternatives'>

/** Another text can take a verdict away, never give one: which one is right must not choose. */
export function vetoed(heard: Heard, first: Judgement, judgeOther: (text: string) => Judgement): Judgement {
  if (first.verdict === 'sayAgain') return first
  for (const text of equallyLikely(heard)) {
    const other = judgeOther(text)
    if (other.verdict === 'correct' && sameParts(first, other)) continue
    const tokens = tokensOf(text)
    const speaks =
      other.verdict === 'command' ||
      tokens.some((token) => isNumberToken(token) || isStateWord(token.text) || isNegation(token.text)) ||
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
function judgeText(input: JudgeInput, text: string): Judgement {
  const freed = judgeBody(input, text, withoutChallenge)
  if (freed.verdict === 'correct' || !sharesWords(input)) return freed
  const whole = judgeBody(input, text, (tokens) => tokens)
  return whole.verdict === 'correct' ? whole : freed
}

/** A challenge with a number in it is always taken off: "V one, one two" must not become "one one two". */
function sharesWords({ challenge = '', response }: JudgeInput): boolean {
  const words = tokensOf(challenge)
  const own = new Set(tokensOf(response.text).map(({ canon }) => canon))
  return !words.some(isNumberToken) && words.some(({ canon }) => own.has(canon))
}

function judgeBody(input: JudgeInput, text: string, freeOf: typeof withoutChallenge): Judgement {
  const { challenge = '', response, figures, states = [], phraseology = 'plain' } = input
  const tokens = tokensOf(text)
  const challengeTokens = challenge === '' ? [] : tokensOf(challenge)
  const scenes = scenesFor(response, figures, states, challengeTokens)
  const body = freeOf(tokens, challengeTokens)
  const own = (word: string) => scenes.some((scene) => scene.vocabulary.has(word))
  const content = body.filter(
    ({ text: word }) => !HESITATIONS.has(word) && (word === 'negative' || !HARMLESS.has(word)),
  )
  if (content.length > 0 && content.every(({ text: word }) => word === 'negative') && !own('negative')) {
    return input.yesNo
      ? { verdict: 'command', command: 'negative', parts: [] }
      : { verdict: 'negative', because: 'refused', parts: [] }
  }
  const remark = body.find(({ text: word }) => !HESITATIONS.has(word))?.text === 'remark' && !own('remark')
  if (!remark && body.some(({ text: word }) => word === 'disregard') && !own('disregard')) {
    return { verdict: 'command', command: 'disregard', parts: [] }
  }
  const account = remark ? undefined : bestAccount(scenes, body, input, figures, phraseology, own('correction'))
  if (account?.judgement.verdict === 'correct') return account.judgement
  return (
    command(input, tokens, text, account) ??
    account?.judgement ?? { verdict: 'sayAgain', because: 'notUnderstood', parts: [] }
  )
}

/** Words of command count where the answer is not one to the item. */
function command(input: JudgeInput, tokens: readonly Token[], text: string, account: Account | undefined) {
  if (account?.judgement.parts.some((part) => part.kind === 'word' && part.state === 'wrong')) return undefined
  const whole = commandOf(tokens, text.toLowerCase(), input)
  if (whole && whole.command !== 'correction') return { verdict: 'command' as const, ...whole, parts: [] }
  if (!account?.commanded || account.whole) return undefined
  const words = tokens.map(({ text: word }) => word).join(' ')
  const inside = /stand ?by/.test(words) ? 'standBy' : /say again/.test(words) ? 'sayAgain' : undefined
  return inside && { verdict: 'command' as const, command: inside as 'standBy' | 'sayAgain', parts: [] }
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
  scenes: readonly Scene[],
  body: readonly Token[],
  input: JudgeInput,
  figures: Figures,
  phraseology: Phraseology,
  ownsCorrection: boolean,
): Account | undefined {
  // A whole speech is no answer; nothing in it is looked for.
  const answer = body.length > LONGEST_ANSWER ? [] : body
  const stretches = ownsCorrection ? [answer] : stretchesOf(answer)
  const held = new Set(input.held)
  let best: Account | undefined
  for (const scene of scenes) {
    const bound = bind(
      scene,
      stretches.map((stretch) => scan(scene, stretch)),
      held,
    )
    const account = accountOf(scene, bound, figures, phraseology, held, input.implausibleBefore)
    if (!best || rank(account.judgement) > rank(best.judgement)) best = account
    if (best.judgement.verdict === 'correct') break
  }
  return best
}

function stretchesOf(body: readonly Token[]): readonly (readonly Token[])[] {
  const stretches: Token[][] = [[]]
  for (const token of body) {
    if (token.text === 'correction') stretches.push([])
    else stretches.at(-1)?.push(token)
  }
  return stretches
}
