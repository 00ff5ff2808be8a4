/**
 * The app's voice: the browser's where it has a local one, else the embedded ones; whatever fails, the
 * other one tries. Only when both have failed is the text left to the screen.
 */

import type { Role } from '../../kernel/pack/roles.ts'
import type { RadioNoise } from '../../kernel/run/core/events.ts'
import type { Clock, Voice, VoicedFor } from '../../ports.ts'
import { systemClock } from '../clock.ts'
import { type BrowserSpeaker, createBrowserVoice, type Speaker } from './browserVoice.ts'
import { createEmbeddedVoice, type EmbeddedSpeaker } from './embeddedVoice.ts'
import { fetchRecording } from './recording.ts'
import { createSound, type Sound } from './sound.ts'
import { createSynthesis } from './synthesis.ts'
import { startSynthesis } from './synthesisThread.ts'
import { playTone, untilVoiceMs } from './tones.ts'
import type { Outcome } from './utterance.ts'

/** `voice` is the name of a voice of the browser, `embedded`, or empty for the best one there is. */
export interface VoiceSettings {
  readonly voice: string
  readonly rate: number
  /** Stations that are heard by radio sound so, where the voice is an embedded one. */
  readonly radioSound: boolean
  /** Of stations that are heard by radio, where it is another rate, and other noise. */
  readonly byRadio?: { readonly rate: number; readonly noise: RadioNoise }
  /** Where the tones and our own voice are to sound; the browser's own voices sound where the system does. */
  readonly output?: string
}

export interface AppVoice extends Voice {
  /** To be called in a gesture: lets the page sound, and loads what the voice will need, for these texts among others. */
  wake(texts?: readonly string[]): Promise<void>
  /** Names of the browser's voices to choose from, once it has listed them. */
  browserVoices(): Promise<string[]>
}

const EMBEDDED = 'embedded'

export interface VoiceParts {
  readonly settings: () => VoiceSettings
  readonly clock?: Clock
  /** The page's output, where something else plays through it as well. */
  readonly sound?: Sound
}

export function createVoice({ settings, clock = systemClock, ...parts }: VoiceParts): AppVoice {
  const sound = parts.sound ?? createSound(clock, undefined, () => settings().output ?? '')
  const browser = createBrowserVoice({ clock, settings: (who) => ({ ...settings(), rate: rateOf(settings(), who) }) })
  // Waiting for the browser's voices begins with the page, not with the first word.
  void browser.isUsable()
  const embeddedFor = (who: VoicedFor) =>
    createEmbeddedVoice({
      clock,
      sound,
      rate: () => rateOf(settings(), who),
      onRadio: () => {
        const { radioSound, byRadio } = settings()
        if (!BY_RADIO[who]) return undefined
        return byRadio?.noise ?? (radioSound ? 'light' : undefined)
      },
      load: () => fetchRecording(SPOKEN_BY[who]),
      synthesis: createSynthesis(() => startSynthesis(SPOKEN_BY[who])),
    })
  return joinVoices({ settings, clock, sound, browser, embeddedFor })
}

/** The crew and the headset at the nose are on a line of their own. */
const BY_RADIO: Readonly<Record<VoicedFor, boolean>> = {
  otherseat: false,
  pilot: false,
  controller: true,
  broadcast: true,
  groundCrew: false,
}

/** A pilot who is played has the one voice that no pilot talks with. */
const SPOKEN_BY: Readonly<Record<VoicedFor, Role>> = {
  otherseat: 'otherseat',
  pilot: 'broadcast',
  controller: 'controller',
  broadcast: 'broadcast',
  groundCrew: 'groundCrew',
}

export const rateOf = ({ rate, byRadio }: Pick<VoiceSettings, 'rate' | 'byRadio'>, who: VoicedFor): number =>
  (BY_RADIO[who] ? byRadio?.rate : undefined) ?? rate

export interface JoinedParts {
  readonly settings: () => VoiceSettings
  readonly clock: Clock
  readonly sound: Sound
  readonly browser: BrowserSpeaker
  /** Made when it is first to speak for them. */
  readonly embeddedFor: (who: VoicedFor) => EmbeddedSpeaker
}

export function joinVoices({ settings, clock, sound, browser, embeddedFor }: JoinedParts): AppVoice {
  const made = new Map<VoicedFor, EmbeddedSpeaker>()
  const embedded = (who: VoicedFor): EmbeddedSpeaker => {
    const known = made.get(who) ?? embeddedFor(who)
    made.set(who, known)
    return known
  }
  /** The setting under which the browser's voice has failed: it is not waited for again. */
  let failedWith: string | undefined
  /** The one that spoke last. */
  let speaker: Speaker | undefined

  async function wantsBrowser(): Promise<boolean> {
    const { voice } = settings()
    return voice !== EMBEDDED && voice !== failedWith && (await browser.isUsable())
  }

  async function speak(text: string, who: VoicedFor, signal?: AbortSignal): Promise<Outcome> {
    if (await wantsBrowser()) {
      if (signal?.aborted) return 'cancelled'
      const { voice } = settings()
      speaker = browser
      const outcome = await browser.speak(text, who, signal)
      if (outcome !== 'failed') return outcome
      failedWith = voice
    }
    if (signal?.aborted) return 'cancelled'
    speaker = embedded(who)
    return speaker.speak(text, who, signal)
  }

  return {
    get name() {
      return speaker === browser ? settings().voice || 'browser' : EMBEDDED
    },
    speak,
    endedAt: () => speaker?.endedAt(),
    async tone(name) {
      const context = await sound.running()
      if (!context) return
      playTone(context, name)
      await new Promise<void>((ended) => clock.after(untilVoiceMs(name), ended))
    },
    async wake(texts = []) {
      await sound.running()
      if (!(await wantsBrowser())) await embedded('otherseat').prepare(texts)
    },
    async browserVoices() {
      return (await browser.isUsable()) ? browser.voices() : []
    },
  }
}
