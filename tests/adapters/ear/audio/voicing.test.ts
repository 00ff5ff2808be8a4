import { describe, expect, it } from 'vitest'
import { VoicingMeter } from '../../../../src/adapters/ear/audio/voicing.ts'

const FRAME_MS = 30
const frame = (dBFS: number) => new Float32Array(480).fill(10 ** (dBFS / 20))

/** So much of speech at a level, after a second of a quiet room; the last frame's measure. */
function room() {
  const meter = new VoicingMeter()
  const sound = (dBFS: number, speech: number, ms: number, isListenedTo = true) => {
    let last = meter.measure(frame(dBFS), frame(dBFS), speech, isListenedTo)
    for (let at = FRAME_MS; at < ms; at += FRAME_MS)
      last = meter.measure(frame(dBFS), frame(dBFS), speech, isListenedTo)
    return last
  }
  sound(-80, 0.02, 1_000)
  return { speak: (dBFS: number, ms = 300, isListenedTo = true) => sound(dBFS, 0.95, ms, isListenedTo), sound }
}

describe('the voice at the microphone', () => {
  it('is told from that of others in the room, who are twenty decibels fainter', () => {
    const { speak } = room()
    expect(speak(-20)).toMatchObject({ isVoiced: true, isOthers: false })
    expect(speak(-40)).toMatchObject({ isVoiced: false, isOthers: true })
    expect(speak(-20)).toMatchObject({ isVoiced: true, isOthers: false })
  })

  it('may have weak sounds', () => {
    const { speak } = room()
    speak(-20)
    expect(speak(-33)).toMatchObject({ isVoiced: true })
  })

  it('is heard again after a few seconds where who speaks has moved away', () => {
    const { speak, sound } = room()
    speak(-20)
    sound(-80, 0.02, 3_000)
    expect(speak(-42)).toMatchObject({ isVoiced: true })
  })

  it('is heard at once after the app’s own, however loud that was', () => {
    const { speak } = room()
    speak(-10, 2_000, false)
    expect(speak(-35, 30)).toMatchObject({ isVoiced: true, isOthers: false })
  })
})
