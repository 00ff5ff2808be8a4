/** The one place that performs effects: the voice speaks, then the ear listens, a timer starts. */

import type { Role } from '../../kernel/pack/roles.ts'
import type { Effect, EventBody, TimerName } from '../../kernel/run/core/events.ts'
import type { Clock, Ear, Voice } from '../../ports.ts'

export interface PerformParts {
  readonly ear: Ear
  readonly voice: Voice
  readonly clock: Clock
  readonly happen: (body: EventBody) => void
  /** `onRadio`: Otherseat's side to a station. */
  readonly speaking: (text: string, role: Role, onRadio?: true) => void
  /** Values that a station gave: the revision that takes them in is the caller's. */
  readonly recordFromStation: (taken: EffectOf<'recordFromStation'>) => void
  readonly voiceFailed: (text: string, role: Role) => void
  /** The pilot is in the middle of saying something: silence is not counted. */
  readonly isHearing: () => boolean
  /** Listens through its own voice. */
  readonly isHeadset: () => boolean
  /** The speaker makes long pauses. */
  readonly isPatient: () => boolean
  /** The sound of what is said is kept. */
  readonly keepsSound: () => boolean
}

export interface Performer {
  /** Resolves when all has been done, or what was under way was displaced by a later turn. */
  perform(effects: readonly Effect[]): Promise<void>
  /** Cuts off what is being said; what was to follow it follows. */
  interrupt(): void
}

type EffectOf<Type extends Effect['type']> = Extract<Effect, { type: Type }>

/** While the pilot speaks, a silence timer that is due waits this long and asks again. */
const STILL_SPEAKING_MS = 1_000
/** Timers of silence: they do not run out in the middle of what the pilot says. */
const OF_SILENCE: ReadonlySet<TimerName> = new Set(['prompt', 'tone', 'radio'])

export function createPerformer(parts: PerformParts): Performer {
  const { ear, voice, clock } = parts
  const timers = createTimers(parts)
  /** What is displaced as a whole when a later turn begins. */
  let turn = new AbortController()
  let utterance = new AbortController()

  async function speak({ text, role, onRadio }: EffectOf<'speak'>, displaced: AbortSignal): Promise<void> {
    const mine = new AbortController()
    utterance = mine
    const cutOff = () => mine.abort()
    displaced.addEventListener('abort', cutOff)
    parts.speaking(text, role, onRadio)
    const outcome = await voice.speak(text, role, mine.signal)
    displaced.removeEventListener('abort', cutOff)
    if (displaced.aborted) return
    parts.speaking('', role)
    if (outcome !== 'failed') return
    parts.voiceFailed(text, role)
    await voice.tone('attention')
  }

  function listen({ listenId, hearable }: EffectOf<'listen'>, after: number): void {
    const isHeadset = parts.isHeadset()
    const isPatient = parts.isPatient()
    const keepsSound = parts.keepsSound()
    ear.listen({
      ...{ listenId, hearable, after },
      ...(isHeadset && { isHeadset }),
      ...(isPatient && { isPatient }),
      ...(keepsSound && { keepsSound }),
    })
  }

  async function run(effects: readonly Effect[], displaced: AbortSignal): Promise<void> {
    const isHeadset = parts.isHeadset()
    const goesOn = effects.some(({ type }) => type === 'radio')
    let soundedAt = clock.now()
    for (const effect of effects) {
      // What a station gave is in force, also where its words were cut off.
      if (displaced.aborted && effect.type !== 'recordFromStation') continue
      switch (effect.type) {
        case 'shut':
          ear.shut()
          if (isHeadset) for (const later of effects) if (later.type === 'listen') listen(later, clock.now())
          break
        case 'speak':
          await speak(effect, displaced)
          soundedAt = voice.endedAt() ?? clock.now()
          break
        case 'tone':
          await voice.tone(effect.tone)
          soundedAt = clock.now()
          break
        case 'listen':
          // Where the radio goes on at once, nobody is listened to in between.
          if (!isHeadset && !goesOn) listen(effect, soundedAt)
          break
        case 'recordFromStation':
          parts.recordFromStation(effect)
          break
        case 'radio':
          timers.radio(effect)
          break
        case 'startTimer':
          timers.start(effect)
          break
        case 'stopTimers':
          timers.stopAll()
          break
      }
    }
  }

  return {
    interrupt: () => utterance.abort(),
    perform(effects) {
      // Only a new turn displaces the one before; a timer alone does not cut off the voice.
      if (effects.some(({ type }) => type === 'shut')) {
        turn.abort()
        turn = new AbortController()
        parts.speaking('', 'otherseat')
      }
      return run(effects, turn.signal)
    },
  }
}

/** One timer of each name; starting it again takes the place of the one that runs. */
function createTimers({ clock, happen, isHearing }: PerformParts) {
  const running = new Map<TimerName, () => void>()

  function start(effect: EffectOf<'startTimer'>): void {
    const { timer, ms, event } = effect
    running.get(timer)?.()
    const due = () => {
      if (OF_SILENCE.has(timer) && isHearing()) return start({ ...effect, ms: STILL_SPEAKING_MS })
      running.delete(timer)
      happen(event)
    }
    running.set(timer, clock.after(ms, due))
  }

  function stopAll(): void {
    for (const stop of running.values()) stop()
    running.clear()
  }

  /** At once, unless the pilot is in the middle of saying something. */
  function radio({ turn, part }: EffectOf<'radio'>): void {
    const event = { type: 'radioed', turn, part } as const
    if (isHearing()) start({ type: 'startTimer', timer: 'radio', ms: STILL_SPEAKING_MS, event })
    else happen(event)
  }

  return { start, stopAll, radio }
}
