/** What was missed in a run, by where its debrief tells it. */
export interface Missed {
  /** Answers at items: wrong, not whole, or refused as too early. */
  readonly misses: number
  /** The same of calls, read-backs and orders. */
  readonly radioMisses: number
  /** Topics said wrong, and ends called with topics open. */
  readonly briefingMisses: number
  /** Calls of engine starts too soon, out of limits, out of order, late or missing. */
  readonly startDeviations: number
  /** Steps, flows and starts called before their time. */
  readonly early: number
  /** Errors of stations and of the partner that nobody objected to, once the run is over. */
  readonly letGo: number
}
