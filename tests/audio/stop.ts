/** Ways to say stop, in the browser test of it; check data, nothing is tuned on it. */

import { answer, type SpokenAnswer } from './departure.ts'

export const STOPS: readonly SpokenAnswer[] = [
  answer('stop-stop', 'stop'),
  answer('stop-stop-stop', 'stop stop stop', 'kal'),
  answer('stop-emergency', 'emergency stop'),
  answer('stop-push', 'stop the push', 'kal'),
  answer('stop-abort', 'abort'),
  answer('stop-start', 'abort start', 'kal'),
]
