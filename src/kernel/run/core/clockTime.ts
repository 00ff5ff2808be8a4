/** Milliseconds from the start of a run as minutes and seconds: "3:07". */
export function clockTime(ms: number): string {
  const seconds = Math.round(ms / 1000)
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`
}
