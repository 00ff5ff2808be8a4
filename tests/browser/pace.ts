/**
 * How fast a list goes: a quick pilot and the app's voice, measured on what is to be heard, recorded to the sample, and on
 * what the log tells of each answer.
 */

import { fileURLToPath } from 'node:url'
import { endSilence, TIMES } from '../../src/adapters/ear/utterance/utteranceFinder.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import { completeness } from '../../src/kernel/hearing/completeness.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { hearableAt } from '../../src/kernel/run/core/hearableAt.ts'
import { fold } from '../../src/kernel/run/core/step.ts'
import { FINAL_ANSWERS, LISTS, PRELIMINARY_ANSWERS, SAME_VOICE, type SpokenAnswer } from '../audio/departure.ts'
import { goOnFlown } from './flown.ts'
import type { Recorded, Sound } from './line.ts'
import { openPage } from './page.ts'
import { pilotAt } from './pilot.ts'

/** One right answer and what came behind it, in milliseconds. */
export interface Turn {
  /** From the last sound of the answer to the first of the tick, and of what is said next. */
  readonly toTick: number
  readonly toVoice: number
  /** From the beginning of one challenge to that of the next, without the pilot's own speech. */
  readonly item?: number
}

/** How soon a right answer was judged, in milliseconds. */
export interface Judged {
  /** From the end of its last voiced frame. */
  readonly fromVoice: number
  /** From the end of the pause that ends an answer of its form. */
  readonly fromEndpoint: number
}

export interface Pace {
  /** Those that can be told apart by their sound: where the tick runs into the voice there is none. */
  readonly turns: readonly Turn[]
  readonly judged: readonly Judged[]
  /** Right answers that the ear asked for again. */
  readonly again: number
}

/** How quickly this pilot answers. */
const AFTER_MS = 200
/** Only the tick behind a right answer is so short. */
const LONGEST_TICK_MS = 90

const ALL = [...PRELIMINARY_ANSWERS, ...FINAL_ANSWERS, ...LISTS, ...SAME_VOICE]
const byFile = (...files: readonly string[]) =>
  files.map((file) => ALL.find((answer) => answer.file === file)).filter((answer) => answer !== undefined)

/** Items that follow one another, said by one pilot; what lies between is typed. */
const STRETCHES: readonly { readonly call: string; readonly answers: readonly SpokenAnswer[] }[] = [
  {
    call: 'load figures list',
    answers: byFile('zfw-final', 'trim-final', 'v1-final-rms', 'vr-final', 'v2-final', 'thrust', 'load-sheet-final'),
  },
  {
    call: 'before start list',
    answers: byFile('brake-rms', 'signs', 'fuel-required', 'fuel', 'altimeters-rms', 'transponder'),
  },
  { call: 'we are cleared to push', answers: byFile('doors-rms', 'beacon', 'pumps') },
]

/** Flies two lists of the demo departure at the address of the app; `slower` is how many times the page's thread is slowed. */
export async function paceAt(address: string, slower = 1): Promise<Pace> {
  const opened = await openPage({ address, hasLine: true })
  try {
    await goOnFlown(opened, [], { figures: 'final', settings: { rate: 1 } })
    const pilot = pilotAt(opened)
    await pilot.listened()
    // Who sits down has it long since: it is loaded once.
    await opened.page.getByText('second model is loading').waitFor({ state: 'hidden' })
    const devTools = await opened.page.context().newCDPSession(opened.page)
    await devTools.send('Emulation.setCPUThrottlingRate', { rate: slower })
    const turns: Turn[] = []
    for (const { call, answers } of STRETCHES) {
      // What is said between two stretches is no challenge.
      await opened.page.evaluate(() => window.line.record())
      await pilot.type(call)
      for (const spoken of answers) await pilot.sayBehind(spoken, { afterMs: AFTER_MS })
      await pilot.listened()
      turns.push(...turnsIn(await opened.page.evaluate(() => window.line.recorded())))
    }
    const events = await pilot.events()
    return {
      turns,
      again: events.filter((event) => verdictOf(event) === 'sayAgain').length,
      judged: judgedIn(events as unknown as readonly RunEvent[], await demoPack()),
    }
  } finally {
    await opened.close()
  }
}

async function demoPack(): Promise<Pack> {
  const { pack } = await readPackDir(fileURLToPath(new URL('../../checklists/marram', import.meta.url)))
  if (!pack) throw new Error('the demo pack has a fault')
  return pack
}

const verdictOf = ({ type, judgement }: Record<string, unknown>) =>
  type === 'answered' ? (judgement as { verdict: string }).verdict : undefined

/** What was listened for is what the log says about the moment before. */
function judgedIn(events: readonly RunEvent[], pack: Pack): Judged[] {
  return events.flatMap((event, index): Judged[] => {
    if (event.type !== 'answered' || event.judgement.verdict !== 'correct' || event.evidence.by !== 'voice') return []
    const { text, endedAt } = event.evidence
    if (endedAt === undefined) return []
    const hearable = hearableAt(pack, fold(pack, event.runId, events.slice(0, index)))
    const fromVoice = Date.parse(event.wall) - endedAt
    const pause = endSilence(completeness(hearable, text), TIMES)
    return [{ fromVoice, fromEndpoint: Math.max(0, fromVoice - pause) }]
  })
}

interface Said extends Sound {
  readonly isPilot: boolean
  readonly sounds: readonly Sound[]
}

export function turnsIn({ pilot, app }: Recorded): readonly Turn[] {
  const all = [
    ...pilot.map((sound) => ({ ...sound, isPilot: true })),
    ...app.map((sound) => ({ ...sound, isPilot: false })),
  ].sort((one, other) => one.from - other.from)
  const said: Said[] = []
  for (const { isPilot, ...sound } of all) {
    const last = said.at(-1)
    if (last?.isPilot === isPilot) said.splice(-1, 1, { isPilot, ...grown(last, sound) })
    else said.push({ ...sound, isPilot, sounds: [sound] })
  }
  let challengedAt: number | undefined
  return said.flatMap((answer, index): Turn[] => {
    const [tick, voice] = (answer.isPilot && said[index + 1]?.sounds) || []
    if (!tick || !voice || tick.to - tick.from > LONGEST_TICK_MS) {
      if (answer.isPilot) challengedAt = undefined
      return []
    }
    const own = answer.to - answer.from
    const item = challengedAt === undefined ? {} : { item: voice.from - challengedAt - own }
    challengedAt = voice.from
    return [{ toTick: tick.from - answer.to, toVoice: voice.from - answer.to, ...item }]
  })
}

const grown = (before: Said, sound: Sound) => ({
  from: before.from,
  to: sound.to,
  sounds: [...before.sounds, sound],
})
