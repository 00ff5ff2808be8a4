/**
 * A seat in Node: the demo pack under way with its real run, ear and denoiser, on a clock that sound moves on. What is
 * played into it is judged as if a microphone had heard it.
 */

import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import type { Denoiser } from '../../src/adapters/ear/audio/denoise.ts'
import { FRAME, FRAME_MS } from '../../src/adapters/ear/audio/frame.ts'
import {
  estimateAtOnce,
  newNodeDenoiser,
  nodeHearers,
  nodePasses,
  nodeRescorer,
} from '../../src/adapters/ear/nodeEar.ts'
import type { DecodePass } from '../../src/adapters/ear/recogniser/decodePass.ts'
import { WarpEstimator } from '../../src/adapters/ear/recogniser/warpEstimator.ts'
import type { Rescorer } from '../../src/adapters/ear/rescorer/rescorer.ts'
import { Listening } from '../../src/adapters/ear/utterance/listening.ts'
import { createMemoryLog } from '../../src/adapters/log/memoryLog.ts'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { createSession } from '../../src/app/run/session.ts'
import { newRun } from '../../src/app/run/storedRun.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import { createEmitter } from '../../src/emitter.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'
import { vocabularyOf } from '../../src/kernel/hearing/vocabulary.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import { findLine, listById } from '../../src/kernel/pack/place.ts'
import type { Evidence, RunCommand, RunEvent, ToneName } from '../../src/kernel/run/core/events.ts'
import type { RunState } from '../../src/kernel/run/core/state.ts'
import { readInputs } from '../../src/packs/inputs.ts'
import type { Clock, Ear, EarEvent, Voice, VoicedFor } from '../../src/ports.ts'

const here = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url))
const GUARD_MS = 120
/** How long the voice takes for a word. */
const MS_PER_WORD = 300
const BY_KEY: Evidence = { by: 'key', text: '' }

export interface Ears {
  readonly pack: Pack
  readonly inputs: Inputs
  readonly passes: readonly [DecodePass, DecodePass]
  readonly newDenoiser: () => Denoiser
  readonly rescorer: Rescorer
}

export interface Seat {
  readonly state: () => RunState
  readonly events: () => readonly RunEvent[]
  readonly spoken: readonly { readonly text: string; readonly role: VoicedFor }[]
  readonly tones: readonly ToneName[]
  /** Calls a list and leaves items open up to one of them. */
  openItem(list: string, item: string): Promise<void>
  type(text: string): Promise<void>
  /** 16 kHz, heard from now on in real time of the seat's clock. */
  play(pcm: Float32Array): Promise<void>
}

/** The demo pack, and the recogniser with its vocabulary: made once for many seats. */
export async function createEars(): Promise<Ears> {
  const { pack } = await readPackDir(here('checklists/marram'))
  const file = here('checklists/marram/inputs/final.yaml')
  const inputs = pack && readInputs(await readFile(file, 'utf8'), file, pack).inputs
  if (!pack || !inputs) throw new Error('the demo pack cannot be read')
  return {
    ...{ pack, inputs },
    passes: await nodePasses(vocabularyOf(pack)),
    newDenoiser: await newNodeDenoiser(),
    rescorer: await nodeRescorer(),
  }
}

const settled = () => new Promise<void>((done) => setImmediate(done))

/** With `stations` voices outside the crew speak as well. */
export async function takeSeat({ pack, inputs, passes, newDenoiser, rescorer }: Ears, stations = false): Promise<Seat> {
  const clock = createVirtualClock()
  const { ear, hear } = nodeEar(passes, rescorer, newDenoiser(), clock)
  const voice = timedVoice(clock)
  const log = createMemoryLog()
  const run = createSession({ clock, log, ear, voice, settings: () => DEFAULT_SETTINGS }, newRun(pack, 'seat'))
  await run.begin({
    inputs,
    settings: { phraseology: 'plain', coachAfter: 0 },
    ...(stations && { stations: { seed: 7 } }),
  })
  const quiet = async (ms: number) => {
    await settled()
    await clock.pass(ms, settled)
  }
  const command = (command: RunCommand) => run.happen({ type: 'commanded', command, evidence: BY_KEY })
  let rest = new Float32Array(0)
  return {
    state: run.state,
    events: run.events,
    spoken: voice.spoken,
    tones: voice.tones,
    async openItem(list, item) {
      await run.happen({ type: 'listCalled', list, evidence: BY_KEY })
      const isThere = () => {
        const { floor, question } = run.state()
        return !question && floor.at === 'item' && floor.item === `${list}.${item}`
      }
      for (let tries = 0; tries < 20 && !isThere(); tries++) {
        const { floor, question } = run.state()
        if (floor.at === 'line') {
          const { clearance } = findLine(listById(pack, floor.list), floor.line)
          await run.happen({ type: 'cleared', clearance, evidence: BY_KEY })
        } else await command(question ? 'negative' : 'leaveOpen')
      }
      if (!isThere()) throw new Error(`${list}.${item} cannot be come to`)
      await quiet(4_000)
    },
    async type(text) {
      const now = clock.now()
      await run.hear({ listenId: run.state().listenId, text, by: 'typed', beganAt: now, endedAt: now })
      await quiet(20_000)
    },
    async play(pcm) {
      const all = new Float32Array(rest.length + pcm.length)
      all.set(rest)
      all.set(pcm, rest.length)
      let at = 0
      for (; at + FRAME <= all.length; at += FRAME) {
        hear(all.slice(at, at + FRAME), clock.now())
        await settled()
        await clock.pass(FRAME_MS, settled)
      }
      rest = all.slice(at)
    },
  }
}

function nodeEar(
  [first, second]: Ears['passes'],
  rescorer: Rescorer,
  denoiser: Denoiser,
  clock: Clock,
): { ear: Ear; hear: (frame: Float32Array, at: number) => void } {
  const { emit, subscribe } = createEmitter<EarEvent>()
  const estimator = new WarpEstimator(second)
  const listening = new Listening({
    ...nodeHearers(first, second, rescorer),
    denoiser,
    emit,
    taskFor: (hearable) => first.taskFor(hearable),
    understood: () => estimateAtOnce(estimator, first),
  })
  return {
    hear: (frame, at) => listening.frame(frame, at),
    ear: {
      open: async () => undefined,
      listen: (order) => listening.listen(order, order.after + (order.isHeadset ? 0 : GUARD_MS)),
      shut: () => listening.shut(),
      gate: (gate) => listening.gate(gate, clock.now()),
      close: async () => undefined,
      subscribe,
    },
  }
}

/** Says nothing, and takes its time for it. */
function timedVoice(clock: Clock): Voice & Pick<Seat, 'spoken' | 'tones'> {
  const spoken: { text: string; role: VoicedFor }[] = []
  const tones: ToneName[] = []
  return {
    name: 'timed',
    spoken,
    tones,
    speak(text, role, signal) {
      spoken.push({ text, role })
      return new Promise((resolve) => {
        const stop = clock.after(text.split(' ').length * MS_PER_WORD, () => resolve('spoken'))
        signal?.addEventListener('abort', () => {
          stop()
          resolve('cancelled')
        })
      })
    },
    endedAt: () => undefined,
    async tone(name) {
      tones.push(name)
    },
  }
}
