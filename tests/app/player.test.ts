/** A run played back: by the voice port, at its pace, to be stopped and gone through one by one. */

import { describe, expect, it } from 'vitest'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { createPlayer, type ReplayState } from '../../src/app/replay/player.ts'
import { spokenSettings } from '../../src/app/selectors.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import type { Cue } from '../../src/kernel/run/debrief/replay.ts'
import { createFakeVoice } from '../fakes/voice.ts'
import { idle } from './rig.ts'

const cue = (by: Cue['by'], text: string, waitMs: number): Cue => ({ seq: 0, t: 0, by, text, waitMs })
const CUES = [
  cue('otherseat', 'Takeoff trim?', 3_000),
  cue('pilot', 'five two up', 0),
  cue('controller', 'Cleared.', 2_000),
  cue('note', 'A key was pressed', 0),
]

function playing(holds = false) {
  const clock = createVirtualClock()
  const voice = createFakeVoice({ holds })
  let state = {} as ReplayState
  const player = createPlayer({
    ...{ voice, clock, cues: CUES },
    changed: (next) => {
      state = next
    },
  })
  const pass = async (ms: number) => {
    await idle()
    clock.advance(ms)
    await idle()
  }
  return { player, voice, pass, state: () => state, said: () => voice.said.map(({ role, text }) => `${role}: ${text}`) }
}

describe('a replay', () => {
  it('speaks what was spoken, each in its voice and its time, shows the rest, and stops at the end', async () => {
    const { player, pass, state, said } = playing()
    expect(state()).toMatchObject({ at: 0, isPlaying: false })
    player.play()
    await pass(2_999)
    expect(said()).toEqual(['otherseat: Takeoff trim?'])
    await pass(1)
    await pass(0)
    expect(said()).toEqual(['otherseat: Takeoff trim?', 'controller: Cleared.'])
    await pass(2_000)
    await pass(0)
    expect(state()).toMatchObject({ at: 3, isPlaying: false })
    player.play()
    expect(state()).toMatchObject({ at: 0, isPlaying: true })
  })

  it('waits for a voice that takes longer than the pilot did', async () => {
    const { player, voice, pass, state } = playing(true)
    player.play()
    await pass(10_000)
    expect(state().at).toBe(0)
    voice.end()
    await pass(0)
    expect(state().at).toBeGreaterThan(0)
  })

  it('shortens its waits at speed, and has the voice speak faster while it plays', async () => {
    const { player, pass, state } = playing()
    player.speed(4)
    player.play()
    await pass(750)
    expect(state().at).toBeGreaterThan(0)
    const rate = (replay: ReplayState) =>
      spokenSettings({ settings: { ...DEFAULT_SETTINGS, rate: 1.5 }, replay, run: undefined }).rate
    expect(rate(state())).toBe(6)
    expect(rate({ ...state(), isPlaying: false })).toBe(1.5)
  })

  it('can be stopped in the middle of a word, gone through one by one, and goes on from there', async () => {
    const { player, voice, pass, state, said } = playing(true)
    player.play()
    await pass(0)
    player.pause()
    await pass(60_000)
    expect(state()).toMatchObject({ at: 0, isPlaying: false })
    expect(voice.speaking()).toBeUndefined()
    player.to(2)
    player.to(99)
    expect(state().at).toBe(3)
    player.to(2)
    expect(said()).toHaveLength(1)
    player.play()
    await pass(0)
    expect(said().at(-1)).toBe('controller: Cleared.')
  })
})
