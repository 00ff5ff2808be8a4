/** What to listen for at the open place: shapes and words around them, never a value (law 2). */

import type { Hearable } from '../../hearing/hearable.ts'
import { talkOf } from '../../hearing/talk.ts'
import type { Specs } from '../../kinds/kind.ts'
import type { Pack } from '../../pack/checklist.ts'
import { findItem, saidAtLeast, saidFigures } from '../../pack/place.ts'
import { saidInTalk, talkAt } from '../talk/talk.ts'
import { watchAt } from '../watch/watchTiming.ts'
import { isForValue } from './ownQuestion.ts'
import type { RunState } from './state.ts'

/** What to listen for: shapes of the open item, never its values. */
export function hearableAt(pack: Pack, state: RunState): Hearable {
  const { floor, question } = state
  if (question && isForValue(question)) {
    const declared = pack.figures.declarations[question.figure]
    return { shapes: declared ? [declared.spec] : [], yesNo: false }
  }
  // In place of affirm another order may come, or the call itself.
  if (question && question.about !== 'order' && question.about !== 'callOrder') return { shapes: [], yesNo: true }
  const watch = watchAt(pack, floor)
  if (watch) {
    return { shapes: watch.calls.flatMap(({ value }) => value?.spec ?? []), yesNo: question !== undefined }
  }
  const specOf = (name: string) => pack.figures.declarations[name]?.spec
  const activity = talkAt(pack, floor)
  if (activity) {
    const said = saidInTalk(pack, state)
    const names = [...new Set(said.flatMap(({ figures }) => figures))]
    const specs = Object.fromEntries(names.flatMap((name) => (specOf(name) ? [[name, specOf(name)]] : []))) as Specs
    return { shapes: Object.values(specs), yesNo: question !== undefined, talk: talkOf(activity, said, specs) }
  }
  if (floor.at !== 'item') return { shapes: [], yesNo: question !== undefined }
  const { item } = findItem(pack, floor.item)
  const shapes = saidFigures(item, state.situation).flatMap((name) => specOf(name) ?? [])
  return { shapes, least: saidAtLeast(item, state.situation), yesNo: question !== undefined }
}
