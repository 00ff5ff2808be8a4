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

/** Time to look away from the screen: then to read a line takes what a look takes. */
const LOOK_AWAY_MS = 1_500

const NOTHING: Levels = { level: -90, noise: -90, isClipped: false }

export function createSoundCheck({ store, ear, voice, clock }: SoundCheckParts): SoundCheck {
  let running: AbortController | undefined
  let listenId = 0
  let levels = NOTHING
  let shownAt = 0
  let stopWaiting = () => {}

  const check = () => store.getState().soundCheck
  function show(change: Partial<NonNullable<ReturnType<typeof check>>>): void {
    const before = check()
    if (before) store.setState({ soundCheck: { ...before, ...change } })
  }

  /** The pilot looks away; then a tone calls the next line. */
  function put(): void {
    ear.shut()
    // Words of the line before come too late from now on.
    listenId++
    show({ isShown: false })
    stopWaiting()
    stopWaiting = clock.after(LOOK_AWAY_MS, () => void callLine(check()?.lines.length ?? 0))
  }

  async function callLine(at: number): Promise<void> {
    const line = SOUND_PROMPTS[at]
    await voice.tone('soft')
    const now = check()
    if (!line || now?.stage !== 'reading' || now.lines.length !== at || now.isShown) return
    levels = NOTHING
    shownAt = clock.now()
    show({ isShown: true })
    ear.listen({ listenId, hearable: hearableOf(line), after: shownAt })
  }

  function took(heard: Heard | undefined): void {
    const before = check()
    const line = before && SOUND_PROMPTS[before.lines.length]
    if (!line || before.stage !== 'reading') return
    const lines = [...before.lines, promptHeard(line, heard, levels, shownAt)]
    if (lines.length < SOUND_PROMPTS.length) {
      show({ lines })
      put()
      return
    }
    ear.shut()
    stopWaiting()
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
        put()
        break
    }
  }

  async function end(): Promise<void> {
    running?.abort()
    stopWaiting()
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
      store.setState({ soundCheck: { stage: 'voice', lines: [], isShown: false, message: '', hasVoice: true } })
      const { pack } = store.getState()
      const [outcome] = await Promise.all([
        voice.speak(say.soundCheck(), 'otherseat', signal),
        ear.open(pack ? vocabularyOf(pack) : SOUND_VOCABULARY),
      ])
      if (signal.aborted || check()?.stage !== 'voice') return
      show({ hasVoice: outcome !== 'failed', stage: 'reading' })
      put()
    },
  }
}
