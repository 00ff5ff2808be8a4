/**
 * Mutation testing: `MUTATION_AREA=run npm run mutation` for one of the areas below. A whole area takes hours, so a share of
 * its source is drawn, in blocks of lines, by `MUTATION_SHARE=0.1 MUTATION_SEED=7`. Files may be named instead:
 * `npm run mutation -- --mutate src/kernel/run/core/step.ts`.
 */

import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const AREAS = {
  run: 'src/kernel/run',
  response: 'src/kernel/response',
  interpret: 'src/kernel/interpret',
  app: 'src/app/run',
  utterance: 'src/adapters/ear/utterance',
}
/** In lines. */
const BLOCK = 15

const folders = Object.entries(AREAS).flatMap(([area, folder]) =>
  [area, undefined].includes(process.env.MUTATION_AREA) ? [folder] : [],
)
const share = Number(process.env.MUTATION_SHARE ?? 1)
const seed = process.env.MUTATION_SEED ?? '1'

/** 0 to 1, by FNV-1a: the same for the same text. */
function drawn(text) {
  let hash = 0x811c9dc5
  for (const character of text) hash = Math.imul(hash ^ character.charCodeAt(0), 0x01000193) >>> 0
  hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d) >>> 0
  return ((hash ^ (hash >>> 13)) >>> 0) / 4294967296
}

function blocksOf(file) {
  const lines = readFileSync(`${ROOT}/${file}`, 'utf8').split('\n').length
  const starts = Array.from({ length: Math.ceil(lines / BLOCK) }, (_, index) => index * BLOCK + 1)
  const some = starts.filter((start) => drawn(`${seed} ${file} ${start}`) < share)
  return some.map((start) => `${file}:${start}-${start + BLOCK - 1}`)
}

const files = folders.flatMap((folder) =>
  readdirSync(`${ROOT}/${folder}`, { recursive: true })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `${folder}/${name}`),
)

export default {
  testRunner: 'vitest',
  vitest: { configFile: 'tests/mutation/vitest.config.ts' },
  coverageAnalysis: 'perTest',
  mutate: share < 1 ? files.flatMap(blocksOf) : files,
  ignorePatterns: ['public/model', 'dist', 'test-results', '/node_modules/.cache'],
  // Its check of the project's own compiler options does not know this compiler.
  tsconfigFile: 'none',
  concurrency: 2,
  ignoreStatic: true,
  // A busy machine must not count as a fault that was noticed.
  timeoutMS: 60_000,
  tempDirName: 'test-results/mutation/sandbox',
  reporters: ['clear-text', 'json'],
  clearTextReporter: { logTests: false, allowColor: false },
  jsonReporter: { fileName: 'test-results/mutation/mutation.json' },
}
