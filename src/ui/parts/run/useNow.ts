/** The time of day for what counts up or down on the screen; the clock's own, so that a page that slept is right at once. A frozen run's stands still. */

import { useEffect, useState } from 'preact/hooks'
import { useApp } from '../../useApp.ts'

/** Often enough that no second is seen late. */
const TICK_MS = 200

export function useNow(isRunning: boolean): number {
  const [now, setNow] = useState(Date.now)
  const frozenAt = useApp(({ run }) => (run?.frozen ? run.startedAt + run.frozen.since : undefined))
  useEffect(() => {
    if (!isRunning) return
    setNow(Date.now())
    const timer = setInterval(() => setNow(Date.now()), TICK_MS)
    return () => clearInterval(timer)
  }, [isRunning])
  return frozenAt ?? now
}
