/** How loud the microphone and the room are, while it listens; and when that is too much. */

import { useApp } from '../../useApp.ts'

/** The lowest level that the meter shows, in dBFS. */
const FLOOR = -70
const share = (level: number) => Math.min(1, Math.max(0, (level - FLOOR) / -FLOOR))

export function Level() {
  const level = useApp((state) => Math.round(state.ear.level))
  const noise = useApp((state) => state.ear.noise)
  const isClipping = useApp((state) => state.ear.clipping)
  // A meter that moves while the ear is shut would look like listening.
  const isOn = useApp(({ ear }) => ear.state === 'open' || ear.state === 'hearing')
  if (!isOn) {
    return (
      <>
        <span />
        <span />
      </>
    )
  }
  return (
    <>
      <svg
        class="scale"
        role="img"
        aria-label={`Microphone level ${level} decibels`}
        preserveAspectRatio="none"
        viewBox="0 0 1 1"
      >
        <rect width={share(level)} height="1" />
        <rect class="noise" x={share(noise)} width="0.006" height="1" />
      </svg>
      <span class="small">{isClipping ? 'too loud: move away' : noise > -35 ? 'loud room' : ''}</span>
    </>
  )
}
