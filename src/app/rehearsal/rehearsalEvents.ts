/** The lines of an answers file that begin with `@`: time, figures, clearances, keys, sound. */

import type { Hearable } from '../../kernel/hearing/hearable.ts'
import type { Heard } from '../../kernel/hearing/heard.ts'
import { keyPress } from '../../kernel/interpret/keyPress.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { showProblem } from '../../kernel/problemLine.ts'
import { readInputs } from '../../packs/inputs.ts'
import type { ListenRequest } from '../../ports.ts'
import { withoutTaken } from '../run/revision.ts'
import type { RunSession } from '../run/session.ts'
import { buttonsOf } from '../view/buttons.ts'
import type { VirtualClock } from './virtualClock.ts'

/** The run, and what an answers file may do to it. */
export interface Rehearsal {
  readonly pack: Pack
  readonly session: RunSession
  readonly clock: VirtualClock
  readonly print: (line: string) => void
  /** A file by its name in the answers file; undefined where there is none. */
  readonly readText?: (name: string) => Promise<string | undefined>
  /** Rejects where the file cannot be heard; without it there is no sound. */
  readonly hearWav?: (
    file: string,
    hearable: Hearable,
  ) => Promise<Pick<Heard, 'text' | 'doubt' | 'score' | 'alternatives' | 'words'> & { readonly durationMs: number }>
  /** Where a demonstration made of this is to stop, and what is to be said of it. */
  readonly stopped?: (words: string) => void
  /** What is listened for. */
  readonly listening: () => ListenRequest | undefined
  /** The pilot says something; resolves to what is wrong, if anything. */
  readonly hear: (heard: Pick<Heard, 'text' | 'by'> & Partial<Heard>, durationMs: number) => Promise<string | undefined>
}

/** Resolves to what is wrong, if anything. */
type Doing = (rehearsal: Rehearsal, argument: string) => Promise<string | undefined>

const EVENTS: Readonly<Record<string, Doing>> = {
  wait,
  figures,
  cleared,
  situation,
  key,
  wav,
  stop,
  async say({ print }, argument) {
    const [role = '', ...text] = argument.split(' ')
    print(`${role}: ${text.join(' ')}`)
    return undefined
  },
}

/** Does what a line that begins with `@` asks for; resolves to what is wrong with it, if anything. */
export async function outsideEvent(rehearsal: Rehearsal, line: string): Promise<string | undefined> {
  const [name = '', ...rest] = line.slice(1).trim().split(/\s+/)
  const doing = Object.hasOwn(EVENTS, name) ? EVENTS[name] : undefined
  if (!doing) {
    return unknown(
      '',
      `@${name}`,
      Object.keys(EVENTS).map((known) => `@${known}`),
    )
  }
  return doing(rehearsal, rest.join(' '))
}

/** Longer than any departure. */
const LONGEST_WAIT_MS = 24 * 3_600_000

async function wait({ clock, session }: Rehearsal, argument: string): Promise<string | undefined> {
  const match = /^(\d+(?:\.\d+)?)\s*(ms|s|m)$/.exec(argument)
  if (!match) return `@wait ${argument}: a time such as 31s, 500ms or 2m would be right`
  const factor = { ms: 1, s: 1_000, m: 60_000 }[match[2] as 'ms' | 's' | 'm']
  const ms = Number(match[1]) * factor
  if (ms > LONGEST_WAIT_MS) return `@wait ${argument}: too long; at most 1440m, which is a day, would be right`
  await clock.pass(ms, session.settled)
  return undefined
}

async function figures({ readText, pack, session }: Rehearsal, argument: string): Promise<string | undefined> {
  const text = await readText?.(argument)
  if (text === undefined) return `@figures ${argument}: there is no such file`
  const { inputs, problems } = readInputs(text, argument, pack)
  if (!inputs) return problems.map(showProblem).join('\n')
  await session.enter(withoutTaken(pack, inputs, session.state()), { sheet: inputs })
  return undefined
}

async function cleared({ pack, session }: Rehearsal, argument: string): Promise<string | undefined> {
  const known = clearances(pack)
  if (!known.includes(argument)) return unknown('@cleared', argument, known)
  await session.happen({ type: 'cleared', clearance: argument, evidence: { by: 'file', text: '' } })
  return undefined
}

async function situation({ pack, session }: Rehearsal, argument: string): Promise<string | undefined> {
  const [name = '', value = ''] = argument.split('=')
  const { situations } = pack
  const known = situations.find((one) => one.name === name)
  if (!known) {
    return unknown(
      '@situation',
      name,
      situations.map((one) => one.name),
    )
  }
  const values = known.options.map((option) => option.value)
  if (!values.includes(value)) return unknown(`@situation ${name}`, value, values)
  await session.happen({ type: 'situationSet', name, value, evidence: { by: 'file', text: '' } })
  return undefined
}

/** A button by its phrase or label, or by what it does. */
async function key({ pack, session, clock }: Rehearsal, name: string): Promise<string | undefined> {
  const buttons = buttonsOf(pack, session.state())
  const wanted = name.toLowerCase()
  const button = buttons.find(({ label, phrase, press }) => {
    const names = [label, phrase, press.type === 'command' ? press.command : press.type]
    return names.some((one) => one.toLowerCase() === wanted)
  })
  if (!button) {
    return unknown(
      '@key',
      name,
      buttons.map(({ label }) => label),
    )
  }
  await session.happen((state) => keyPress(pack, state, button.press, clock.now()))
  return undefined
}

/** It stops behind what has happened so far. */
async function stop({ print, stopped }: Rehearsal, words: string): Promise<string | undefined> {
  print(`stop: ${words}`.trim())
  stopped?.(words)
  return undefined
}

async function wav({ hearWav, listening, hear }: Rehearsal, argument: string): Promise<string | undefined> {
  const request = listening()
  if (!request) return 'nobody listens: the run has ended or stopped'
  if (!hearWav) return `@wav ${argument}: nothing is heard here; the words themselves would be right`
  try {
    const { durationMs, ...heard } = await hearWav(argument, request.hearable)
    return await hear({ ...heard, by: 'voice' }, durationMs)
  } catch (error) {
    return `@wav ${argument}: ${error instanceof Error ? error.message : error}; a WAV file would be right`
  }
}

function clearances(pack: Pack): string[] {
  return pack.phases.flatMap(({ activities }) =>
    activities.flatMap((activity) =>
      activity.type === 'list'
        ? activity.entries.flatMap((entry) => (entry.type === 'line' ? [entry.clearance] : []))
        : [],
    ),
  )
}

function unknown(what: string, given: string, known: readonly string[]): string {
  if (known.length === 0) return `${what} ${given}: not known; this pack has none`
  return `${what} ${given}: not known; ${known.join(', ')} would be right`.trim()
}
