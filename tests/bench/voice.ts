/**
 * How much Otherseat itself says in a whole departure, and whether it keeps to its budget: 7 words in a sentence that puts
 * what is next, 12 after a miss, no sentence twice in 30 seconds. News (new figures, a stop) and what the pilot asked for are apart.
 */

import { fileURLToPath } from 'node:url'
import { readPackDir } from '../../src/cli/packDir.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import { emptyRun } from '../../src/kernel/run/core/emptyRun.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import type { RunState } from '../../src/kernel/run/core/state.ts'
import { step } from '../../src/kernel/run/core/step.ts'
import { rehearsed } from '../rehearsed.ts'

export const PROMPT_WORDS = 7
export const MISS_WORDS = 12
export const APART_MS = 30_000

/** Why it spoke. A second time is on purpose where the pilot asked, was silent, or was not understood. */
export type Why = 'prompt' | 'miss' | 'news' | 'asked'

export interface Saying {
  /** Ms from the start of the run. */
  readonly t: number
  readonly why: Why
  readonly text: string
  /** A line of the pack's own: it answers another act each time. */
  readonly isCrewLine: boolean
}

const wordsOf = (text: string) => text.split(/\s+/).filter((word) => word !== '').length

function whyOf(event: RunEvent, before: RunState): Why {
  switch (event.type) {
    case 'answered':
    case 'transmitted':
      if (event.judgement.verdict === 'correct') return 'prompt'
      return event.judgement.verdict === 'sayAgain' ? 'asked' : 'miss'
    case 'commanded':
      return before.question && event.command !== 'negative' ? 'prompt' : 'asked'
    case 'ownValueSaid':
      return event.isRight ? 'prompt' : 'miss'
    case 'figuresRevised':
    case 'sheetCame':
    case 'watchDue':
    case 'watchStopped':
    case 'earFailed':
    case 'earBack':
    case 'resumed':
      return 'news'
    case 'silent':
    case 'voided':
      return 'asked'
    default:
      return 'prompt'
  }
}

/** All that Otherseat said in a run, in order. */
export function sayingsIn(pack: Pack, events: readonly RunEvent[]): Saying[] {
  let state = emptyRun(events[0]?.runId ?? '')
  return events.flatMap((event) => {
    const before = state
    const next = step(pack, before, event)
    state = next.state
    const why = whyOf(event, before)
    return next.effects.flatMap((effect): Saying[] =>
      effect.type === 'speak' && effect.role === 'otherseat'
        ? [{ t: event.t, why, text: effect.text, isCrewLine: effect.text !== state.said }]
        : [],
    )
  })
}

/** The longest sentence: a completion and what comes next are two. */
const longest = (text: string) => Math.max(...text.split(/(?<=[.?])\s+/).map(wordsOf))

/** Those that are over the budget of their kind. */
export function overBudget(sayings: readonly Saying[]): Saying[] {
  const most = { prompt: PROMPT_WORDS, miss: MISS_WORDS, news: Infinity, asked: Infinity }
  return sayings.filter(({ why, text }) => (why === 'prompt' ? longest(text) : wordsOf(text)) > most[why])
}

/** Sentences that were said less than half a minute before, and that nobody asked for again. */
export function repeated(sayings: readonly Saying[]): Saying[] {
  const saidAt = new Map<string, number>()
  return sayings.flatMap((saying) => {
    const { t, why, text, isCrewLine } = saying
    const sentences = text.split(/(?<=[.?])\s+/)
    const again = sentences.filter((one) => t - (saidAt.get(one) ?? -Infinity) < APART_MS)
    for (const one of sentences) saidAt.set(one, t)
    return why === 'asked' || isCrewLine ? [] : again.map((one) => ({ ...saying, text: one }))
  })
}

const here = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url))

/** The demo from the final figures to the holding point, with the stations and the mistakes of a training flight. */
export async function flight(): Promise<{ pack: Pack; events: readonly RunEvent[] }> {
  const { pack } = await readPackDir(here('checklists/marram'))
  if (!pack) throw new Error('the demo pack cannot be read')
  const [file, sheet] = [here('tests/cli/answers/talk.txt'), here('tests/cli/answers/talk.yaml')]
  return { pack, events: await rehearsed({ pack, file, sheet, voices: 1 }) }
}

export async function measure(): Promise<Record<string, number>> {
  const { pack, events } = await flight()
  const sayings = sayingsIn(pack, events)
  const minutes = (events.at(-1)?.t ?? 0) / 60_000
  const words = sayings.reduce((sum, { text }) => sum + wordsOf(text), 0)
  const over = overBudget(sayings)
  const of = (why: Why) => sayings.filter((one) => one.why === why).length
  return {
    'voice.words': words,
    'voice.wordsPerMinute': words / minutes,
    'voice.prompts': of('prompt'),
    'voice.promptsOver7Words': over.filter(({ why }) => why === 'prompt').length,
    'voice.misses': of('miss'),
    'voice.missesOver12Words': over.filter(({ why }) => why === 'miss').length,
    'voice.repeatedWithin30s': repeated(sayings).length,
  }
}
