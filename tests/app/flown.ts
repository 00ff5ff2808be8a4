/** Whole departures flown by typing, with the debrief of what was flown. */

import { eventsBegunAt } from '../../src/app/run/beginAnywhere.ts'
import type { Beginning } from '../../src/app/run/beginning.ts'
import { createSession } from '../../src/app/run/session.ts'
import { newRun, replayed } from '../../src/app/run/storedRun.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import { createVirtualClock } from '../../src/cli/virtualClock.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { createFakeEar } from '../fakes/ear.ts'
import { createFakeLog } from '../fakes/log.ts'
import { createFakeVoice } from '../fakes/voice.ts'
import type { Line } from '../flight/lines.ts'
import { inputsFrom } from './rig.ts'

const SHEETS = { marram: 'talk', pair: 'pairTalk' } as const

/** Flies the lines, and gives what was answered to each of those that follow. */
export const flown = (name: keyof typeof SHEETS, before: readonly Line[], ...then: readonly Line[]) =>
  flownFrom(undefined, name, before, ...then)

/** The same, begun in the middle, at an activity. */
export async function flownFrom(
  activity: string | undefined,
  name: keyof typeof SHEETS,
  before: readonly Line[],
  ...then: readonly Line[]
) {
  const { pack } = await readPackDir(`checklists/${name}`)
  if (!pack) throw new Error(`${name} is no pack`)
  const clock = createVirtualClock()
  const [ear, voice, log] = [createFakeEar(clock.now), createFakeVoice(), createFakeLog()]
  const beginning: Beginning = {
    inputs: await inputsFrom(pack, `tests/cli/answers/${SHEETS[name]}.yaml`),
    settings: { phraseology: 'plain', coachAfter: 0, radio: 'icao' },
    stations: { seed: 0 },
  }
  const events =
    activity === undefined ? [] : eventsBegunAt(pack, beginning, { activity, runId: 'flight', now: clock.now() })
  const soFar = activity === undefined ? newRun(pack, 'flight') : replayed(pack, events)
  const run = createSession({ clock, log, ear, voice, settings: () => DEFAULT_SETTINGS }, soFar)
  await (activity === undefined ? run.begin(beginning) : run.resume())
  await run.settled()
  const say = async (line: Line) => {
    const at = voice.said.length
    await clock.pass(typeof line === 'number' ? line * 1_000 : 1_500, run.settled)
    if (typeof line === 'string') ear.hear(line, { by: 'typed' })
    await run.settled()
    return voice.said
      .slice(at)
      .map(({ text }) => text)
      .join(' ')
  }
  for (const line of before) await say(line)
  const answers: string[] = []
  for (const line of then) answers.push(await say(line))
  return { answers, pack, events: run.events(), state: run.state(), debrief: debriefOf(pack, run.events()) }
}

/** Of lines those up to one of them, and that one. */
export const upTo = (lines: readonly Line[], last: string) => lines.slice(0, lines.indexOf(last) + 1)
