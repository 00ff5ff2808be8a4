export interface SpokenElement {
  readonly id: string
  /** In the response notation. */
  readonly response: string
}
