/** Waits for a condition, in tests and benchmarks alike. */

/** What `what` gives as soon as that is something; throws where it never is. */
export async function until<T>(what: () => Promise<T> | T, timeoutMs: number, everyMs = 50): Promise<NonNullable<T>> {
  for (const end = Date.now() + timeoutMs; ; ) {
    const got = await what()
    if (got) return got
    if (Date.now() > end) throw new Error(`nothing came within ${timeoutMs / 1_000} seconds`)
    await new Promise((done) => setTimeout(done, everyMs))
  }
}
