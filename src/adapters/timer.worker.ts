/** Wakes the page up: timers of a worker go on at full pace where those of a page that is not seen are slowed down. */

/** Sleep stops a timer's own clock: it looks at the time at least this often. */
const LOOK_MS = 1_000

export type ToTimer = { readonly id: number; readonly at: number } | { readonly id: number; readonly at?: undefined }
const timers = new Map<number, ReturnType<typeof setTimeout>>()

self.onmessage = ({ data: { id, at } }: MessageEvent<ToTimer>) => {
  clearTimeout(timers.get(id))
  timers.delete(id)
  if (at !== undefined) wait(id, at)
}

function wait(id: number, at: number): void {
  const left = at - Date.now()
  if (left <= 0) {
    timers.delete(id)
    self.postMessage(id)
  } else
    timers.set(
      id,
      setTimeout(() => wait(id, at), Math.min(left, LOOK_MS)),
    )
}
