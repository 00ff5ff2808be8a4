/** What a pack holds, in a line, and which of its words the recorded voice does not have. */

import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { type ClipIndex, clipsFor, plainWords } from '../adapters/voice/clips.ts'
import type { Pack } from '../kernel/pack/checklist.ts'
import { ROLES, type Role } from '../kernel/pack/roles.ts'
import { quoted } from '../kernel/quoted.ts'
import { textsOf } from '../packs/spoken.ts'

/** Of a longer word the beginning is enough. */
const LONGEST_SHOWN = 40

/** "12 figures, 2 lists with 14 items, 1 timed start, no exchanges, 3 papers; 4 words are not in the recorded voice". */
export async function summaryOf(pack: Pack): Promise<string> {
  const activities = pack.phases.flatMap((phase) => phase.activities)
  const count = (type: string) => activities.filter((activity) => activity.type === type).length
  const items = activities.flatMap((activity) => (activity.type === 'list' ? activity.entries : []))
  const parts = [
    counted(Object.keys(pack.figures.declarations).length, 'figure'),
    `${counted(count('list'), 'list')} with ${counted(items.filter(({ type }) => type === 'item').length, 'item')}`,
    counted(count('watch'), 'timed start'),
    counted(count('exchange'), 'exchange'),
    counted(count('briefing'), 'briefing'),
    counted(pack.papers.length, 'paper'),
  ]
  const words = await unrecorded(pack)
  const verb = words.length === 1 ? 'is' : 'are'
  const voice =
    words.length === 0
      ? 'every word is in the recorded voice'
      : `${counted(words.length, 'word')} ${verb} not in the recorded voice`
  const which =
    words.length === 0
      ? ''
      : `\n  not recorded: ${words.map((word) => (word.length > LONGEST_SHOWN ? quoted(word) : word)).join(', ')}`
  return `${parts.join(', ')}; ${voice}${which}`
}

function counted(count: number, what: string): string {
  return `${count === 0 ? 'no' : count} ${what}${count === 1 ? '' : 's'}`
}

/** Words without a clip, of texts that can therefore not be said by the recorded voice. */
async function unrecorded(pack: Pack): Promise<string[]> {
  const lacking = await Promise.all(ROLES.map((role) => lackingOf(pack, role)))
  return [...new Set(lacking.flat())].sort()
}

async function lackingOf(pack: Pack, role: Role): Promise<string[]> {
  const file = fileURLToPath(new URL(`../../audio/voice/${role}.json`, import.meta.url))
  const { clips } = JSON.parse(await readFile(file, 'utf8')) as { readonly clips: ClipIndex }
  const { phrases, words } = textsOf(pack, role)
  return [...phrases, ...words]
    .filter((text) => plainWords(text).some((word) => word !== '') && !clipsFor(text, clips))
    .flatMap((text) => plainWords(text).filter((word) => word !== '' && !Object.hasOwn(clips, word)))
}
