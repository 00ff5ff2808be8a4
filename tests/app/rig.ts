/** The demo pack flown in Node: real kernel, real app layer, fake ear, voice, log and clock. */

import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { conduct } from '../../src/app/run/conduct.ts'
import { reviseWith, type Stated, withStated, withTaken } from '../../src/app/run/revision.ts'
import { createAppStore } from '../../src/app/store.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import type { FigureSet, Inputs } from '../../src/kernel/figures/model.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import type { Effect, RunEvent, RunSettings } from '../../src/kernel/run/core/events.ts'
import { scriptFor } from '../../src/kernel/run/talk/script.ts'
import { readInputs } from '../../src/packs/inputs.ts'
import { createFakeClock } from '../fakes/clock.ts'
import { createFakeEar } from '../fakes/ear.ts'
import { createFakeLog } from '../fakes/log.ts'
import { createFakeVoice, type FakeVoiceOptions } from '../fakes/voice.ts'

const here = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url))

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

/** Lets everything that waits its turn be done. */
export const settled = () => new Promise((done) => setTimeout(done, 0))

export async function rig(
  options: FakeVoiceOptions & {
    events?: readonly RunEvent[]
    settings?: Partial<RunSettings>
    /** With the voices outside the crew, and a load sheet that holds what they will say, in place of the preliminary figures. */
    talk?: string
  } = {},
) {
  const pack = await demoPack()
  const clock = createFakeClock()
  const ear = createFakeEar(clock.now)
  const voice = createFakeVoice(options)
  const log = createFakeLog()
  const store = createAppStore({ pack })
  const run = conduct({ store, clock, log, ear, voice }, pack, 'run', options.events ?? [], {
    stated: (stated) => void crossCheck(stated),
    takenDown: (taken) => void takeDown(taken),
    situated: () => undefined,
  })
  let set: FigureSet | undefined
  let revision = 0
  const crossCheck = async (stated: Stated) => {
    const before = run.dispatch.state().inputs
    if (!before) return
    revision += 1
    const next = reviseWith(pack, revision, withStated(before, stated), set, { crossChecked: stated.figure })
    set = next.set
    await run.dispatch.happen(next.revised)
  }
  const takeDown = async ({ turn, values }: Extract<Effect, { type: 'takeDown' }>) => {
    const before = run.dispatch.state().inputs
    if (!before) return
    revision += 1
    const next = reviseWith(pack, revision, withTaken(before, values), set, { takenDown: turn })
    set = next.set
    await run.dispatch.happen(next.revised)
  }
  const enter = async (inputs: Inputs) => {
    revision += 1
    const next = reviseWith(pack, revision, inputs, set)
    set = next.set
    await run.dispatch.happen(next.revised)
    await settled()
  }
  const revise = async (name: 'preliminary' | 'final' | 'amended') => enter(await demoInputs(pack, name))
  const { id, version, sha256, texts } = pack
  if (!options.events) {
    const sheet = options.talk === undefined ? undefined : await inputsFrom(pack, options.talk)
    await run.dispatch.happen({
      type: 'runStarted',
      pack: { id, version, sha256, name: pack.name, texts },
      situation: { stand: 'push', icing: 'no' },
      settings: { phraseology: 'plain', coachAfter: 0, ...options.settings },
      startedAt: clock.now(),
      ...(sheet && { script: scriptFor(pack, sheet, 0) }),
    })
    await enter(sheet ?? (await demoInputs(pack, 'preliminary')))
  }
  const hear = async (text: string, more?: Parameters<typeof ear.hear>[1]) => {
    ear.hear(text, more)
    await settled()
  }
  const said = () => voice.said.at(-1)?.text
  return { pack, clock, ear, voice, log, store, run, revise, hear, said, state: () => run.dispatch.state() }
}
