/**
 * Many utterances for the ear's workers in a real browser, faster than they could be said: recordings as frames, as
 * the audio thread sends them. All of it runs in the page.
 */

import type { Vocabulary } from '../../src/kernel/hearing/hearable.ts'

type Passes = typeof import('../../src/adapters/ear/device/passThreads.ts')
type RescorerThreads = typeof import('../../src/adapters/ear/rescorer/rescorerThread.ts')
type Files = typeof import('../../src/adapters/ear/device/modelFiles.ts')
type Dictionaries = typeof import('../../src/adapters/ear/recogniser/dictionaryFor.ts')
type Frames = typeof import('../../src/adapters/ear/audio/frame.ts')
type Wav = typeof import('../../src/adapters/ear/audio/wav.ts')

export interface HeardOfMany {
  readonly text: string
  readonly soundMs: number
  /** From the first frame handed over to the event. */
  readonly workMs: number
}

declare global {
  interface Window {
    hearNext(index: number): Promise<HeardOfMany>
  }
}

async function prepare({ vocabulary, recordings }: { vocabulary: Vocabulary; recordings: readonly string[] }) {
  const [{ startPasses }, { startRescorer }, { fetchModel }, { dictionaryFor }, { FRAME, FRAME_MS }, { readWav }] =
    await Promise.all([
      window.bring<Passes>('/adapters/ear/device/passThreads.ts'),
      window.bring<RescorerThreads>('/adapters/ear/rescorer/rescorerThread.ts'),
      window.bring<Files>('/adapters/ear/device/modelFiles.ts'),
      window.bring<Dictionaries>('/adapters/ear/recogniser/dictionaryFor.ts'),
      window.bring<Frames>('/adapters/ear/audio/frame.ts'),
      window.bring<Wav>('/adapters/ear/audio/wav.ts'),
    ])
  /** After each recording: ends any answer. */
  const SILENCE = 16_000
  const SHAPES = [
    [{ kind: 'digits', length: 4 } as const],
    [{ kind: 'trim', decimals: 1 } as const],
    [{ kind: 'speed' } as const],
    [],
  ]
  const sounds = recordings.map((base64) => {
    const wav = readWav(Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)))
    if ('problem' in wav) throw new Error(wav.problem)
    const padded = new Float32Array(Math.ceil((wav.pcm.length + SILENCE) / FRAME) * FRAME)
    padded.set(wav.pcm)
    return padded
  })
  const modelBase = new URL('/model/', location.href).href
  const model = await fetchModel(modelBase, () => {})
  let heard: (text: string) => void = () => {}
  const passes = await startPasses({
    model,
    profiles: { get: () => undefined, set: () => {} },
    event: (event) => {
      if (event.type === 'heard') heard(event.heard.text)
    },
    busy: () => {},
    broken: () => {
      throw new Error('the recogniser broke')
    },
  })
  await passes.learn(vocabulary, await dictionaryFor(vocabulary, model.words, modelBase))
  const rescorer = (await startRescorer(modelBase)).connect()
  await passes.connectRescorer(rescorer)
  const { port1, port2 } = new MessageChannel()
  await passes.hearFrames(port1, 0)
  let seq = 0
  const startedAt = Date.now()
  window.hearNext = async (index) => {
    const sound = sounds[index % sounds.length] ?? new Float32Array(0)
    const shapes = SHAPES[index % SHAPES.length] ?? []
    const request = { listenId: index, hearable: { shapes, yesNo: false }, after: 0 }
    void passes.listen(request, 0)
    const began = performance.now()
    const text = new Promise<string>((resolve) => {
      heard = resolve
      // Nothing may be found in a recording that has another shape; the next one follows.
      setTimeout(() => resolve(''), 20_000)
    })
    for (let at = 0; at < sound.length; at += FRAME) {
      const pcm = sound.slice(at, at + FRAME)
      port2.postMessage({ seq, endedAt: startedAt + ++seq * FRAME_MS, pcm }, [pcm.buffer])
    }
    return { text: await text, soundMs: sound.length / 16, workMs: performance.now() - began }
  }
}

async function hear({ from, count }: { from: number; count: number }): Promise<HeardOfMany[]> {
  const all: HeardOfMany[] = []
  for (let index = from; index < from + count; index++) all.push(await window.hearNext(index))
  return all
}

/** To be called in the page; `from` goes on where an earlier call ended. */
export const hearMany = { prepare, hear }
