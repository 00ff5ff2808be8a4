/**
 * A run flown from a file of answers with a virtual clock. Each answer is taken when the runner listens; a line that
 * begins with `@` is an event from outside.
 */

import type { Inputs } from '../../kernel/figures/model.ts'
import type { RunSettings } from '../../kernel/run/core/events.ts'
import type { Ear, ListenRequest, RunLog, Voice } from '../../ports.ts'
import { eventsBegunAt } from '../run/beginAnywhere.ts'
import type { Beginning } from '../run/beginning.ts'
import { createSession } from '../run/session.ts'
import { newRun, replayed } from '../run/storedRun.ts'
import { DEFAULT_SETTINGS } from '../settings.ts'
import { outsideEvent, type Rehearsal } from './rehearsalEvents.ts'
import { createVirtualClock, type VirtualClock } from './virtualClock.ts'

/** How long the virtual voice and the virtual pilot take for a word. */
const MS_PER_WORD = 300

export interface RehearsalParts extends Pick<Rehearsal, 'pack' | 'readText' | 'hearWav' | 'stopped'> {
  /** What the answers file is called, for what is wrong in it. */
  readonly file: string
  readonly inputs: Inputs
  /** The activity that it begins at; left out: the beginning. */
  readonly beginAt?: string
  /** How the answers come in; typed where left out. */
  readonly by?: 'voice' | 'typed'
  /** What is said, and by whom. */
  readonly print?: Rehearsal['print']
  /** What the answers file holds. */
  readonly answers: string
  /** What the voices outside the crew say follows from this number; without it they are left out. */
  readonly voices?: number
  readonly radio?: RunSettings['radio']
  readonly log: Pick<RunLog, 'append'>
}

export interface RehearsalEnd {
  /** All its lines were done, whether the departure came to its end or not. */
  readonly isFlown: boolean
  readonly complete: boolean
  readonly problems: readonly string[]
}

export async function rehearseFile(parts: RehearsalParts): Promise<RehearsalEnd> {
  const { file } = parts
  const rehearsal = createRehearsal(parts)
  const { session, print } = rehearsal
  let unkept: string | undefined
  session.subscribe((event) => {
    if (event.type === 'happened' && event.event.type === 'overheard' && event.event.meant)
      print(`screen: Not understood: ${event.event.evidence.text}`)
    if (event.type === 'storage' && !event.storage.kept) unkept = event.storage.message
  })
  await rehearsal.begin()
  await session.settled()

  const lines = parts.answers.split(/\r?\n/)
  for (const [index, raw] of lines.entries()) {
    const line = raw.replace(/(^|\s)#.*$/, '').trim()
    const wrong = unkept ?? (line === '' ? undefined : await lineDone(rehearsal, line))
    if (unkept !== undefined) return { isFlown: false, complete: false, problems: [unkept] }
    if (wrong) return { isFlown: false, complete: false, problems: [`${file}:${index + 1}:1: ${wrong}`] }
  }
  const { floor, status, said, stoppedBecause } = session.state()
  const complete = floor.at === 'end' && status === 'running'
  if (complete) await session.happen({ type: 'ended' })
  if (unkept !== undefined) return { isFlown: false, complete: false, problems: [unkept] }
  const problem = stoppedBecause ?? `the file ends while waiting for an answer: ${said}`
  return { isFlown: true, complete, problems: complete ? [] : [`${file}:${lines.length}:1: ${problem}`] }
}

async function lineDone(rehearsal: Rehearsed, line: string): Promise<string | undefined> {
  const wrong = line.startsWith('@')
    ? await outsideEvent(rehearsal, line)
    : await rehearsal.hear({ text: line, by: rehearsal.by }, words(line) * MS_PER_WORD)
  await rehearsal.session.settled()
  return wrong
}

interface Rehearsed extends Rehearsal {
  readonly by: 'voice' | 'typed'
  readonly begin: () => Promise<void>
}

const RUN_ID = 'rehearsal'

function createRehearsal(parts: RehearsalParts): Rehearsed {
  const { pack, inputs, beginAt, voices, radio, log, by = 'typed', print = () => undefined } = parts
  const clock = createVirtualClock()
  const { ear, listening } = orderedEar()
  const voice = printedVoice(clock, print)
  const beginning: Beginning = {
    ...{ inputs, from: { sheet: inputs } },
    settings: { phraseology: 'plain', coachAfter: 0, ...(radio && { radio }) },
    ...(voices !== undefined && { stations: { seed: voices } }),
  }
  const where = beginAt === undefined ? undefined : { activity: beginAt, runId: RUN_ID, now: clock.now() }
  const begun = where ? { ...replayed(pack, eventsBegunAt(pack, beginning, where)), stored: 0 } : newRun(pack, RUN_ID)
  const session = createSession({ clock, log, ear, voice, settings: () => DEFAULT_SETTINGS }, begun)
  return {
    ...parts,
    ...{ by, print, session, clock, listening },
    begin: () => (where ? session.resume() : session.begin(beginning)),
    async hear(heard, durationMs) {
      const listenId = listening()?.listenId
      if (listenId === undefined) return 'nobody listens: the run has ended or stopped'
      const beganAt = clock.now()
      clock.skip(durationMs)
      print(`pilot: ${heard.text}`)
      await session.hear({ ...heard, listenId, beganAt, endedAt: clock.now() })
      return undefined
    },
  }
}

/** An ear that hears nothing of itself: it knows what is listened for. */
function orderedEar(): { readonly ear: Ear; readonly listening: () => ListenRequest | undefined } {
  let inForce: ListenRequest | undefined
  const ear: Ear = {
    open: async () => undefined,
    listen(request) {
      inForce = request
    },
    shut() {
      inForce = undefined
    },
    gate() {},
    close: async () => undefined,
    subscribe: () => () => undefined,
  }
  return { ear, listening: () => inForce }
}

/** A voice that is printed, and takes its time. */
function printedVoice(clock: VirtualClock, print: (line: string) => void): Voice {
  return {
    name: 'printed',
    async speak(text, role) {
      print(`${role}: ${text}`)
      clock.skip(words(text) * MS_PER_WORD)
      return 'spoken'
    },
    endedAt: () => undefined,
    tone: async () => undefined,
  }
}

const words = (text: string) => text.split(/\s+/).length
