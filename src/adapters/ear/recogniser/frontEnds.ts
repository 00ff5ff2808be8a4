/** Front ends: how a sound is made ready for the acoustic model. */

/**
 * `plain` takes the sound as it is; `cleaned` has the library's own noise removal work on it; `shifted` moves the filters,
 * as if another speaker had said it.
 */
export type FrontEnd = 'plain' | 'cleaned' | 'shifted'

/** The front end by which a pass decodes, and the one by which it decodes otherwise. */
export interface PassFrontEnds {
  readonly usual: FrontEnd
  readonly otherwise: FrontEnd
}
export const FIRST_PASS: PassFrontEnds = { usual: 'plain', otherwise: 'plain' }
export const SECOND_PASS: PassFrontEnds = { usual: 'cleaned', otherwise: 'shifted' }
