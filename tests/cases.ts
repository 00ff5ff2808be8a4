/** A mutation run puts each test many times and so makes up fewer cases: `CASES_SHARE` of them, 0 to 1. */

const share = Number(process.env.CASES_SHARE ?? 1)

/** How many cases a test makes up where it usually makes up `count`. */
export const cases = (count: number) => Math.max(1, Math.round(count * share))
