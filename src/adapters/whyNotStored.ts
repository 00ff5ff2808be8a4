/** What a browser's refusal to store something means, in words. */

const REFUSED = ['SecurityError', 'InvalidStateError', 'NotAllowedError', 'UnknownError', 'ReferenceError']

/** `what` in the plural or not: "the log", "your packs". */
export function whyNotStored(error: unknown, what: string): string {
  const { name, message } = error instanceof Error ? error : { name: '', message: String(error) }
  if (name === 'QuotaExceededError') {
    return `The browser has no room left for ${what}. Free some space, or allow this site more.`
  }
  if (REFUSED.includes(name)) {
    return `The browser does not let this page store ${what} (a private window, or storage is off): ${message}`
  }
  return `The browser cannot store ${what}: ${message}`
}
