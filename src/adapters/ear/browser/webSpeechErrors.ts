/** What each error of the browser's recognition means. Browsers leave its message empty: the code decides. */

import type { EarFailure } from '../../../ports.ts'

/** `again`: nothing is wrong, listen on. `plain`: listen on without contextual phrases. */
export type Remedy = 'again' | 'plain' | EarFailure

const OWN = 'Otherseat goes on with its own recogniser; typing and the buttons work meanwhile.'
const service = (what: string): EarFailure => ({ code: 'service', message: `${what} ${OWN}` })

export function remedyFor(code: string): Remedy {
  switch (code) {
    case 'no-speech':
    case 'aborted':
      return 'again'
    case 'phrases-not-supported':
    case 'bad-grammar':
      return 'plain'
    case 'audio-capture':
      return service("The browser's recognition gets no sound from the microphone.")
    case 'not-allowed':
      return service("The browser's recognition was not allowed the microphone; allow it at the padlock.")
    case 'service-not-allowed':
      return service('This browser does not let a page use its recognition.')
    case 'network':
      return service("The browser's recognition needs the network, and there is none.")
    case 'language-not-supported':
      return service("The browser's recognition does not have English on this device.")
    default:
      return service(`The browser's recognition failed (${code}).`)
  }
}

/** It began and never answered, or never began. */
export const STUCK = service("The browser's recognition does not answer.")
export const ABSENT = service('This browser has no recognition of its own.')
export const AWAY = service('What you say would be sent away, which you have not allowed.')
