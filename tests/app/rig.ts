/** The demo pack flown in Node: real kernel, real app layer, fake ear, voice, log and clock. */

import { readFile } from 'node:fs/promises'
import { resolve } from 'node:path'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { createSession, type SessionParts } from '../../src/app/run/session.ts'
import { showEar, showRun } from '../../src/app/run/showRun.ts'
import { newRun, replayed } from '../../src/app/run/storedRun.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { createAppStore } from '../../src/app/store.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import type { RunEvent, RunSettings } from '../../src/kernel/run/core/events.ts'
import { readInputs } from '../../src/packs/inputs.ts'
import { createFakeEar } from '../fakes/ear.ts'
import { createFakeLog, type FakeLog } from '../fakes/log.ts'
import { createFakeVoice, type FakeVoiceOptions } from '../fakes/voice.ts'

/** From the root, where tests are run; a `new URL` of a module is something else in a simulated page. */
const here = (path: string) => resolve(path)

export async function demoPack(): Promise<Pack> {
  const { pack, problems } = await readPackDir(here('checklists/marram'))
  if (!pack) throw new Error(JSON.stringify(problems))
  return pack
}

export const demoInputs = (pack: Pack, name: 'preliminary' | 'final' | 'amended') =>
  inputsFrom(pack, `checklists/marram/inputs/${name}.yaml`)

export async function inputsFrom(pack: Pack, path: string): Promise<Inputs> {
  const file = here(path)
  const { inputs, problems } = readInputs(await readFile(file, 'utf8'), file, pack)
  if (!inputs) throw new Error(JSON.stringify(problems))
  return inputs
}

/** Lets everything be done that is due, where a voice holds its text, or a page does more than its run. */
export const idle = () => new Promise((done) => setTimeout(done, 0))

export interface RigOptions extends FakeVoiceOptions {
  readonly events?: readonly RunEvent[]
  readonly settings?: Partial<RunSettings>
  /** With the voices outside the crew, and a load sheet that holds what they will say, in place of the preliminary figures. */
  readonly talk?: string
  readonly log?: FakeLog
  /** The person keeps the sound of what is said. */
  readonly keepSound?: NonNullable<SessionParts['keepSound']>
}

export async function rig(options: RigOptions = {}) {
  const pack = await demoPack()
  const clock = createVirtualClock()
  const ear = createFakeEar(clock.now)
  const voice = createFakeVoice(options)
  const log = options.log ?? createFakeLog()
  const { keepSound } = options
  const store = createAppStore({ pack, settings: { ...DEFAULT_SETTINGS, keepsSound: keepSound !== undefined } })
  const soFar = options.events ? replayed(pack, options.events) : newRun(pack, 'run')
  const settings = () => store.getState().settings
  const run = createSession({ clock, log, ear, voice, settings, ...(keepSound && { keepSound }) }, soFar)
  showEar(store, ear)
  showRun(store, run)
  /** Lets all that waits its turn be done and performed; a voice that holds its text is not waited for. */
  const settled = async () => {
    await (options.holds ? idle() : run.settled())
  }
  if (!options.events) {
    const sheet = options.talk === undefined ? undefined : await inputsFrom(pack, options.talk)
    await run.begin({
      inputs: sheet ?? (await demoInputs(pack, 'preliminary')),
      settings: { phraseology: 'plain', coachAfter: 0, ...options.settings },
      ...(sheet && { stations: { seed: 0 } }),
    })
    await settled()
  }
  const revise = async (name: 'preliminary' | 'final' | 'amended') => {
    await run.enter(await demoInputs(pack, name))
    await settled()
  }
  const pass = (ms: number) => clock.pass(ms, settled)
  /** What the pilot says; `@wait 5s` lets so much time pass, as in a rehearsal. */
  const hear = async (text: string, more?: Parameters<typeof ear.hear>[1]) => {
    const wait = /^@wait (\d+)s$/.exec(text)
    if (wait) return pass(Number(wait[1]) * 1_000)
    ear.hear(text, more)
    await settled()
  }
  const said = () => voice.said.at(-1)?.text
  return { pack, clock, ear, voice, log, store, run, revise, hear, pass, settled, said, state: run.state }
}
