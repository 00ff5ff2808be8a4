/** What an embedded voice must hold a clip of: every phrase as a whole, and every single word. */

import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { plainWords } from '../adapters/voice/clips.ts'
import { readPackDir } from '../cli/packDir.ts'
import { RADIOS } from '../kernel/kinds/radio.ts'
import type { Pack } from '../kernel/pack/checklist.ts'
import type { Role } from '../kernel/pack/roles.ts'
import { isError } from '../kernel/problem.ts'
import { showProblem } from '../kernel/problemLine.ts'
import type { Dial } from '../kernel/run/core/events.ts'
import { seeded } from '../kernel/seeded.ts'
import { BLOCK, LONGEST } from '../kernel/training/edge.ts'
import { dialTexts } from '../packs/dial/dialTexts.ts'
import { readPack } from '../packs/read.ts'
import { fixedTexts, textsOf } from '../packs/spoken.ts'

/** The packs in a folder; throws where one of them is not right. */
export async function packsIn(folder: string): Promise<Pack[]> {
  const entries = await readdir(folder, { withFileTypes: true })
  const names = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name)
  return Promise.all(
    names.sort().map(async (name) => {
      const { pack, problems } = await readPackDir(join(folder, name))
      if (!pack) throw new Error(problems.filter(isError).map(showProblem).join('\n'))
      return pack
    }),
  )
}

/** All that may be said in read-backs alone, in both phraseologies, by every station. */
export function readBackPacks(): Pack[] {
  const busy = { likeCallSigns: true, steppedOn: false, standBy: true, handOvers: true, amendments: true }
  const put: Dial = { wordsAMinute: 100, noise: 'none', ...busy }
  return RADIOS.flatMap((radio) =>
    [1, 2].map((seed) => {
      const { texts } = dialTexts(put, Array(BLOCK).fill(LONGEST), radio, seeded(seed))
      const { pack, problems } = readPack(texts, '')
      if (!pack) throw new Error(problems.filter(isError).map(showProblem).join('\n'))
      return pack
    }),
  )
}

/** In plain words, sorted: a role's fixed phrases and words, and those of the packs. */
export function textsToRecord(packs: readonly Pack[], role: Role): string[] {
  const spoken = [fixedTexts(role), ...packs.map((pack) => textsOf(pack, role))]
  const phrases = spoken.flatMap((texts) => texts.phrases).map(plainWords)
  const words = spoken.flatMap((texts) => texts.words).flatMap(plainWords)
  const all = [...phrases.map((phrase) => phrase.join(' ')), ...phrases.flat(), ...words]
  return [...new Set(all)].filter((text) => text !== '').sort()
}
