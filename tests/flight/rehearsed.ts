/** What each line of a departure does when it is typed in Node: what a voice has to bring about as well. */

import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { createSession, type RunSession } from '../../src/app/run/session.ts'
import { newRun } from '../../src/app/run/storedRun.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { inputsFrom } from '../app/rig.ts'
import { createFakeEar, type FakeEar } from '../fakes/ear.ts'
import { createFakeLog } from '../fakes/log.ts'
import { createFakeVoice } from '../fakes/voice.ts'
import type { Line, Radio, Stand } from './lines.ts'

export interface Departure {
  readonly pack: 'marram' | 'pair'
  readonly sheet: string
  readonly radio: Radio
  readonly stand?: Stand
  readonly lines: readonly Line[]
}

export interface Rehearsed {
  readonly line: Line
  readonly events: readonly RunEvent[]
}

export async function rehearsed(
  departure: Departure,
): Promise<{ run: RunSession; ear: FakeEar; events: readonly RunEvent[]; lines: readonly Rehearsed[] }> {
  const { pack } = await readPackDir(`checklists/${departure.pack}`)
  if (!pack) throw new Error(`${departure.pack} is no pack`)
  const sheet = await inputsFrom(pack, departure.sheet)
  const { stand } = departure
  const inputs = { ...sheet, situation: { ...sheet.situation, ...(stand && { stand }) } }
  const clock = createVirtualClock()
  const [ear, voice, log] = [createFakeEar(clock.now), createFakeVoice(), createFakeLog()]
  const run = createSession({ clock, log, ear, voice, settings: () => DEFAULT_SETTINGS }, newRun(pack, 'flight'))
  await run.begin({
    inputs,
    settings: { phraseology: 'plain', coachAfter: 0, radio: departure.radio },
    stations: { seed: 0 },
  })
  await run.settled()
  const lines: Rehearsed[] = []
  for (const line of departure.lines) {
    const before = log.events.length
    if (typeof line === 'number') await clock.pass(line * 1_000, run.settled)
    else {
      await clock.pass(1_500, run.settled)
      ear.hear(line, { by: 'typed' })
      await run.settled()
    }
    lines.push({ line, events: log.events.slice(before) })
  }
  return { run, ear, events: log.events, lines }
}
