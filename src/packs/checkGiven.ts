/** Whether every figure that only a station gives has been given, in every situation, before something rests on it. */

import { ownOf } from '../kernel/own.ts'
import { parseTemplate } from '../kernel/pack/template.ts'
import { wordingOf } from './buildExchange.ts'
import { checkHole } from './checkHole.ts'
import type { Checking } from './checking.ts'
import { responseOrNothing } from './checkNotation.ts'
import type { When } from './conditions.ts'
import type { ExchangeText, TurnText, WordingText } from './exchangeSchema.ts'
import { grouped } from './grouped.ts'
import type { ActivityText, ItemText, ProceduresText } from './proceduresSchema.ts'
import { openSituation } from './situations.ts'
import type { Path } from './source.ts'

/** Something said or answered, with all conditions under which it is. */
interface Use {
  readonly figures: readonly string[]
  readonly path: Path
  readonly all: readonly When[]
  /** Earlier cases: where one of them holds, this one does not. */
  readonly none: readonly When[]
}

/** A turn that sets figures, with its conditions. */
interface Setting {
  readonly turn: string
  readonly figures: readonly string[]
  readonly all: readonly When[]
}

export function checkGiven(checking: Checking, { phases }: ProceduresText): void {
  const before: Setting[] = []
  for (const [phase, { activities }] of phases.entries()) {
    for (const [index, activity] of activities.entries()) {
      const path: Path = ['phases', phase, 'activities', index]
      for (const use of usesOf(activity, path)) checkUse(checking, use, () => before)
      if ('exchange' in activity) checkTurns(checking, activity, path, before)
    }
  }
}

/** Turn by turn: what a turn sets holds for the calls and the words of those that come behind it in any case. */
function checkTurns(checking: Checking, exchange: ExchangeText, path: Path, before: Setting[]): void {
  const { turns } = exchange
  const named = byNames(exchange)
  const settingOf = ({ turn, sets, when }: TurnText): Setting => {
    return { turn: `${exchange.exchange}.${turn}`, figures: sets, all: [exchange.when, when] }
  }
  for (const [index, turn] of turns.entries()) {
    const known = () => {
      const ahead = exchange.order === 'free' ? requiredBy(exchange, turn, named) : turns.slice(0, index)
      return [...before, ...ahead.map(settingOf)]
    }
    const all = [exchange.when, turn.when]
    const at: Path = [...path, 'turns', index]
    if (turn.calls !== undefined) {
      checkUse(
        checking,
        { figures: responseOrNothing(turn.calls).figures, path: [...at, 'calls'], all, none: [] },
        known,
      )
    }
    for (const { wording, path: place, when } of wordsOf(turn, at)) {
      const figures = figuresSaid(wording)
      checkHole(checking, figures, place)
      // What a station gives it knows from the beginning; what is worked out of it only the figures know.
      const worked = figures.filter((name) => !ownOf(checking.figures, name)?.given)
      checkUse(checking, { figures: worked, path: place, all: [...all, when], none: [] }, known)
    }
  }
  before.push(...turns.map(settingOf))
}

/** In an order of the pilot's: the turns that a turn waits for, and those that they wait for. */
function requiredBy(
  exchange: ExchangeText,
  turn: TurnText,
  named: ReadonlyMap<string, readonly TurnText[]>,
): TurnText[] {
  const found = new Set<TurnText>()
  const visit = (one: TurnText): void => {
    for (const ahead of (one.interlocks ?? []).flatMap(({ after }) => named.get(after) ?? [])) {
      if (found.has(ahead)) continue
      found.add(ahead)
      visit(ahead)
    }
  }
  visit(turn)
  return exchange.turns.filter((one) => found.has(one))
}

/** The turns of an exchange by what an interlock may name: each under its own name and under its clearance. */
function byNames({ exchange, turns }: ExchangeText): ReadonlyMap<string, readonly TurnText[]> {
  const named = new Map(turns.map((turn) => [`${exchange}.${turn.turn}`, [turn]]))
  const clearing = turns.filter(({ clears }) => clears !== undefined)
  return new Map([...named, ...grouped(clearing, ({ clears }) => `cleared:${clears}`)])
}

interface Words {
  readonly wording: WordingText | undefined
  readonly path: Path
  readonly when: When
}

/** All that is said in a turn, and where it stands. */
function wordsOf({ opens, closes, elements }: TurnText, path: Path): Words[] {
  return [
    { wording: opens, path: [...path, 'opens'], when: undefined },
    ...elements.map(({ says, when }, index) => ({ wording: says, path: [...path, 'elements', index, 'says'], when })),
    { wording: closes, path: [...path, 'closes'], when: undefined },
  ]
}

function figuresSaid(wording: WordingText | undefined): string[] {
  if (wording === undefined) return []
  const { icao, faa } = wordingOf(wording)
  return [...new Set([icao, faa].flatMap((text) => parseTemplate(text).figures))]
}

function usesOf(activity: ActivityText, path: Path): Use[] {
  if ('list' in activity) {
    return activity.entries.flatMap((entry, index) =>
      'item' in entry ? usesOfItem(entry, [activity.when, entry.when], [...path, 'entries', index]) : [],
    )
  }
  if (!('briefing' in activity)) return []
  return activity.topics.flatMap(({ say, when }, index) =>
    say.map((text, number) => ({
      figures: responseOrNothing(text).figures,
      path: [...path, 'topics', index, 'say', number],
      all: [activity.when, when],
      none: [],
    })),
  )
}

function usesOfItem({ response, restsOn }: ItemText, all: readonly When[], path: Path): Use[] {
  const cases = typeof response === 'string' ? [{ say: response, when: undefined }] : response
  const said = cases.map(({ say, when }, index): Use => {
    const at: Path = typeof response === 'string' ? [...path, 'response'] : [...path, 'response', index, 'say']
    const none = cases.slice(0, index).map((one) => one.when)
    return { figures: responseOrNothing(say).figures, path: at, all: [...all, when], none }
  })
  const rests = restsOn.map(
    (name, index): Use => ({ figures: [name], path: [...path, 'restsOn', index], all, none: [] }),
  )
  return [...said, ...rests]
}

function checkUse(checking: Checking, use: Use, before: () => readonly Setting[]): void {
  const { pack, figures } = checking
  if (!pack || !figures) return
  const given = new Set(use.figures.flatMap((name) => checking.grounds.given.get(name) ?? []))
  for (const name of given) {
    const setters = before().filter((setting) => setting.figures.includes(name))
    const open = openSituation({ pack, figures }, use.all, [
      ...use.none.map((one) => [one]),
      ...setters.map(({ all }) => all),
    ])
    if (open === undefined) continue
    const where = setters.length === 0 ? '' : ` where ${open}; ${setters[0]?.turn} sets it only in other cases`
    checking.report('figure.unset', use.path, `${name} is needed here, and no exchange before this sets it${where}`)
  }
}
