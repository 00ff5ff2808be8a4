/** Silence must never look like listening: watches for signs of life from the threads, and for sound that goes on. */

import type { Clock } from '../../../ports.ts'

export interface Watch {
  start(): void
  stop(): void
  /** A sign of life. Levels come about ten times a second. */
  alive(): void
  /** A sign of life after which nothing may come for a while. */
  busy(): void
}

const EVERY_MS = 1000
/**
 * Checks in a row without a sign of life that mean a dead ear. Where a simulator takes the whole processor, a live one may
 * come to nothing for seconds.
 */
const MISSED = 12
/** The same where the sound stands still, which no load does. */
const MISSED_SOUND = 5
/** The same after a thread said that it is busy: several seconds of speech on a slow machine. */
const MISSED_WHILE_BUSY = 40

export function createWatch(
  clock: Clock,
  isSoundRunning: () => boolean,
  died: { soundStopped(): void; threadsSilent(): void },
): Watch {
  let stop = () => {}
  let isAlive = false
  let isBusy = false
  let missed = 0
  let lastCheck = 0

  function again(): void {
    stop = clock.after(EVERY_MS, check)
  }

  function check(): void {
    // A page that was itself held up proves nothing about the others.
    const isLate = clock.now() - lastCheck > 2 * EVERY_MS
    lastCheck = clock.now()
    again()
    const isStopped = !isSoundRunning()
    missed = isAlive || isLate ? 0 : missed + 1
    isAlive = false
    if (missed < (isStopped ? MISSED_SOUND : isBusy ? MISSED_WHILE_BUSY : MISSED)) return
    missed = 0
    if (isStopped) died.soundStopped()
    else died.threadsSilent()
  }

  return {
    start() {
      stop()
      missed = 0
      lastCheck = clock.now()
      again()
    },
    stop: () => stop(),
    alive() {
      isAlive = true
      isBusy = false
    },
    busy() {
      isAlive = true
      isBusy = true
    },
  }
}
