/** Milliseconds from the start of a run as minutes and seconds: "3:07". */
export function clockTime(ms: number): string {
  const seconds = Math.round(ms / 1000)
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`
}

/** "7 min 39 s", "1 h 2 min": how long something lasted, where it stands alone. */
export function lengthWords(ms: number): string {
  const seconds = Math.max(0, Math.round(ms / 1_000))
  const [h, min, s] = [Math.floor(seconds / 3_600), Math.floor(seconds / 60) % 60, seconds % 60]
  if (h > 0) return `${h} h ${min} min`
  return min > 0 ? `${min} min ${s} s` : `${s} s`
}
