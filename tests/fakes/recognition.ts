/**
 * A browser's speech recognition for tests. It follows the order of events of the Web Speech API (draft report of
 * the W3C Speech API community group): start, audiostart, soundstart, speechstart, result, speechend, soundend,
 * audioend, end; a test says what is heard, or what goes wrong, and what then does not come.
 */

import type { RecognitionMaker } from '../../src/adapters/ear/browser/webSpeech.ts'

export interface FakeRecognition {
  readonly maker: RecognitionMaker
  /** Every object that was made, newest last. */
  readonly made: readonly {
    readonly phrases: readonly object[]
    readonly processLocally: boolean
    readonly maxAlternatives: number
    readonly isStarted: () => boolean
  }[]
  /** It begins to listen, where it was asked to. */
  begins(): void
  /** Hears something; texts best first, each with its confidence. */
  hears(...texts: readonly (readonly [text: string, confidence: number])[]): void
  interim(text: string): void
  fails(error: string, then: 'end' | 'nothing'): void
  ends(): void
}

export function createFakeRecognition(
  status: AvailabilityStatus = 'available',
  options: { readonly refusesStart?: boolean } = {},
): FakeRecognition {
  class Fake extends EventTarget {
    lang = ''
    continuous = false
    interimResults = false
    maxAlternatives = 1
    processLocally = false
    phrases: readonly object[] = []
    started = false
    isStarted = () => this.started
    start() {
      if (options.refusesStart) throw new DOMException('it is not allowed here', 'InvalidStateError')
      this.started = true
    }
    stop() {
      for (const type of ['audioend', 'end']) this.dispatchEvent(new Event(type))
      this.started = false
    }
    abort() {
      this.started = false
    }
    static available = async () => status
    static install = async () => false
  }
  const made: Fake[] = []
  const maker = new Proxy(Fake, {
    construct(target) {
      const one = new target()
      made.push(one)
      return one
    },
  }) as unknown as RecognitionMaker
  const send = (...types: readonly string[]) => {
    for (const type of types) made.at(-1)?.dispatchEvent(new Event(type))
  }
  const result = (texts: readonly (readonly [string, number])[], isFinal: boolean) => {
    const alternatives = texts.map(([transcript, confidence]) => ({ transcript, confidence }))
    const event = { results: [Object.assign(alternatives, { isFinal })], resultIndex: 0 }
    made.at(-1)?.dispatchEvent(Object.assign(new Event('result'), event))
  }
  return {
    maker,
    made,
    begins: () => send('start', 'audiostart'),
    interim(text) {
      send('soundstart', 'speechstart')
      result([[text, 0]], false)
    },
    hears(...texts) {
      send('soundstart', 'speechstart')
      result(texts, true)
      send('speechend', 'soundend', 'audioend', 'end')
    },
    fails(error, then) {
      made.at(-1)?.dispatchEvent(Object.assign(new Event('error'), { error, message: '' }))
      if (then === 'end') send('audioend', 'end')
    },
    ends: () => send('audioend', 'end'),
  }
}
