/**
 * Before a build: the recogniser's files to `public/model`, and its dictionary cut to the words that the
 * packs of this repository, the trade and the numbers need. Fails on a word without a pronunciation.
 */

import { copyFile, mkdir, readdir, readFile, writeFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { ALL_WORDS, PHONES_FILE, partFile, RESCORER_FILES, RESCORER_FOLDER } from '../adapters/ear/device/modelFiles.ts'
import { parseDictionary, pronounce, writeDictionary } from '../adapters/ear/recogniser/dictionary.ts'
import { readPackDir } from '../cli/packDir.ts'
import { wordsNeeded } from '../kernel/hearing/grammar.ts'
import { vocabularyOf } from '../kernel/hearing/vocabulary.ts'
import { TRADE_WORDS } from './tradeWords.ts'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const OUT = join(ROOT, 'public', 'model')
const packages = createRequire(import.meta.url)
const MODEL = join(dirname(packages.resolve('soundswallower')), 'model', 'en-us')

const RESCORER = join(ROOT, 'node_modules', '@moonshine-ai', 'moonshine-js')
const RESCORER_MODEL = join(RESCORER, 'dist', 'model', 'tiny', 'quantized')

const COPIES: readonly (readonly [from: string, to: string])[] = [
  ...(['mdef', 'sendump', 'means', 'variances'] as const).map((part) => [join(MODEL, part), partFile(part)] as const),
  [join(MODEL, 'transition_matrices'), partFile('transitions')],
  [join(MODEL, 'feat_params.json'), partFile('features')],
  [join(MODEL, 'noisedict.txt'), partFile('noiseDictionary')],
  [join(MODEL, 'dict.txt'), ALL_WORDS],
  // The model's notice asks to go with every copy.
  [join(MODEL, 'README.txt'), 'en-us/NOTICE.txt'],
  ...RESCORER_FILES.map((name) => [join(RESCORER_MODEL, name), join(RESCORER_FOLDER, name)] as const),
  [join(ROOT, 'audio', 'ear', 'phones.onnx'), join(RESCORER_FOLDER, PHONES_FILE)],
  [join(RESCORER, 'LICENSE'), join(RESCORER_FOLDER, 'LICENSE.txt')],
  [packages.resolve('@jitsi/rnnoise-wasm/dist/rnnoise.wasm'), partFile('denoiser')],
]

/** Words of all packs, and what the packs say of how to pronounce them. */
async function packWords(): Promise<{ words: string[]; own: Record<string, string> }> {
  const words: string[] = []
  const own: Record<string, string> = {}
  const folders = await readdir(join(ROOT, 'checklists'), { withFileTypes: true })
  for (const folder of folders.filter((entry) => entry.isDirectory())) {
    const { pack } = await readPackDir(join(ROOT, 'checklists', folder.name))
    // A pack with errors is `check`'s to report.
    if (!pack) continue
    words.push(...wordsNeeded(vocabularyOf(pack)))
    Object.assign(own, pack.pronunciations)
  }
  return { words, own }
}

for (const folder of ['en-us', RESCORER_FOLDER]) await mkdir(join(OUT, folder), { recursive: true })
await Promise.all(COPIES.map(([from, to]) => copyFile(from, join(OUT, to))))
const all = parseDictionary(await readFile(join(MODEL, 'dict.txt'), 'utf8'))
const { words, own } = await packWords()
const { entries, missing } = pronounce([...TRADE_WORDS, ...words], all, own)
await writeFile(join(OUT, partFile('words')), writeDictionary(entries))
if (missing.length > 0) {
  process.stderr.write(
    `no pronunciation for: ${missing.join(', ')}; say it in other words, or say its sounds under pronunciations in pack.yaml\n`,
  )
  process.exitCode = 1
}
