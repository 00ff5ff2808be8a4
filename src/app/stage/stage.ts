/**
 * A prepared run, played to a room by two voices: Otherseat's, and one for the pilot. It stops at the places that were marked and
 * goes on by a key. Its screens are those of a run shown to a room, so it has a store of its own for them; nothing listens meanwhile.
 */

import type { RunState } from '../../kernel/run/core/state.ts'
import type { Clock, Voice } from '../../ports.ts'
import type { Settings } from '../settings.ts'
import { createAppStore, type Store } from '../store.ts'
import { type Beat, beatsOf, MS_PER_WORD, type Scene } from './beats.ts'
import type { Prepared } from './prepared.ts'
import type { StageChoices, StageState } from './stageState.ts'

export interface Stage {
  /** What the parts of the screen show that show a run. */
  readonly store: Store
  state(): StageState
  /** Stops, or goes on; from its end it begins again. */
  freeze(): void
  /** To the place before, or the next one, at which it stops. */
  back(): void
  on(): void
  choose(choices: StageChoices): void
  close(): void
}

export interface StageParts {
  readonly prepared: Prepared
  readonly voice: Pick<Voice, 'speak'>
  readonly clock: Clock
  readonly settings: Settings
  readonly choices: StageChoices
  /** Called with each change of its state. */
  readonly changed: (state: StageState) => void
}

/** Stands frozen at its beginning. */
export function createStage(parts: StageParts): Stage {
  const { prepared, voice, clock, settings, changed } = parts
  const beats = beatsOf(prepared)
  const store = createAppStore({ pack: prepared.pack, settings, screen: 'run' })
  let { choices } = parts
  /** Of the beat that is on, or next. */
  let at = 0
  let isFrozen = true
  let words = ''
  let turn = new AbortController()

  const stopsAt = (beat: Beat | undefined): boolean =>
    beat?.type === 'asks'
      ? choices.asksRoom
      : beat?.type === 'stops' &&
        (beat.at === 'marked' || choices.stops === 'answers' || (choices.stops === 'misses' && beat.at === 'misses'))

  async function play(mine: AbortSignal): Promise<void> {
    for (let beat = beats[at]; beat && !mine.aborted; beat = beats[at]) {
      await done(beat, mine)
      if (mine.aborted) return
      at += 1
      if (stopsAt(beat)) return stand(beat)
    }
    if (!mine.aborted) stand(undefined)
  }

  async function done(beat: Beat, mine: AbortSignal): Promise<void> {
    switch (beat.type) {
      case 'wait':
        return waiting(beat.ms, mine)
      case 'says': {
        const { who, text } = beat
        if (who === 'pilot') hearing(text)
        else store.setState({ voice: { speaking: text, role: who, failed: false } })
        // Where there is no voice, the room reads.
        if ((await voice.speak(text, who, mine)) === 'failed') await waiting(text.split(' ').length * MS_PER_WORD, mine)
        store.setState(({ voice: last }) => ({ voice: { ...last, speaking: '' } }))
        return
      }
      case 'shows':
        show(beat.scene)
        return tell()
      case 'asks':
      case 'stops':
        return undefined
    }
  }

  function waiting(ms: number, signal: AbortSignal): Promise<void> {
    return new Promise((isOver) => {
      const leave = clock.after(ms, isOver)
      signal.addEventListener('abort', () => {
        leave()
        isOver()
      })
    })
  }

  const hearing = (soFar: string) => store.setState(({ ear }) => ({ ear: { ...ear, soFar } }))

  let shown: Scene | undefined
  function show(scene: Scene): void {
    shown = scene
    const { run, t, answered, revisions } = scene
    const { frozen: _, ...state } = run
    hearing('')
    // Its clocks show the time that they showed then.
    const startedAt = clock.now() - t
    store.setState({ run: { ...state, startedAt, demonstration: choices }, answered, revisions })
  }

  /** It stands still at a beat; undefined: wherever it is. */
  function stand(beat: Beat | undefined): void {
    isFrozen = true
    words = beat?.type === 'stops' ? beat.words : ''
    hearing('')
    if (beat?.type === 'asks') {
      const { before, text, by } = beat
      show(before)
      freezeAt(before.t, { by, text, listenId: 0 })
    } else freezeAt(beat && shown ? shown.t : undefined)
    tell()
  }

  /** `since`: ms from the start of the run; left out: now. */
  function freezeAt(since: number | undefined, said?: NonNullable<RunState['frozen']>['said']): void {
    store.setState(({ run }) => {
      if (!run) return {}
      const frozen = { since: since ?? clock.now() - run.startedAt, effects: [], ...(said && { said }) }
      return { run: { ...run, frozen } }
    })
  }

  function goOn(): void {
    isFrozen = false
    words = ''
    if (at >= beats.length) at = 0
    if (shown) show(shown)
    tell()
    turn = new AbortController()
    void play(turn.signal)
  }

  /** Stands where it would have stopped, with what was shown by then. */
  function standAt(index: number | undefined): void {
    if (index === undefined) return
    turn.abort()
    at = index + 1
    const before = beats.slice(0, at).findLast((beat) => beat.type === 'shows')
    if (before?.type === 'shows') show(before.scene)
    stand(beats[index])
  }

  const places = () => beats.flatMap((beat, index) => (stopsAt(beat) ? [index] : []))
  /** Standing at a place, `at` is behind it. */
  const placeBefore = () => places().findLast((index) => index < at - 1)
  const placeAfter = () => places().find((index) => index >= at)

  function state(): StageState {
    const isOver = isFrozen && at >= beats.length
    return {
      words,
      note: shown?.note ?? '',
      isOver,
      hasBack: placeBefore() !== undefined,
      hasOn: placeAfter() !== undefined,
    }
  }
  const tell = () => changed(state())

  const first = beats.find((beat) => beat.type === 'shows')
  if (first?.type === 'shows') show(first.scene)
  freezeAt(shown?.t)
  return {
    ...{ store, state },
    freeze() {
      if (isFrozen) return goOn()
      turn.abort()
      stand(undefined)
    },
    back: () => standAt(placeBefore()),
    on: () => standAt(placeAfter()),
    choose(next) {
      choices = next
      store.setState(({ run }) => (run ? { run: { ...run, demonstration: next } } : {}))
      tell()
    },
    close: () => turn.abort(),
  }
}
