/** The time of day for what counts up or down on the screen; the clock's own, so that a page that slept is right at once. */

import { useEffect, useState } from 'preact/hooks'

/** Often enough that no second is seen late. */
const TICK_MS = 200

/** `frozenAt`: the time at which everything stands still, in ms since 1970. */
export function useNow(isRunning: boolean, frozenAt?: number): number {
  const [now, setNow] = useState(Date.now)
  const isTicking = isRunning && frozenAt === undefined
  useEffect(() => {
    if (!isTicking) return
    setNow(Date.now())
    const timer = setInterval(() => setNow(Date.now()), TICK_MS)
    return () => clearInterval(timer)
  }, [isTicking])
  return frozenAt ?? now
}
