/** The recogniser's files as they are served: what they are called, and fetching each of them once. */

import type { ModelFiles } from '../recogniser/decoder.ts'

/** Served name -> share of the download, for showing progress. Sizes are those of soundswallower 0.6.3. */
const PARTS = {
  mdef: { name: 'en-us/mdef', bytes: 2_953_980 },
  sendump: { name: 'en-us/sendump', bytes: 1_969_024 },
  means: { name: 'en-us/means', bytes: 838_732 },
  variances: { name: 'en-us/variances', bytes: 838_732 },
  transitions: { name: 'en-us/transition_matrices', bytes: 2_080 },
  features: { name: 'en-us/feat_params.json', bytes: 200 },
  noiseDictionary: { name: 'en-us/noisedict.txt', bytes: 100 },
  denoiser: { name: 'rnnoise.wasm', bytes: 112_141 },
  words: { name: 'en-us/words.txt', bytes: 30_000 },
} as const
export type PartName = keyof typeof PARTS
export const PART_NAMES = Object.keys(PARTS) as PartName[]
export const partFile = (part: PartName): string => PARTS[part].name
/** Every word of the language; fetched only where a pack has one that `words` does not. */
export const ALL_WORDS = 'en-us/all-words.txt'

/** The second model's files, in a folder named by the edition of its package: a browser keeps them for good. */
export const RESCORER_FOLDER = 'rescorer-0.1.29'
export const RESCORER_FILES = ['encoder_model.onnx', 'decoder_model_merged.onnx'] as const
/** The head of our own, named by the beginning of the SHA-256 of its weights for the same reason. */
export const PHONES_FILE = 'phones-f72249c2.onnx'

export interface Model {
  readonly files: ModelFiles
  readonly denoiser: string
  /** Dictionary lines. */
  readonly words: string
}

/**
 * Fetches all parts from `base` (absolute, with a slash at its end), and hands them on as object URLs, so
 * that two workers share one download. Rejects with the name of the file that failed.
 */
export async function fetchModel(base: string, progress: (fraction: number) => void): Promise<Model> {
  const total = Object.values(PARTS).reduce((sum, { bytes }) => sum + bytes, 0)
  let done = 0
  const blobs = await Promise.all(
    PART_NAMES.map(async (part) => {
      const blob = await fetchPart(new URL(partFile(part), base).href)
      done += PARTS[part].bytes
      progress(done / total)
      return [part, blob] as const
    }),
  )
  const parts = Object.fromEntries(blobs) as Record<PartName, Blob>
  const url = (part: PartName) => URL.createObjectURL(parts[part])
  return {
    files: {
      mdef: url('mdef'),
      means: url('means'),
      variances: url('variances'),
      sendump: url('sendump'),
      transitions: url('transitions'),
      features: url('features'),
      noiseDictionary: url('noiseDictionary'),
      // Words are added one by one.
      dictionary: URL.createObjectURL(new Blob(['\n'])),
    },
    denoiser: url('denoiser'),
    words: await parts.words.text(),
  }
}

interface RescorerDownload {
  readonly encoder: ArrayBuffer
  readonly decoder: ArrayBuffer
  readonly phones: ArrayBuffer
}

/** Rejects with the name of the file that failed. */
export async function fetchRescorer(base: string): Promise<RescorerDownload> {
  const bytes = async (name: string) =>
    (await fetchPart(new URL(`${RESCORER_FOLDER}/${name}`, base).href)).arrayBuffer()
  const [encoder, decoder, phones] = await Promise.all([...RESCORER_FILES, PHONES_FILE].map(bytes))
  return { encoder, decoder, phones } as RescorerDownload
}

/** Rejects where a file is missing; a server that answers with a page instead of a 404 counts as missing. */
async function fetchPart(address: string): Promise<Blob> {
  const response = await fetch(address).catch(() => undefined)
  const isPage = response?.headers.get('content-type')?.startsWith('text/html')
  if (!response?.ok || isPage) throw new Error(`${address} could not be loaded`)
  const blob = await response.blob()
  return address.endsWith('.wasm') ? new Blob([blob], { type: 'application/wasm' }) : blob
}

export async function fetchAllWords(base: string): Promise<string> {
  return (await fetchPart(new URL(ALL_WORDS, base).href)).text()
}
