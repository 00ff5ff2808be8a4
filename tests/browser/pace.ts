/** How fast a list goes, measured on what is to be heard: a quick pilot and the app's voice, recorded to the sample. */

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
    answers: byFile('zfw-final', 'trim-final', 'v1-final-rms', 'v2-final', 'thrust'),
  },
  {
    call: 'before start list',
    answers: byFile('brake-rms', 'signs', 'fuel', 'altimeters-rms', 'transponder'),
  },
  { call: 'we are cleared to push', answers: byFile('doors-rms', 'beacon', 'pumps') },
]

/** Flies two lists of the demo departure at the address of the app. */
export async function paceAt(address: string): Promise<readonly Turn[]> {
  const opened = await openPage({ address, hasLine: true })
  try {
    await goOnFlown(opened, [], { figures: 'final', settings: { rate: 1 } })
    const pilot = pilotAt(opened)
    await pilot.listened()
    await opened.page.evaluate(() => window.line.record())
    for (const { call, answers } of STRETCHES) {
      await pilot.type(call)
      for (const spoken of answers) await pilot.sayBehind(spoken, { afterMs: AFTER_MS })
    }
    await pilot.listened()
    return turnsIn(await opened.page.evaluate(() => window.line.recorded()))
  } finally {
    await opened.close()
  }
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
