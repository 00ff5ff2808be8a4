/**
 * The browser's own speech synthesis, with voices of this machine only: a remote one would send the
 * text away. What a browser reports is not believed: `start` is no proof of `end`, so each utterance
 * has a time limit from its length, and an error and a limit passed are the same failure.
 */

import type { Clock, VoicedFor } from '../../ports.ts'
import { castFor } from './cast.ts'
import { type Outcome, utter } from './utterance.ts'

export interface Speaker {
  speak(text: string, who: VoicedFor, signal?: AbortSignal): Promise<Outcome>
  /** As in the port. */
  endedAt(): number | undefined
}

export interface BrowserSpeaker extends Speaker {
  /** Voices that may be chosen, by name; empty where there is none. */
  voices(): string[]
  /** Waits a while for the browser to list its voices; says whether there is one. */
  isUsable(): Promise<boolean>
}

export interface BrowserVoiceParts {
  readonly clock: Clock
  /** Name of the voice asked for, or none; and the rate of each. */
  readonly settings: (who: VoicedFor) => { readonly voice: string; readonly rate: number }
  readonly synthesis?: SpeechSynthesis | undefined
}

/** Some browsers fill the list of voices late, some never. */
const VOICES_WITHIN_MS = 1_500
/** Slow synthesisers take a second to begin and about 75 ms for a letter; twice that is given. */
const BEGIN_MS = 3_000
const MS_PER_LETTER = 150

export function createBrowserVoice(parts: BrowserVoiceParts): BrowserSpeaker {
  const { clock, settings, synthesis = globalThis.speechSynthesis } = parts
  let listed: Promise<void> | undefined

  const local = () => (synthesis ? localVoices(synthesis) : [])

  async function isUsable(): Promise<boolean> {
    if (!synthesis) return false
    listed ??= voicesListed(synthesis, clock)
    if (local().length === 0) await listed
    return local().length > 0
  }

  async function speak(text: string, who: VoicedFor, signal?: AbortSignal): Promise<Outcome> {
    const wanted = settings(who)
    const part = castFor(local(), wanted.voice, who)
    if (!synthesis || !part) return 'failed'
    const { voice, pitch } = part
    const rate = wanted.rate * part.rate
    return utter({
      ...{ clock, signal, withinMs: BEGIN_MS + (text.length * MS_PER_LETTER) / rate },
      begin(end) {
        const utterance = new SpeechSynthesisUtterance(text)
        Object.assign(utterance, { voice, lang: voice.lang, pitch, rate })
        utterance.onend = () => end('spoken')
        utterance.onerror = () => end('failed')
        synthesis.speak(utterance)
      },
      silence: () => synthesis.cancel(),
    })
  }

  return {
    isUsable,
    speak,
    // It reports that it has ended, not when.
    endedAt: () => undefined,
    voices: () => local().map((voice) => voice.name),
  }
}

/** English voices of this machine. */
function localVoices(synthesis: SpeechSynthesis): SpeechSynthesisVoice[] {
  return synthesis.getVoices().filter((voice) => voice.localService === true && /^en([-_]|$)/i.test(voice.lang))
}

function voicesListed(synthesis: SpeechSynthesis, clock: Clock): Promise<void> {
  return new Promise((done) => {
    const forget = clock.after(VOICES_WITHIN_MS, done)
    synthesis.addEventListener(
      'voiceschanged',
      () => {
        forget()
        done()
      },
      { once: true },
    )
  })
}
