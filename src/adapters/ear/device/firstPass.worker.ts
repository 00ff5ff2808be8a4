/**
 * The thread of the first pass: it hears the frames, decides, and speaks with the page. Nothing is decided in this file: it
 * joins `Listening` to the pass here, to the second one and to the second model in their threads.
 */

import { expose, proxy, transfer } from 'comlink'
import createModule from 'soundswallower'
import { loadDenoiser } from '../audio/denoise.ts'
import type { CapturedFrame } from '../audio/frame.ts'
import { FrameDates } from '../audio/frameDates.ts'
import { DecodePass } from '../recogniser/decodePass.ts'
import { parseDictionary } from '../recogniser/dictionary.ts'
import { FIRST_PASS } from '../recogniser/frontEnds.ts'
import type { WarpFactor } from '../recogniser/warp.ts'
import { rescorerClient } from '../rescorer/rescorerClient.ts'
import { Listening } from '../utterance/listening.ts'
import { opinionsOf } from '../utterance/opinions.ts'
import type { Passes, Recogniser } from '../utterance/recogniser.ts'
import type { TakeIn } from '../utterance/rescoring.ts'
import type { FirstPassCalls, FirstPassWorker, Page } from './passCalls.ts'
import { profileKeeper } from './profileKeeper.ts'
import { secondPassClient } from './secondPassClient.ts'

const worker: FirstPassWorker = {
  async load({ files, denoiser, profile }, secondPort, page) {
    const module = await createModule({ print: () => {}, printErr: () => {} })
    const pass = await DecodePass.create(module, files, FIRST_PASS, profile)
    const newDenoiser = await loadDenoiser(await bytesOf(denoiser))
    const broken = (error: unknown) => {
      // The library's errors carry its whole source line.
      void page.broken((error instanceof Error ? error.message : String(error)).slice(0, 200))
    }
    addEventListener('unhandledrejection', ({ reason }) => broken(reason))
    const second = secondPassClient(secondPort, broken)
    const setWarp = (answer: Promise<WarpFactor>) => void answer.then((warp) => pass.setWarp(warp))
    setWarp(second.warp())

    const passes: Passes = { first: reporting(pass, page), second: second.recogniser }
    let takeIn: TakeIn | undefined
    const listening = new Listening({
      passes,
      opinions: opinionsOf(passes, (...sound) => takeIn?.(...sound), pass.pronunciationsOf),
      denoiser: newDenoiser(),
      taskFor: (hearable) => pass.taskFor(hearable),
      emit: (event) => void page.event(event.type === 'sound' ? transfer(event, [event.samples.buffer]) : event),
      understood: () => setWarp(second.estimateWarp()),
    })

    let clockOffset = 0
    const calls: FirstPassCalls = {
      learn(vocabulary, dictionary) {
        second.learn(vocabulary, dictionary)
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
      listen: (request, opensAt) => listening.listen(request, opensAt),
      shut: () => listening.shut(),
      gate: (gate) => listening.gate(gate, Date.now() + clockOffset),
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
