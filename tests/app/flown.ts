/** Whole departures of both packs flown by typing, up to a place, and what is answered to each line from there. */

import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { eventsBegunAt } from '../../src/app/run/beginAnywhere.ts'
import type { Beginning } from '../../src/app/run/beginning.ts'
import { createSession } from '../../src/app/run/session.ts'
import { newRun, type RunSoFar, replayed } from '../../src/app/run/storedRun.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { createFakeEar } from '../fakes/ear.ts'
import { createFakeLog } from '../fakes/log.ts'
import { createFakeVoice } from '../fakes/voice.ts'
import type { Line } from '../flight/lines.ts'
import { inputsFrom } from './rig.ts'

const SHEETS = { marram: 'talk', pair: 'pairTalk' } as const
type PackName = keyof typeof SHEETS

type Pilot = ReturnType<typeof inSeat>

function inSeat(soFar: RunSoFar) {
  const clock = createVirtualClock()
  const [ear, voice, log] = [createFakeEar(clock.now), createFakeVoice(), createFakeLog()]
  const run = createSession({ clock, log, ear, voice, settings: () => DEFAULT_SETTINGS }, soFar)
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
  return { run, say, pack: soFar.pack }
}

async function answersTo({ run, say, pack }: Pilot, lines: readonly Line[]) {
  const answers: string[] = []
  for (const line of lines) answers.push(await say(line))
  return { pack, answers, state: run.state(), events: run.events(), debrief: debriefOf(pack, run.events()) }
}

async function departureOf(name: PackName): Promise<{ pack: Pack; beginning: Beginning }> {
  const { pack } = await readPackDir(`checklists/${name}`)
  if (!pack) throw new Error(`${name} is no pack`)
  const beginning = {
    inputs: await inputsFrom(pack, `tests/cli/answers/${SHEETS[name]}.yaml`),
    settings: { phraseology: 'plain', coachAfter: 0, radio: 'icao' },
    stations: { seed: 0 },
  } as const
  return { pack, beginning }
}

/** Flies the lines, and gives what was answered to each of those that follow. */
export async function flown(name: PackName, before: readonly Line[], ...then: readonly Line[]) {
  const { pack, beginning } = await departureOf(name)
  const pilot = inSeat(newRun(pack, 'flight'))
  await pilot.run.begin(beginning)
  await pilot.run.settled()
  for (const line of before) await pilot.say(line)
  return answersTo(pilot, then)
}

/** The same, begun in the middle, at an activity. */
export async function flownFrom(activity: string, name: PackName, before: readonly Line[], ...then: readonly Line[]) {
  const { pack, beginning } = await departureOf(name)
  const now = createVirtualClock().now()
  const { answers, ...flight } = await goneOn(
    pack,
    eventsBegunAt(pack, beginning, { activity, runId: 'flight', now }),
    ...before,
    ...then,
  )
  return { ...flight, answers: answers.slice(before.length) }
}

/** Goes on with what a log holds. */
export async function goneOn(pack: Pack, events: readonly RunEvent[], ...then: readonly Line[]) {
  const pilot = inSeat(replayed(pack, events))
  await pilot.run.resume()
  await pilot.run.settled()
  return answersTo(pilot, then)
}

/** The lines up to this one. */
export const upTo = (lines: readonly Line[], last: string) => lines.slice(0, lines.indexOf(last) + 1)
