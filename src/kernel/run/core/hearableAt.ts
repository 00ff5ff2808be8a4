/** What to listen for at the open place: shapes and words around them, never a value (law 2). */

import type { Hearable } from '../../hearing/hearable.ts'
import { partnerPhrases } from '../../hearing/objections.ts'
import { phrase } from '../../hearing/phrases.ts'
import { talkOf } from '../../hearing/talk.ts'
import type { KindSpec, Specs } from '../../kinds/kind.ts'
import type { Pack } from '../../pack/checklist.ts'
import { findItem, itemsOf, listById, saidAtLeast, saidFigures } from '../../pack/place.ts'
import { figuresMeant, meantBy, readBacksMeant } from '../partner/meant.ts'
import { hasPartner, partnerOf } from '../partner/partner.ts'
import { requiredOf } from '../talk/readBackWords.ts'
import { findTurn, saidInTalk, talkAt } from '../talk/talk.ts'
import { watchAt } from '../watch/watchTiming.ts'
import { isForValue } from './ownQuestion.ts'
import type { Question, RunState } from './state.ts'

/** Questions beside which something else may still be said: another order, or a call of the watch. */
const TAKES_CALLS: ReadonlySet<Question['about']> = new Set(['order', 'callOrder', 'callEarly', 'callValue'])

const isSameSpec = (one: KindSpec, other: KindSpec) => JSON.stringify(one) === JSON.stringify(other)

/** What to listen for: shapes of the open item, never its values. */
export function hearableAt(pack: Pack, state: RunState): Hearable {
  const here = hearableHere(pack, state)
  return hasPartner(state) ? { ...here, partner: partnerHearable(pack, state) } : here
}

/** What may be said to a partner who errs: the same whether something is wrong or not. */
function partnerHearable(pack: Pack, state: RunState): NonNullable<Hearable['partner']> {
  const { floor } = state
  const challenges = 'list' in floor ? itemsOf(listById(pack, floor.list), state).map(({ challenge }) => challenge) : []
  const { chances } = partnerOf(state)
  const readBacks = readBacksMeant(pack, state)
  const meant = new Set([...readBacks, meantBy(pack, state, 'value') ?? -1])
  const names = [...meant].flatMap((at) => (chances[at] ? figuresMeant(pack, state, chances[at]) : []))
  const shapes = [...new Set(names)].flatMap((name) => pack.figures.declarations[name]?.spec ?? [])
  const said = readBacks.flatMap((at) => requiredOf(findTurn(pack, chances[at]?.about ?? '').turn, state))
  const labels = [...new Set(said.flatMap(({ label, alsoCalled }) => [label, ...alsoCalled].map(phrase)))]
  const skipped = [...challenges.map(phrase), ...labels.flatMap((label) => [label, `the ${label}`])]
  return { phrases: partnerPhrases(skipped), shapes, ...(labels.length > 0 && { names: labels }) }
}

function hearableHere(pack: Pack, state: RunState): Hearable {
  const { floor, question } = state
  if (question && isForValue(question)) {
    const declared = pack.figures.declarations[question.figure]
    return { shapes: declared ? [declared.spec] : [], yesNo: false }
  }
  if (question && !TAKES_CALLS.has(question.about)) return { shapes: [], yesNo: true }
  const watch = watchAt(pack, floor, state)
  if (watch) {
    const shapes = watch.calls.flatMap(({ value }) => value?.spec ?? [])
    const own = shapes.filter((spec, index) => shapes.findIndex((other) => isSameSpec(spec, other)) === index)
    // One value is said at a time, and the words of its call may follow it.
    return { shapes: own, least: { values: 1, parts: 2 }, yesNo: question !== undefined }
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
  const shapes = saidFigures(item, state).flatMap((name) => specOf(name) ?? [])
  return { shapes, least: saidAtLeast(item, state), yesNo: question !== undefined }
}
