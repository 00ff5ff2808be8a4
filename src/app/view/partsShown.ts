/** The parts of an answer as the screen may name them while a run is on: never by the wording that would be right. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { findItem, responseOf } from '../../kernel/pack/place.ts'
import type { Judgement, Part } from '../../kernel/response/model.ts'
import { partNames } from '../../kernel/response/readBack.ts'
import { NOTHING, type Response } from '../../kernel/response/response.ts'
import type { LastAnswer, RunState } from '../../kernel/run/core/state.ts'
import { readBacksOf } from '../../kernel/run/talk/radio.ts'
import { briefingsOf, findTurn, turnState } from '../../kernel/run/talk/talk.ts'

export interface ShownPart {
  /** Empty for the words of a call that are right: they are many, and say nothing by themselves. */
  readonly label: string
  /** `again`: right, and said beside what was not understood. */
  readonly state: Part['state'] | 'again'
  /** The words taken for it, where there were any. */
  readonly heard: string | undefined
  /** "direction", where the part was begun and not finished. */
  readonly lacks?: NonNullable<Part['lacks']>
}

/** Parts of the last answer; empty where there was none. */
export function partsShown(pack: Pack, run: RunState): ShownPart[] {
  const { last } = run
  if (!last) return []
  const labelOf = labelling(pack, run, last)
  const { verdict, parts } = judgementShown(run, last)
  // Of what was not understood nothing is known to be missing.
  const known =
    verdict === 'sayAgain' ? parts.filter(({ state, heard }) => state !== 'missing' || heard !== undefined) : parts
  return known.map((part) => {
    const { kind, heard, lacks } = part
    // A value that cannot be, or was taken for two, was said all the same.
    const isUnsure = verdict === 'sayAgain' && part.state === 'missing' && !lacks
    const state = part.doubtful || isUnsure ? 'again' : part.state
    const isUnnamed = last.of === 'call' && kind === 'word' && state === 'ok'
    return { label: isUnnamed ? '' : labelOf(part), state, heard, ...(lacks && { lacks }) }
  })
}

/** A read-back that a controller wrongly called correct looks right: noticing is the pilot's part. */
export function judgementShown(run: RunState, last: LastAnswer): Judgement {
  const isSlip = last.of === 'readBack' && last.judgement.verdict === 'negative' && turnState(run, last.item).slip
  if (!isSlip) return last.judgement
  return { verdict: 'correct', parts: last.judgement.parts.map((part) => ({ ...part, state: 'ok' })) }
}

/** Right in a briefing, and nothing in it was there to be compared: it was briefed. */
export function isOnlyNamed(pack: Pack, { of, judgement: { verdict, parts } }: LastAnswer): boolean {
  const topics = topicsIn(pack).filter(({ id }) => parts.some(({ name }) => name === id))
  const hasFigures = topics.some(({ say }) => say.some(({ figures }) => figures.length > 0))
  return of === 'briefing' && verdict === 'correct' && !hasFigures
}

/** Names of parts that give nothing away. */
export function labelling(
  pack: Pack,
  run: RunState,
  { item: id, of }: Pick<LastAnswer, 'item' | 'of'>,
): (part: Part) => string {
  switch (of ?? 'item') {
    case 'item': {
      const { item } = findItem(pack, id)
      return byWording(pack, responseOf(item, run))
    }
    case 'call':
      return byWording(pack, findTurn(pack, id).turn.calls ?? NOTHING)
    case 'readBack': {
      const { turn } = findTurn(pack, id)
      const elements = readBacksOf(turn, run).map((element) => ({ ...element, ...partNames(element) }))
      const byFigure = byWording(pack, NOTHING)
      return (part) => elements.find(({ all }) => all.has(part.name))?.label ?? byFigure(part)
    }
    case 'ownValue':
      return byWording(pack, NOTHING)
    case 'briefing':
      return ({ name }) => topicLabel(pack, name)
  }
}

function byWording(pack: Pack, { wordings, paths }: Response): (part: Part) => string {
  const slots = paths.flat().filter((slot) => slot.type === 'word')
  const isUnnamed = (name: string) =>
    wordings.includes(name) || slots.some((slot) => slot.name === name && slot.wordings[0]?.text === name)
  return (part) =>
    part.kind === 'figure'
      ? (pack.figures.declarations[part.name]?.label ?? part.name)
      : wordLabel(part, isUnnamed(part.name))
}

/** A tag names its part; a part without one has only what was said, which is shown once it is right. */
function wordLabel({ name, state, heard }: Part, isUnnamed: boolean): string {
  if (!isUnnamed) return name
  if (state === 'ok') return heard ?? name
  return state === 'missing' ? 'the rest' : 'the state'
}

const topicLabel = (pack: Pack, id: string): string => topicsIn(pack).find((topic) => topic.id === id)?.label ?? id

const topicsIn = (pack: Pack) => briefingsOf(pack).flatMap(({ topics }) => topics)
