/** Names of sources as people read them: "flightComputer" is the flight computer. */

export function sourceName(source: string): string {
  return source.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase()
}
