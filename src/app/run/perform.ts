/** The one place that performs effects: the voice speaks, then the ear listens, a timer starts. */

import type { Role } from '../../kernel/pack/roles.ts'
import type { Effect, Happening } from '../../kernel/run/core/events.ts'
import type { Clock, Ear, Voice } from '../../ports.ts'

export interface PerformParts {
  readonly ear: Ear
  readonly voice: Voice
  readonly clock: Clock
  readonly happen: (happening: Happening) => void
  readonly speaking: (text: string, role: Role) => void
  /** Values that a station gave: the revision that takes them in is the caller's. */
  readonly takeDown: (taken: Extract<Effect, { type: 'takeDown' }>) => void
  readonly voiceFailed: (text: string, role: Role) => void
  /** The pilot is in the middle of saying something: silence is not counted. */
  readonly isHearing: () => boolean
  /** Listens through its own voice. */
  readonly isHeadset: () => boolean
  /** The speaker makes long pauses. */
  readonly isPatient: () => boolean
}

/** How long to wait before a silence timer looks again while speech is under way. */
const LOOK_AGAIN_MS = 1_000

export function createPerform(parts: PerformParts): (effects: readonly Effect[]) => void {
  let round = 0
  const timers = new Map<string, () => void>()

  function stopTimers(): void {
    for (const stop of timers.values()) stop()
    timers.clear()
  }

  function startTimer(effect: Extract<Effect, { type: 'startTimer' }>): void {
    const { timer, ms, happening } = effect
    timers.get(timer)?.()
    const fire = () => {
      const isSilence = timer === 'prompt' || timer === 'tone'
      if (isSilence && parts.isHearing()) return startTimer({ ...effect, ms: LOOK_AGAIN_MS })
      timers.delete(timer)
      parts.happen(happening)
    }
    timers.set(timer, parts.clock.after(ms, fire))
  }

  async function speak(text: string, role: Role, isCurrent: () => boolean) {
    parts.speaking(text, role)
    const outcome = await parts.voice.speak(text, role)
    if (!isCurrent()) return
    parts.speaking('', role)
    if (outcome !== 'failed') return
    parts.voiceFailed(text, role)
    await parts.voice.tone('attention')
  }

  function listen(effect: Extract<Effect, { type: 'listen' }>, after: number, isHeadset: boolean): void {
    const { order, hearable } = effect
    const isPatient = parts.isPatient()
    parts.ear.listen({ order, hearable, after, ...(isHeadset && { isHeadset }), ...(isPatient && { isPatient }) })
  }

  async function run(effects: readonly Effect[], mine: number): Promise<void> {
    const isCurrent = () => round === mine
    const isHeadset = parts.isHeadset()
    const { clock, voice } = parts
    let soundedAt = clock.now()
    for (const effect of effects) {
      if (!isCurrent()) return
      switch (effect.type) {
        case 'shut':
          parts.ear.shut()
          if (isHeadset) for (const later of effects) if (later.type === 'listen') listen(later, clock.now(), isHeadset)
          break
        case 'speak':
          await speak(effect.text, effect.role, isCurrent)
          soundedAt = voice.endedAt() ?? clock.now()
          break
        case 'tone':
          await voice.tone(effect.tone)
          soundedAt = clock.now()
          break
        case 'listen':
          if (!isHeadset) listen(effect, soundedAt, isHeadset)
          break
        case 'takeDown':
          parts.takeDown(effect)
          break
        case 'startTimer':
          startTimer(effect)
          break
        case 'stopTimers':
          stopTimers()
          break
      }
    }
  }

  return (effects) => {
    // Only a new turn displaces the one before; a timer alone does not cut off the voice.
    if (effects.some((effect) => effect.type === 'shut')) {
      round += 1
      parts.voice.cancel()
      parts.speaking('', 'otherseat')
    }
    void run(effects, round)
  }
}
