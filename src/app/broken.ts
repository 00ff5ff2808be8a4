/** What broke in the page, as it is told: nothing is sent anywhere. */

export interface Broken {
  /** One sentence. */
  readonly message: string
  /** Where, for whoever mends it; empty where nothing is known. */
  readonly details: string
}

/** Undefined for what is no fault of the app's: a browser's own notice, or a script of an extension. */
export function brokenBy(error: unknown, from = ''): Broken | undefined {
  const message = error instanceof Error ? error.message : String(error ?? '')
  const details = error instanceof Error ? (error.stack ?? '') : ''
  if (/^ResizeObserver loop/.test(message) || /-extension:\/\//.test(`${from} ${details}`)) return undefined
  return { message: toldAs(message), details }
}

/** Browsers word differently that a part of a page was not there to be fetched. */
function toldAs(message: string): string {
  const isFetch = /dynamically imported module|importing a module script|error loading dynamically/i.test(message)
  if (isFetch) return 'A part of the page could not be fetched: the server does not answer, or has a newer edition.'
  return message === '' ? 'No reason was given.' : message
}
