/** One utterance in its place: cut into tokens once, the word that takes up what was said before taken off once. */

import type { Heard } from '../hearing/heard.ts'
import { type Transcript, textOf } from '../numbers/tokens.ts'
import type { Pack } from '../pack/checklist.ts'
import { type Hypotheses, hypothesesOf } from '../response/hypotheses.ts'
import { HESITATIONS } from '../response/lexicon.ts'
import { withoutAddress } from '../response/readBack.ts'
import type { EventBody, Evidence } from '../run/core/events.ts'
import type { RunState } from '../run/core/state.ts'
import { addressOf, exchangeAt } from '../run/talk/talk.ts'

export interface Utterance {
  readonly pack: Pack
  readonly state: RunState
  readonly heard: Heard
  readonly evidence: Evidence
  /** All that was said. */
  readonly said: Hypotheses
  /** The same without the name of the station that has the floor, where it was addressed first. */
  readonly message: Hypotheses
  /** How the message takes up what was said before: "correction, flap five". */
  readonly opening: Opening | undefined
  /** The message after those words; all of it where there are none. */
  readonly rest: Hypotheses
}

const OPENINGS = [
  ['correction', ['correction']],
  ['negative', ['negative']],
  ['confirm', ['confirm']],
  ['sayAgain', ['say', 'again']],
] as const
export type Opening = (typeof OPENINGS)[number][0]

/** Never throws. */
export function utteranceOf(pack: Pack, state: RunState, heard: Heard): Utterance {
  const said = hypothesesOf(heard)
  const exchange = exchangeAt(pack, state.floor)
  const message = exchange ? unaddressed(said, addressOf(exchange)) : said
  const opening = openingOf(message.heard)?.opening
  const rest = opening ? ofAll(message, (one) => withoutOpening(one, opening)) : message
  return { pack, state, heard, evidence: evidenceOf(heard), said, message, opening, rest }
}

/** All that the ear made of it, without the name of whoever is addressed. */
export function unaddressed(hypotheses: Hypotheses, name: string): Hypotheses {
  return ofAll(hypotheses, (one) => withoutAddress(one, name))
}

/** What follows the opening, as an utterance by itself. */
export function restAsHeard({ heard, rest }: Utterance): Heard {
  const alternatives = rest.alternatives?.map(({ score, ...one }) => ({
    text: textOf(one),
    ...(score !== undefined && { score }),
  }))
  return { ...heard, text: textOf(rest.heard), ...(alternatives && { alternatives }) }
}

/** What the log keeps of what was heard. */
export function evidenceOf(heard: Heard): Evidence {
  const { by, text, score, alternatives, beganAt, endedAt, early, saidUntil } = heard
  return {
    by,
    text,
    beganAt,
    endedAt,
    ...(score !== undefined && { score }),
    ...(alternatives && { alternatives }),
    ...(early && { early }),
    ...(saidUntil !== undefined && { saidUntil }),
  }
}

function ofAll({ heard, alternatives }: Hypotheses, change: <T extends Transcript>(one: T) => T): Hypotheses {
  return { heard: change(heard), ...(alternatives && { alternatives: alternatives.map(change) }) }
}

/** What a transcript begins with, hesitations aside, and the place of the token after it. */
function openingOf({ tokens }: Transcript): { readonly opening: Opening; readonly end: number } | undefined {
  const begin = tokens.findIndex(({ text }) => !HESITATIONS.has(text) && text !== 'please')
  for (const [opening, words] of OPENINGS) {
    if (words.every((word, index) => tokens[begin + index]?.text === word))
      return { opening, end: begin + words.length }
  }
  return undefined
}

/** Another text that the ear took it for need not begin so. */
function withoutOpening<T extends Transcript>(transcript: T, opening: Opening): T {
  const own = openingOf(transcript)
  return own?.opening === opening ? { ...transcript, tokens: transcript.tokens.slice(own.end) } : transcript
}

/** Speech that was meant for nobody here; typed words always are, and nothing was made of them. */
export const overheard = ({ heard, evidence }: Utterance): EventBody<'overheard'> => ({
  type: 'overheard',
  evidence,
  ...(heard.by === 'typed' && heard.text.trim() !== '' && { meant: true }),
})

/** One of the ear's two passes took it for other speech. */
export const isHalfOther = ({ heard: { doubt, score } }: Utterance): boolean =>
  doubt === 'unsure' && score === undefined
