/** What the browser's own speech recognition offers: where it listens, and what is missing from its types. */

/** Web Speech API, draft of 2025: contextual biasing, which the published types do not have yet. */
export interface Recognition extends SpeechRecognition {
  phrases?: readonly object[]
}
export type RecognitionMaker = Pick<typeof SpeechRecognition, 'prototype'> & {
  new (): Recognition
  available?: typeof SpeechRecognition.available
  install?: typeof SpeechRecognition.install
}
export type PhraseMaker = new (phrase: string, boost: number) => object

/** `device`: nothing leaves it. `away`: the browser may send what is said to its maker. */
export type RecognitionPlace = 'none' | 'device' | 'away'

export const LANGUAGE = 'en-US'
const ON_DEVICE = { langs: [LANGUAGE], processLocally: true }

export function findRecognition(scope: object = globalThis): RecognitionMaker | undefined {
  const { SpeechRecognition, webkitSpeechRecognition } = scope as Record<string, RecognitionMaker | undefined>
  return SpeechRecognition ?? webkitSpeechRecognition
}

/** A browser says "available" for what it would do elsewhere even without a network: only the device's own counts. */
export async function placeOf(maker: RecognitionMaker | undefined): Promise<RecognitionPlace> {
  if (!maker) return 'none'
  const status = await maker.available?.(ON_DEVICE).catch(() => undefined)
  return status === 'available' ? 'device' : 'away'
}

/** Asks the browser to fetch its language for this device; false where it cannot. It may take minutes. */
export async function bringHome(maker: RecognitionMaker): Promise<boolean> {
  const status = await maker.available?.(ON_DEVICE).catch(() => undefined)
  if (status !== 'downloadable' && status !== 'downloading') return status === 'available'
  return (await maker.install?.(ON_DEVICE).catch(() => false)) ?? false
}
