/**
 * A run flown from a file of answers with a virtual clock. Each answer is taken when the runner
 * listens; a line that begins with `@` is an event from outside.
 */

import { readFile } from 'node:fs/promises'
import { dirname, resolve } from 'node:path'
import { createDispatch } from '../app/run/dispatch.ts'
import { pressed } from '../app/run/pressed.ts'
import { reviseWith, withoutGiven, withoutTaken, withStated, withTaken } from '../app/run/revision.ts'
import { buttonsOf } from '../app/view/buttons.ts'
import type { FigureSet, Inputs } from '../kernel/figures/model.ts'
import type { Hearable } from '../kernel/hearing/hearable.ts'
import type { Heard } from '../kernel/hearing/heard.ts'
import type { Pack } from '../kernel/pack/checklist.ts'
import { showProblem } from '../kernel/problem.ts'
import type { Effect, RunSettings } from '../kernel/run/core/events.ts'
import type { RunState } from '../kernel/run/core/state.ts'
import { emptyRun } from '../kernel/run/core/step.ts'
import { scriptFor } from '../kernel/run/talk/script.ts'
import { readInputs } from '../packs/inputs.ts'
import type { RunLog } from '../ports.ts'
import { virtualClock } from './virtualClock.ts'

/** How long the virtual voice and the virtual pilot take for a word. */
const MS_PER_WORD = 300

export interface RehearsalParts {
  readonly pack: Pack
  readonly inputs: Inputs
  /** The answers file; other files named in it are relative to it. */
  readonly answers: string
  /** What the voices outside the crew say follows from this number; without it they are left out. */
  readonly voices?: number
  readonly radio?: RunSettings['radio']
  readonly log: RunLog
  readonly print: (line: string) => void
  /** Opens the recogniser at the first `@wav`. */
  readonly hearWav: (
    file: string,
    hearable: Hearable,
  ) => Promise<Pick<Heard, 'text' | 'doubt' | 'score' | 'alternatives' | 'words'> & { durationMs: number }>
}

export interface RehearsalEnd {
  readonly complete: boolean
  readonly problems: readonly string[]
}

export async function rehearseFile(parts: RehearsalParts): Promise<RehearsalEnd> {
  const { pack, print } = parts
  const clock = virtualClock(Date.UTC(2000, 0, 1))
  let listening: Extract<Effect, { type: 'listen' }> | undefined
  const stops = new Map<string, () => void>()

  const dispatch = createDispatch({
    pack,
    log: parts.log,
    clock,
    state: emptyRun('rehearsal'),
    events: [],
    changed: (state, event) => {
      if (event.type === 'stated' && state.inputs)
        void revise(withStated(state.inputs, event), { crossChecked: event.figure })
    },
    logLost: (message) => {
      throw new Error(message)
    },
    perform: (effects) => {
      for (const effect of effects) perform(effect)
    },
  })

  function perform(effect: Effect): void {
    switch (effect.type) {
      case 'shut':
        listening = undefined
        break
      case 'speak':
        print(`${effect.role}: ${effect.text}`)
        clock.advance(words(effect.text) * MS_PER_WORD)
        break
      case 'listen':
        listening = effect
        break
      case 'startTimer': {
        const { happening } = effect
        stops.get(effect.timer)?.()
        stops.set(
          effect.timer,
          clock.after(effect.ms, () => void dispatch.happen(happening)),
        )
        break
      }
      case 'stopTimers':
        for (const stop of stops.values()) stop()
        stops.clear()
        break
      case 'takeDown': {
        const { inputs } = dispatch.state()
        if (inputs) void revise(withTaken(inputs, effect.values), { takenDown: effect.turn })
        break
      }
      case 'tone':
        break
    }
  }

  async function hear(
    heard: Omit<Heard, 'order' | 'beganAt' | 'endedAt'>,
    durationMs: number,
  ): Promise<string | undefined> {
    if (!listening) return 'nobody listens: the run has ended or stopped'
    const { order } = listening
    const beganAt = clock.now()
    clock.advance(durationMs)
    print(`pilot: ${heard.text}`)
    await dispatch.hear({ ...heard, order, beganAt, endedAt: clock.now() })
    // What a reading brought in has its turn before the next answer.
    await dispatch.happen(() => undefined)
    return undefined
  }

  let set: FigureSet | undefined
  let revision = 0
  async function revise(wanted: Inputs, from: Parameters<typeof reviseWith>[4] = {}): Promise<void> {
    revision += 1
    const { script, inputs: before } = dispatch.state()
    const inputs = script && from.takenDown === undefined ? withoutGiven(pack, wanted, before) : wanted
    const next = reviseWith(pack, revision, inputs, set, from)
    set = next.set
    await dispatch.happen(next.revised)
  }

  /** One line starting with @; says what is wrong with it, if anything. */
  async function event(text: string): Promise<string | undefined> {
    const [name = '', ...rest] = text.slice(1).trim().split(/\s+/)
    const argument = rest.join(' ')
    const file = resolve(dirname(parts.answers), argument)
    switch (name) {
      case 'wait': {
        const match = /^(\d+(?:\.\d+)?)\s*(ms|s|m)$/.exec(argument)
        if (!match) return `@wait ${argument}: a time such as 31s, 500ms or 2m would be right`
        const factor = { ms: 1, s: 1_000, m: 60_000 }[match[2] as 'ms' | 's' | 'm']
        // A turn that does nothing has waited for all turns before it.
        await clock.pass(Number(match[1]) * factor, () => dispatch.happen(() => undefined))
        return undefined
      }
      case 'figures': {
        const read = await readText(file)
        if (read === undefined) return `@figures ${argument}: there is no such file`
        const { inputs, problems } = readInputs(read, argument, pack)
        if (inputs) await revise(withoutTaken(inputs, dispatch.state()))
        return inputs ? undefined : problems.map(showProblem).join('\n')
      }
      case 'cleared':
        if (!clearances(pack).includes(argument)) return unknown('@cleared', argument, clearances(pack))
        await dispatch.happen({ type: 'cleared', clearance: argument, evidence: { by: 'file', text: '' } })
        return undefined
      case 'situation': {
        const [situation = '', value = ''] = argument.split('=')
        const known = pack.situations.find((one) => one.name === situation)
        if (!known)
          return unknown(
            '@situation',
            situation,
            pack.situations.map((one) => one.name),
          )
        if (!known.options.some((option) => option.value === value)) {
          return unknown(
            `@situation ${situation}`,
            value,
            known.options.map((option) => option.value),
          )
        }
        await dispatch.happen({ type: 'situationSet', name: situation, value, evidence: { by: 'file', text: '' } })
        return undefined
      }
      case 'key':
        return key(argument)
      case 'wav': {
        if (!listening) return 'nobody listens: the run has ended or stopped'
        const { durationMs, ...heard } = await parts.hearWav(file, listening.hearable)
        return hear({ ...heard, by: 'voice' }, durationMs)
      }
      case 'say':
        print(`${rest[0] ?? ''}: ${rest.slice(1).join(' ')}`)
        return undefined
      default:
        return unknown('', `@${name}`, ['@wait', '@figures', '@cleared', '@situation', '@key', '@wav', '@say'])
    }
  }

  /** A button by its phrase or label, or by what it does. */
  async function key(name: string): Promise<string | undefined> {
    const buttons = buttonsOf(pack, dispatch.state())
    const wanted = name.toLowerCase()
    const button = buttons.find(({ label, phrase, press }) => {
      const names = [label, phrase, press.type === 'command' ? press.command : press.type]
      return names.some((one) => one.toLowerCase() === wanted)
    })
    if (!button)
      return unknown(
        '@key',
        name,
        buttons.map(({ label }) => label),
      )
    await dispatch.happen((state: RunState) => pressed(pack, state, button.press, clock.now()))
    return undefined
  }

  const { id, version, sha256, name, texts } = pack
  const initial = Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
  await dispatch.happen({
    type: 'runStarted',
    pack: { id, version, sha256, name, texts },
    situation: { ...initial, ...parts.inputs.situation },
    settings: { phraseology: 'plain', coachAfter: 0, ...(parts.radio && { radio: parts.radio }) },
    startedAt: clock.now(),
    ...(parts.voices !== undefined && { script: scriptFor(pack, parts.inputs, parts.voices) }),
  })
  await revise(parts.inputs)

  const lines = (await readFile(parts.answers, 'utf8')).split(/\r?\n/)
  for (const [index, raw] of lines.entries()) {
    const line = raw.replace(/(^|\s)#.*$/, '').trim()
    if (line === '') continue
    const wrong = line.startsWith('@')
      ? await event(line)
      : await hear({ text: line, by: 'typed' }, words(line) * MS_PER_WORD)
    if (wrong) return { complete: false, problems: [`${parts.answers}:${index + 1}:1: ${wrong}`] }
  }
  const state = dispatch.state()
  const complete = state.floor.at === 'end' && state.status === 'running'
  if (complete) await dispatch.happen({ type: 'ended' })
  const problem = `${parts.answers}:${lines.length}:1: the file ends while an answer is awaited: ${state.said}`
  return { complete, problems: complete ? [] : [problem] }
}

const words = (text: string) => text.split(/\s+/).length

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
  return `${what} ${given}: not known; ${known.join(', ')} would be right`.trim()
}

async function readText(file: string): Promise<string | undefined> {
  try {
    return await readFile(file, 'utf8')
  } catch {
    return undefined
  }
}
