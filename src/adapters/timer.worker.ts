/** Wakes the page: a worker's timers keep full pace where a hidden page's are throttled. */

/** Sleep stops a timer's own clock, so the time is checked at least this often. */
const CHECK_MS = 1_000

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
      setTimeout(() => wait(id, at), Math.min(left, CHECK_MS)),
    )
}
