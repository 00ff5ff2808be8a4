/**
 * The browser's own recognition as an ear, for a pilot who chooses it. It is given the whole vocabulary at most, never what
 * is right; several alternatives are passed on. Whatever it does, the run goes on: its reports are not trusted, every
 * wait has a limit, and every failure is one line.
 */

import type { Vocabulary } from '../../../kernel/hearing/hearable.ts'
import type { Heard } from '../../../kernel/hearing/heard.ts'
import type { EarFailure, EarState } from '../../../ports.ts'
import type { EarKind, EarParts, WayOfHearing } from '../ear.ts'
import {
  bringHome,
  findRecognition,
  LANGUAGE,
  type PhraseMaker,
  placeOf,
  type Recognition,
  type RecognitionMaker,
} from './webSpeech.ts'
import { ABSENT, AWAY, remedyFor, STUCK } from './webSpeechErrors.ts'

/** What the browser has. */
export interface BrowserParts {
  readonly recognition: RecognitionMaker | undefined
  readonly phrase: PhraseMaker | undefined
}

export const BROWSER_EAR: EarKind = {
  async offer() {
    const place = await placeOf(findRecognition())
    if (place === 'none') return undefined
    const label = "The browser's recognition"
    if (place === 'device') return { label, about: 'on this device', hasSecondModel: false }
    return {
      label,
      about: 'may send what you say to its maker',
      hasSecondModel: false,
      away: {
        note: 'The browser may send what you say to its maker.',
        reason:
          'This browser recognises speech elsewhere, and needs the network for it. The recogniser that comes with Otherseat sends nothing.',
      },
    }
  },
  create: (parts) => createBrowserEar(parts, browserParts()),
}

const browserParts = (): BrowserParts => ({
  recognition: findRecognition(),
  phrase: (globalThis as { SpeechRecognitionPhrase?: PhraseMaker }).SpeechRecognitionPhrase,
})

/** From `start()` to any sign of life. */
const SIGN_MS = 5_000
/** Browsers end by themselves after some seconds; one that is silent for longer has died. */
const SILENT_MS = 60_000
/** A restart at once would be a storm where it fails at once. */
const AGAIN_MS = 150
const FETCH_MS = 60_000
const ENDS_IN_A_ROW = 12
const ALTERNATIVES = 5

export function createBrowserEar(
  { clock, settings, asked, emit }: Pick<EarParts, 'clock' | 'settings' | 'asked' | 'emit'>,
  { recognition: maker, phrase }: BrowserParts,
): WayOfHearing {
  const mayLeave = () => settings().soundMayLeave
  let state: EarState = 'off'
  let isLocal = false
  let isPlain = false
  let current: Recognition | undefined
  let quickEnds = 0
  let forget = () => {}

  const become = (next: EarState) => {
    if (next === state) return
    state = next
    emit({ type: 'state', state })
  }

  function drop(): void {
    forget()
    const dropped = current
    current = undefined
    // It may throw where it was never started; its events are nobody's any more.
    try {
      dropped?.abort()
    } catch {}
  }

  function fail(failure: EarFailure): void {
    drop()
    become('failed')
    emit({ type: 'failed', failure })
  }

  function limit(ms: number, then: () => void): void {
    forget()
    forget = clock.after(ms, then)
  }

  function again(): void {
    drop()
    const { request, gate } = asked()
    if (request && gate === 'open') limit(AGAIN_MS, start)
    else become('shut')
  }

  function start(): void {
    drop()
    const { vocabulary, request, gate } = asked()
    if (!maker || !request || gate !== 'open' || state === 'failed') return
    const mine = new maker()
    current = mine
    mine.lang = LANGUAGE
    mine.interimResults = true
    mine.maxAlternatives = ALTERNATIVES
    if (isLocal) mine.processLocally = true
    if (phrase && vocabulary && !isPlain && 'phrases' in mine) mine.phrases = allPhrases(vocabulary, phrase)
    hear(mine, request.listenId)
    limit(SIGN_MS, () => fail(STUCK))
    try {
      mine.start()
    } catch {
      fail(STUCK)
    }
  }

  /** Its events, in the specification's order; each may be missing. */
  function hear(mine: Recognition, listenId: number): void {
    const began = clock.now()
    let beganAt: number | undefined
    const on = (type: string, heard: (event: Event) => void) =>
      mine.addEventListener(type, (event) => {
        if (current !== mine) return
        limit(SILENT_MS, again)
        heard(event)
      })
    on('start', () => become('open'))
    on('speechstart', () => {
      beganAt = clock.now()
      become('hearing')
      emit({ type: 'speechBegan', listenId, at: beganAt })
    })
    on('result', (event) => {
      quickEnds = 0
      const { results, resultIndex } = event as SpeechRecognitionEvent
      const result = results[resultIndex]
      const [best] = result ? texts(result) : []
      if (!result || !best) return
      if (!result.isFinal) return emit({ type: 'soFar', listenId, text: best.text })
      const [, ...alternatives] = texts(result)
      const times = { beganAt: beganAt ?? began, endedAt: clock.now() }
      const heard: Heard = { listenId, by: 'voice', ...best, ...times }
      emit({ type: 'heard', heard: alternatives.length > 0 ? { ...heard, alternatives } : heard })
    })
    on('error', (event) => {
      const remedy = remedyFor((event as SpeechRecognitionErrorEvent).error)
      if (remedy === 'plain') isPlain = true
      // Some browsers send no `end` after an error.
      if (typeof remedy === 'string') ended()
      else fail(remedy)
    })
    on('end', ended)
  }

  function ended(): void {
    quickEnds += 1
    if (quickEnds > ENDS_IN_A_ROW) fail(STUCK)
    else again()
  }

  /** Where the browser could have its language here, it is asked for it, and not waited for without end. */
  const fetched = (maker: RecognitionMaker) =>
    Promise.race([bringHome(maker), new Promise<false>((late) => clock.after(FETCH_MS, () => late(false)))])

  return {
    async open() {
      become('loading')
      const place = await placeOf(maker)
      if (!maker || place === 'none') return fail(ABSENT)
      isLocal = place === 'device' || (!mayLeave() && (await fetched(maker)))
      if (!isLocal && !mayLeave()) return fail(AWAY)
      become('shut')
      start()
    },
    listen() {
      quickEnds = 0
      if (state !== 'off' && state !== 'loading') start()
    },
    shut() {
      drop()
      if (state !== 'failed' && state !== 'off') become('shut')
    },
    gate(next) {
      if (next === 'open') start()
      // What was being said is whole: the browser gives it as a result, then ends.
      else if (next === 'ended') current?.stop()
      else again()
    },
    async close() {
      drop()
      become('off')
    },
  }
}

/** Best first; a confidence of nothing is none. */
function texts(result: SpeechRecognitionResult): { readonly text: string; readonly score?: number }[] {
  return Array.from({ length: result.length }, (_, index) => result[index])
    .flatMap((one) => (one ? [{ text: one.transcript.trim(), score: one.confidence }] : []))
    .filter(({ text }) => text !== '')
    .map(({ text, score }) => (score > 0 ? { text, score } : { text }))
}

/** The whole vocabulary alike: a weight on some of it would favour them (law 2). */
function allPhrases({ phrases, commands, lists, others, challenges, talk }: Vocabulary, maker: PhraseMaker): object[] {
  return [...new Set([...phrases, ...commands, ...lists, ...others, ...challenges, ...talk])].map(
    (text) => new maker(text, 1),
  )
}
