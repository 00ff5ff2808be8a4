/**
 * The editor: from a key pressed in a pack of 300 items and 60 figures to its problems being known, the rest before it is
 * checked included. By the processor's time, so that others on the machine do not count. What the browser takes to draw
 * them is not in it.
 */

import { CHECK_MS } from '../../src/app/packs/packEditing.ts'
import { inspect } from '../../src/packs/files/inspect.ts'
import { formAt } from '../../src/packs/forms/form.ts'
import { LARGE_PACK } from './largePack.ts'
import { percentile } from './tally.ts'

const KEYS = 120
/** The first ones warm up what compiles as it runs. */
const WARM_UP = 20
/** Written letter by letter in each file in turn, some of it wrong until it is whole. */
const TYPED = 'closed and locked '

export async function measure(): Promise<Record<string, number>> {
  const times: number[] = []
  const forms: number[] = []
  let files = LARGE_PACK
  let broken = 0
  for (let key = 0; key < KEYS; key++) {
    const file = key % 4 === 3 ? 'figures.yaml' : 'procedures.yaml'
    files = { ...files, [file]: withKey(LARGE_PACK[file] ?? '', file, key) }
    const began = busyMs()
    const { problems } = await inspect(files)
    const checked = busyMs()
    formAt(files, file, (files[file] ?? '').length / 2, problems)
    if (problems.length > 0) broken++
    if (key >= WARM_UP) {
      times.push(CHECK_MS + checked - began)
      forms.push(busyMs() - checked)
    }
  }
  return {
    'editor.keyToProblemsMs.p50': percentile(times, 0.5),
    'editor.keyToProblemsMs.p95': percentile(times, 0.95),
    'editor.formMs.p50': percentile(forms, 0.5),
    'editor.formMs.p95': percentile(forms, 0.95),
    'editor.withProblems': broken / KEYS,
  }
}

function withKey(text: string, file: string, key: number): string {
  const where = file === 'figures.yaml' ? 'label: upper' : 'response: closed'
  const typed = TYPED.slice(0, 1 + (key % TYPED.length))
  const at = text.indexOf(where, (text.length * ((key * 7) % 11)) / 22) + where.length - 5
  return `${text.slice(0, at)}${typed}${key % 5 === 0 ? '<figur' : ''}${text.slice(at)}`
}

function busyMs(): number {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1_000
}
