/** The library ships no types: an array-like with a shape, and one fractional index for each axis. */
declare module 'ndarray-linear-interpolate' {
  export default function interpolate(
    grid: { readonly shape: readonly number[]; get(...indexes: number[]): number },
    ...indexes: number[]
  ): number
}
