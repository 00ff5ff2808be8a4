/** What the ear reports to a run: what was heard, that it died or came back, and that the pilot speaks. */

import type { Heard } from '../../kernel/hearing/heard.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { Clock, Ear, EarEvent } from '../../ports.ts'
import type { Settings } from '../settings.ts'
import type { Dispatch } from './dispatch.ts'
import { createFiveNineGuard } from './fiveNine.ts'
import type { Speech } from './speech.ts'

export interface EarParts {
  readonly ear: Ear
  readonly clock: Clock
  readonly speech: Speech
  readonly settings: () => Pick<Settings, 'isHeadset' | 'fiveNine'>
  readonly dispatch: Pick<Dispatch, 'hear' | 'happen' | 'state'>
  /** Cuts off what is being said. */
  readonly interrupt: () => void
  /** What an event that was heard sounded like. Talk that was meant for nobody is none of it. */
  readonly sounded: (event: RunEvent, samples: Int16Array) => void
}

export interface EarFollowed {
  /** The pilot is in the middle of saying something. */
  isHearing(): boolean
  /** The pilot types: so long they need no ear, and are not told that it hears nothing. */
  typing(): void
  leave(): void
}

/** So long after a key somebody who types is taken to type on. */
const TYPES_ON_MS = 60_000
/** Who coughs into a challenge need not lose the rest of it. */
const COUGH_MS = 300

export function followEar({ ear, clock, speech, settings, dispatch, interrupt, sounded }: EarParts): EarFollowed {
  let isHearing = false
  let sound: Extract<EarEvent, { type: 'sound' }> | undefined
  let typedAt = Number.NEGATIVE_INFINITY
  const isTyping = () => clock.now() - typedAt < TYPES_ON_MS
  const guarded = createFiveNineGuard(() => settings().fiveNine)

  function asHeard(heard: Heard): Heard {
    if (heard.by !== 'voice') return heard
    const saidUntil = speech.endedAt()
    return {
      ...guarded(heard),
      ...(speech.isEarly(heard.beganAt) && { early: true }),
      ...(saidUntil !== undefined && { saidUntil }),
    }
  }

  async function hear(heard: Heard): Promise<void> {
    const samples = sound?.listenId === heard.listenId && sound.beganAt === heard.beganAt ? sound.samples : undefined
    sound = undefined
    // An instructor has it hear nothing.
    if (dispatch.state().isDeafened && heard.by === 'voice') return
    const event = await dispatch.hear(asHeard(heard))
    if (event && samples && (event.type !== 'overheard' || event.meant)) sounded(event, samples)
  }

  const leave = ear.subscribe((event) => {
    switch (event.type) {
      case 'state':
        isHearing = event.state === 'hearing'
        break
      case 'speechBegan':
        // From a loudspeaker it would be its own voice that stops it.
        if (settings().isHeadset && speech.isOn()) clock.after(COUGH_MS, () => isHearing && interrupt())
        break
      case 'sound':
        sound = event
        break
      case 'heard':
        void hear(event.heard)
        break
      case 'failed':
        void dispatch.happen({
          ...{ type: 'earFailed', message: event.failure.message },
          ...(isTyping() && { typing: true }),
        })
        break
      case 'back':
        void dispatch.happen({ type: 'earBack' })
        break
    }
  })
  return {
    leave,
    isHearing: () => isHearing,
    typing() {
      typedAt = clock.now()
    },
  }
}
