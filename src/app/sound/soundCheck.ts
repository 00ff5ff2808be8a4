/** The sound check under way: the voice speaks, then the pilot reads the lines one after the other. Apart from any run. */

import type { Heard } from '../../kernel/hearing/heard.ts'
import { vocabularyOf } from '../../kernel/hearing/vocabulary.ts'
import { say } from '../../kernel/run/core/phrases.ts'
import type { Clock, Ear, EarEvent, Voice } from '../../ports.ts'
import type { Store } from '../store.ts'
import { findingsOf, hearableOf, type Levels, promptHeard, SOUND_PROMPTS, SOUND_VOCABULARY } from './soundPrompts.ts'

export interface SoundCheckParts {
  readonly store: Store
  readonly ear: Ear
  readonly voice: Voice
  readonly clock: Clock
}

export interface SoundCheck {
  /** To be called in a gesture. */
  begin(): Promise<void>
  /** The line is left out. */
  skip(): void
  end(): Promise<void>
}

const NOTHING: Levels = { level: -90, noise: -90, isClipped: false }

export function createSoundCheck({ store, ear, voice, clock }: SoundCheckParts): SoundCheck {
  let running: AbortController | undefined
  let listenId = 0
  let levels = NOTHING

  const check = () => store.getState().soundCheck
  function show(change: Partial<NonNullable<ReturnType<typeof check>>>): void {
    const before = check()
    if (before) store.setState({ soundCheck: { ...before, ...change } })
  }

  function listen(): void {
    const line = SOUND_PROMPTS[check()?.lines.length ?? 0]
    levels = NOTHING
    if (line) ear.listen({ listenId: ++listenId, hearable: hearableOf(line), after: clock.now() })
  }

  function took(heard: Heard | undefined): void {
    const before = check()
    const line = before && SOUND_PROMPTS[before.lines.length]
    if (!line || before.stage !== 'reading') return
    const lines = [...before.lines, promptHeard(line, heard, levels)]
    if (lines.length < SOUND_PROMPTS.length) {
      show({ lines })
      listen()
      return
    }
    ear.shut()
    show({ lines, stage: 'done', findings: findingsOf(lines) })
  }

  function hear(event: EarEvent): void {
    switch (event.type) {
      case 'level': {
        const { level, noise, clipping } = event
        levels = {
          level: Math.max(levels.level, level),
          noise: noise > -90 ? noise : levels.noise,
          isClipped: levels.isClipped || clipping,
        }
        break
      }
      case 'heard':
        if (event.heard.listenId === listenId && event.heard.text !== '') took(event.heard)
        break
      case 'failed':
        show({ stage: 'failed', message: event.failure.message })
        break
      case 'back':
        show({ stage: 'reading', message: '' })
        listen()
        break
    }
  }

  async function end(): Promise<void> {
    running?.abort()
    running = undefined
    await ear.close()
    store.setState(({ ear: shown }) => ({ soundCheck: undefined, ear: { ...shown, state: 'off' } }))
  }

  return {
    end,
    skip: () => took(undefined),
    async begin() {
      if (running) await end()
      running = new AbortController()
      const { signal } = running
      signal.addEventListener('abort', ear.subscribe(hear))
      store.setState({ soundCheck: { stage: 'voice', lines: [], message: '', hasVoice: true } })
      const { pack } = store.getState()
      const [outcome] = await Promise.all([
        voice.speak(say.soundCheck(), 'otherseat', signal),
        ear.open(pack ? vocabularyOf(pack) : SOUND_VOCABULARY),
      ])
      if (signal.aborted || check()?.stage !== 'voice') return
      show({ hasVoice: outcome !== 'failed', stage: 'reading' })
      listen()
    },
  }
}
