/** Weight and CG envelopes: placeholder until drawn. */
export function Envelopes(_: object) {
  return null
}
