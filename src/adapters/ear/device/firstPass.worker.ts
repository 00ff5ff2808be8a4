/**
 * The thread of the first pass: it hears the frames, decides, and speaks with the page. Nothing is decided in this file: it
 * joins `Listening` to the pass here, to the second one and to the second model in their threads.
 */

import { expose, proxy, type Remote, wrap } from 'comlink'
import createModule from 'soundswallower'
import { loadDenoiser } from '../audio/denoise.ts'
import type { CapturedFrame } from '../audio/frame.ts'
import { FrameDates } from '../audio/frameDates.ts'
import { DecodePass, FIRST_PASS } from '../recogniser/decodePass.ts'
import { parseDictionary } from '../recogniser/dictionary.ts'
import type { WarpFactor } from '../recogniser/warp.ts'
import { rescorerClient } from '../rescorer/rescorerClient.ts'
import { within } from '../threads.ts'
import { furtherPasses } from '../utterance/furtherPasses.ts'
import { Listening } from '../utterance/listening.ts'
import type { Passes, Recogniser, RecogniserAnywhere } from '../utterance/recogniser.ts'
import { rescoring, type TakeIn } from '../utterance/rescoring.ts'
import type { FirstPassCalls, FirstPassWorker, Page, SecondPassCalls } from './passCalls.ts'
import { profileKeeper } from './profileKeeper.ts'

/** A second pass that takes longer never comes: its thread died without a word, and nothing more would be heard. */
const SECOND_PASS_MS = 15_000

const worker: FirstPassWorker = {
  async load({ files, denoiser, profile }, secondPort, page) {
    const module = await createModule({ print: () => {}, printErr: () => {} })
    const pass = await DecodePass.create(module, files, FIRST_PASS, profile)
    const newDenoiser = await loadDenoiser(await bytesOf(denoiser))
    const second = wrap<SecondPassCalls>(secondPort)
    const broken = (error: unknown) => {
      // The library's errors carry its whole source line.
      void page.broken((error instanceof Error ? error.message : String(error)).slice(0, 200))
    }
    addEventListener('unhandledrejection', ({ reason }) => broken(reason))
    const must = mustAnswer(broken)
    const setWarp = (answer: Promise<WarpFactor>) => void answer.then((warp) => pass.setWarp(warp))
    setWarp(must(second.warp()))

    const passes: Passes = { first: reporting(pass, page), second: anywhere(second, must) }
    let takeIn: TakeIn | undefined
    const listening = new Listening({
      passes,
      opinions: [rescoring((pcm, grammar) => takeIn?.(pcm, grammar)), furtherPasses(passes)],
      denoiser: newDenoiser(),
      taskFor: (hearable) => pass.taskFor(hearable),
      emit: (event) => void page.event(event),
      understood: () => setWarp(must(second.estimateWarp())),
    })

    let clockOffset = 0
    const now = () => Date.now() + clockOffset
    const calls: FirstPassCalls = {
      learn(vocabulary, dictionary) {
        void must(second.learn(vocabulary, dictionary))
        pass.learn(vocabulary, parseDictionary(dictionary))
      },
      /** Frames are dated where they are captured, for here they wait while something is decoded. */
      hearFrames(frames, clockOffsetMs) {
        clockOffset = clockOffsetMs
        const dates = new FrameDates()
        frames.onmessage = ({ data: { pcm, seq, endedAt } }: MessageEvent<CapturedFrame>) => {
          listening.frame(pcm, dates.date(seq, endedAt + clockOffset))
        }
      },
      connectRescorer(port) {
        takeIn = rescorerClient(port, () => void page.event({ type: 'secondModel', state: 'failed' }))
      },
      listen: (order, opensAt) => listening.listen(order, opensAt),
      shut: () => listening.shut(),
      gate: (gate) => listening.gate(gate, now()),
    }
    return proxy(calls)
  },
}
expose(worker)

async function bytesOf(address: string): Promise<ArrayBuffer> {
  const response = await fetch(address)
  if (!response.ok) throw new Error(`${address}: ${response.status}`)
  return response.arrayBuffer()
}

/** The pass here; the page is told when it sets to work, and what it has learned of the speaker. */
function reporting(pass: DecodePass, page: Page): Recogniser {
  const keepProfile = profileKeeper(
    () => pass.profile,
    (profile) => void page.profile(FIRST_PASS.usual, profile),
  )
  const busy = <T>(work: () => T): T => {
    void page.busy()
    const done = work()
    keepProfile()
    return done
  }
  return {
    expect: (task) => busy(() => pass.expect(task)),
    begin: (pcm) => pass.begin(pcm),
    push: (pcm) => pass.push(pcm),
    end: () => busy(() => pass.end()),
    decode: (pcm) => busy(() => pass.decode(pcm)),
    decodeOtherwise: (pcm) => busy(() => pass.decodeOtherwise(pcm)),
  }
}

type Must = <T>(answer: Promise<T>) => Promise<T>

/** Where an answer fails, the ear is broken, and nobody goes on with it. */
const mustAnswer =
  (broken: (error: unknown) => void): Must =>
  (answer) =>
    answer.catch((error: unknown) => {
      broken(error)
      return new Promise<never>(() => {})
    })

/** The pass in the other thread. */
function anywhere(second: Remote<SecondPassCalls>, must: Must): RecogniserAnywhere {
  const soon: Must = (answer) => must(within(SECOND_PASS_MS, answer))
  return {
    expect: (task) => must(second.expect(task)),
    begin: (pcm) => must(second.begin(pcm)),
    push: (pcm) => must(second.push(pcm)),
    end: () => soon(second.end()),
    decode: (pcm) => soon(second.decode(pcm)),
    decodeOtherwise: (pcm) => soon(second.decodeOtherwise(pcm)),
  }
}
