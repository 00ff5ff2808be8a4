/** The recogniser in Node, for the command line, tests and benchmarks: files instead of a microphone. */

import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import createModule from 'soundswallower'
import type { Grammar } from '../../kernel/hearing/expansion.ts'
import { wordsNeeded } from '../../kernel/hearing/grammar.ts'
import type { Hearable, Vocabulary } from '../../kernel/hearing/hearable.ts'
import type { Heard } from '../../kernel/hearing/heard.ts'
import { type Denoiser, joined, loadDenoiser } from './audio/denoise.ts'
import { FRAME, FRAME_MS } from './audio/frame.ts'
import { VoicingMeter } from './audio/voicing.ts'
import { readWav } from './audio/wav.ts'
import { Look } from './recogniser/decodePass.ts'
import type { Decoded, ModelFiles } from './recogniser/decoder.ts'
import { parseDictionary, pronounce } from './recogniser/dictionary.ts'
import { VoiceStudy } from './recogniser/warpEstimator.ts'
import { type Taken, Weigher } from './rescorer/rescorer.ts'
import type { Looks } from './utterance/listening.ts'
import { FURTHER, mayBeUpheld, type Recognition, recognition, settled, upheld } from './utterance/recognition.ts'
import { inWeight, type Weighing } from './utterance/rescoring.ts'
import { type Frame, TIMES, type Utterance, UtteranceFinder, type UtteranceTimes } from './utterance/utteranceFinder.ts'

const packages = createRequire(import.meta.url)
export const MODEL_DIR = join(dirname(packages.resolve('soundswallower')), 'model', 'en-us')
/** The package opens only its own program to others, and its model lies beside that. */
export const WEIGHER_DIR = fileURLToPath(
  new URL('../../../node_modules/@moonshine-ai/moonshine-js/dist/model/tiny/quantized/', import.meta.url),
)
export const DENOISER_WASM = packages.resolve('@jitsi/rnnoise-wasm/dist/rnnoise.wasm')

export type HeardInFile = Omit<Heard, 'order' | 'beganAt' | 'endedAt'> & {
  readonly durationMs: number
  /** 0 to 1: what the two looks have in common. */
  readonly confidence: number
  /** End of the last voiced sample. */
  readonly speechEndMs: number
  readonly decodeMs: number
}

export type RecognisedRecording = Recognition & {
  readonly speechEndMs: number
  /** From the end of the sound to the slower look's result; in a browser the two run side by side. */
  readonly lookMs: number
}
interface Timed<T> {
  readonly decoded: T
  readonly ms: number
}

export interface NodeRecogniser {
  /** Throws where the file cannot be read or is no WAV. */
  hear(file: string, hearable: Hearable): Promise<HeardInFile>
  /** 16 kHz mono, looked at as a whole: what was heard before does not count. */
  recognise(pcm: Float32Array, hearable: Hearable): Promise<RecognisedRecording>
  /** The same while it comes, as in a page that has heard the speaker before. */
  follow(pcm: Float32Array, hearable: Hearable): Promise<RecognisedRecording>
  /** Someone else speaks from now on. */
  forget(): void
  /** Words of the vocabulary that have no pronunciation and cannot be heard. */
  readonly missing: readonly string[]
}

/** The model as the library's package has it. */
export const nodeFiles = (): ModelFiles => ({
  mdef: join(MODEL_DIR, 'mdef'),
  means: join(MODEL_DIR, 'means'),
  variances: join(MODEL_DIR, 'variances'),
  sendump: join(MODEL_DIR, 'sendump'),
  transitions: join(MODEL_DIR, 'transition_matrices'),
  features: join(MODEL_DIR, 'feat_params.json'),
  noiseDictionary: join(MODEL_DIR, 'noisedict.txt'),
  // Words are added one by one; a dictionary that is not there is an empty one.
  dictionary: join(MODEL_DIR, 'none.txt'),
})

/** The weigher's model as its package has it. */
export async function nodeWeigher(): Promise<Weigher> {
  const file = (name: string) => readFile(join(WEIGHER_DIR, name))
  return Weigher.create({ encoder: await file('encoder_model.onnx'), decoder: await file('decoder_model_merged.onnx') })
}

/** Without a weigher it hears as a page does that has not loaded one yet. */
export async function createNodeRecogniser(vocabulary: Vocabulary, weigher?: Weigher): Promise<NodeRecogniser> {
  const dictionary = parseDictionary(await readFile(join(MODEL_DIR, 'dict.txt'), 'utf8'))
  const module = await createModule({ print: () => {}, printErr: () => {} })
  const plain = await Look.create(module, nodeFiles(), 'plain')
  const cleaned = await Look.create(module, nodeFiles(), 'cleaned')
  let study = new VoiceStudy(cleaned)
  const missing = plain.learn(vocabulary, dictionary)
  cleaned.learn(vocabulary, dictionary)
  const newDenoiser = await loadDenoiser(await readFile(DENOISER_WASM))

  const heardIn = (pcm: Float32Array, hearable: Hearable) => {
    const denoiser = newDenoiser()
    const sound = spoken(pcm, denoiser)
    denoiser.free()
    plain.expect(hearable)
    cleaned.expect(hearable)
    return sound
  }
  const slower = (looks: readonly Timed<unknown>[]) => Math.max(...looks.map(({ ms }) => ms))
  /** As the page does it: the sound is taken in while the looks are at work. */
  const weighedBy = async (found: Recognition, looks: readonly Decoded[], { eased }: Spoken, soFarMs: number) => {
    const began = performance.now()
    const taken = await weigher?.take(eased)
    const takenAt = performance.now()
    const weighing = weigher && taken && sayingsOf(weigher, Promise.resolve(taken), plain.grammar)
    const inAll = await inWeight(found, looks, weighing)
    return { inAll, ms: Math.max(soFarMs, takenAt - began) + performance.now() - takenAt }
  }
  const whole = async (sound: Spoken) => {
    const { raw, clean, eased, speechEndMs } = sound
    const pair = [timed(() => plain.at(clean)), timed(() => cleaned.at(clean))] as const
    const [first, second] = [pair[0].decoded, pair[1].decoded]
    const found = recognition(raw, first, second)
    const { inAll, ms } = await weighedBy(found, [first, second], sound, slower(pair))
    if (inAll || !mayBeUpheld(found)) return { ...(inAll ?? found), speechEndMs, lookMs: ms }
    const further = [timed(() => plain.by(FURTHER[0], eased)), timed(() => cleaned.by(FURTHER[1], eased))]
    const inMore = upheld(
      found,
      first,
      further.map(({ decoded }) => decoded),
    )
    return { ...inMore, speechEndMs, lookMs: ms + slower(further) }
  }
  const followedBy = (look: Look, { clean }: Spoken) => {
    look.begin(clean.subarray(0, FRAME))
    for (let at = FRAME; at < clean.length; at += FRAME) look.push(clean.subarray(at, at + FRAME))
    return timed(() => look.end())
  }
  const recognise = (pcm: Float32Array, hearable: Hearable) => whole(heardIn(pcm, hearable))
  const follow = async (pcm: Float32Array, hearable: Hearable) => {
    const sound = heardIn(pcm, hearable)
    const pair = [followedBy(plain, sound), followedBy(cleaned, sound)] as const
    const { decoded: first } = pair[0]
    const followed = settled(sound.raw, first, pair[1].decoded)
    const weighing = followed && first && (await weighedBy(followed, [first], sound, slower(pair)))
    const { speechEndMs } = sound
    const found = weighing ? { ...(weighing.inAll ?? followed), speechEndMs, lookMs: weighing.ms } : await whole(sound)
    if (!found.doubt) studyAtOnce(study, plain)
    return found
  }
  return {
    missing,
    recognise,
    follow,
    forget() {
      plain.forget()
      cleaned.forget()
      study = new VoiceStudy(cleaned)
    },
    async hear(file, hearable) {
      const wav = readWav(await readFile(file))
      if ('problem' in wav) throw new Error(`${file}: ${wav.problem}`)
      const before = performance.now()
      const { text, words, confidence, doubt, alternatives, speechEndMs } = await recognise(wav.pcm, hearable)
      return {
        text,
        words,
        confidence,
        by: 'voice',
        ...(doubt && { doubt }),
        ...(alternatives && { alternatives }),
        durationMs: Math.round(wav.pcm.length / 16),
        speechEndMs,
        decodeMs: Math.round(performance.now() - before),
      }
    },
  }
}

/** Words of a vocabulary that have no pronunciation and cannot be heard; loads no model. */
export async function unpronounced(vocabulary: Vocabulary): Promise<readonly string[]> {
  const dictionary = parseDictionary(await readFile(join(MODEL_DIR, 'dict.txt'), 'utf8'))
  return pronounce(wordsNeeded(vocabulary), dictionary, vocabulary.pronunciations).missing
}

/** All of a recording is one utterance, whatever pauses are in it. */
const FOREVER = Number.POSITIVE_INFINITY
const WHOLE_FILE: UtteranceTimes = {
  ...TIMES,
  ...{ lookMs: FOREVER, fullMs: FOREVER, wholeMs: FOREVER, halfMs: FOREVER, longestMs: FOREVER },
}

interface Spoken extends Pick<Utterance, 'raw' | 'clean' | 'eased'> {
  readonly speechEndMs: number
}

/** The part of a recording in which someone speaks, as it came, and with its noise or some of it taken off; all of it where nobody does. */
export function spoken(pcm: Float32Array, denoiser: Denoiser): Spoken {
  const meter = new VoicingMeter()
  const finder = new UtteranceFinder(WHOLE_FILE)
  const padded = new Float32Array(Math.ceil(pcm.length / FRAME + 2) * FRAME)
  padded.set(pcm)
  const frames: Frame[] = []
  for (let at = 0; at < padded.length; at += FRAME) {
    const raw = padded.subarray(at, at + FRAME)
    const { clean, eased, speech } = denoiser.push(raw)
    const { isVoiced, isOthers, cleanLevel } = meter.measure(raw, clean, speech)
    const frame = { raw, clean, eased, isVoiced, isOthers, level: cleanLevel, at: frames.length * FRAME_MS }
    frames.push(frame)
    finder.push(frame, undefined)
  }
  const found = finder.end()
  if (found?.type === 'ended') return { ...found.utterance, speechEndMs: found.utterance.endedAt }
  const all = (sound: 'clean' | 'eased') => joined(frames.map((frame) => frame[sound]))
  return { raw: pcm, clean: all('clean'), eased: all('eased'), speechEndMs: 0 }
}

function timed<T>(look: () => T): Timed<T> {
  const before = performance.now()
  return { decoded: look(), ms: performance.now() - before }
}

function studyAtOnce(study: VoiceStudy, first: Look): void {
  study.begin()
  while (study.step());
  first.suit(study.scale)
}

/** Both looks in one thread, and the weigher where there is one. */
export function sideBySide(plain: Look, cleaned: Look, weigher?: Weigher): Looks {
  const study = new VoiceStudy(cleaned)
  const both = (act: (look: Look) => void) => [plain, cleaned].forEach(act)
  return {
    expect: ({ hearable }) => both((look) => look.expect(hearable)),
    begin: (pcm) => both((look) => look.begin(pcm)),
    push: (pcm) => both((look) => look.push(pcm)),
    end: () => ({ first: plain.end(), second: Promise.resolve(cleaned.end()) }),
    at: (pcm) => ({ first: plain.at(pcm), second: Promise.resolve(cleaned.at(pcm)) }),
    furtherAt: (pcm) => ({ first: plain.by(FURTHER[0], pcm), second: Promise.resolve(cleaned.by(FURTHER[1], pcm)) }),
    weighing: (pcm) => weigher && sayingsOf(weigher, weigher.take(pcm), plain.grammar),
    understood: () => studyAtOnce(study, plain),
  }
}

function sayingsOf(weigher: Weigher, taken: Promise<Taken>, grammar: Grammar): Weighing {
  return {
    weigh: async (texts) => weigher.weigh(await taken, texts),
    hear: async (beside) => weigher.hear(await taken, grammar, beside),
    hearAnything: async () => weigher.hearAnything(await taken),
  }
}
