/** Whether an exchange holds together: it asks for nothing that it never says, and what must be read back is. */

import { KINDS } from '../kernel/kinds/kind.ts'
import { RADIOS, type Radio } from '../kernel/kinds/radio.ts'
import { parseTemplate } from '../kernel/pack/template.ts'
import { type Expansion, figuresOf, phrasesOf } from '../kernel/response/expansion.ts'
import type { Slot } from '../kernel/response/path.ts'
import { wordingOf } from './buildExchange.ts'
import {
  type Checking,
  checkCondition,
  checkFigure,
  checkInterlocks,
  checkResponse,
  checkWording,
  once,
  report,
} from './checking.ts'
import { responseOrNothing, sayingProblems } from './checkNotation.ts'
import type { When } from './conditions.ts'
import type { BriefingText, ElementText, ExchangeText, TurnText, WordingText } from './exchangeSchema.ts'
import { didYouMean } from './nearest.ts'
import type { Path } from './source.ts'

const HOLD_SHORT = /\bhold(ing)? short\b/

export function checkExchange(checking: Checking, exchange: ExchangeText, path: Path): void {
  const ids = new Set<string>()
  for (const [index, turn] of exchange.turns.entries()) {
    const at: Path = [...path, 'turns', index]
    once(checking, ids, turn.turn, 'turn', [...at, 'turn'])
    checkTurn(checking, turn, at)
    if (exchange.with.role === 'controller') adviseReadBack(checking, turn, at)
  }
}

function checkTurn(checking: Checking, turn: TurnText, path: Path): void {
  checkCondition(checking, turn.when, [...path, 'when'])
  checkInterlocks(checking, turn.interlocks, path)
  if (turn.calls !== undefined) checkResponse(checking, turn.calls, [...path, 'calls'], 'calls')
  checkWording(checking, turn.opens, [...path, 'opens'])
  checkWording(checking, turn.closes, [...path, 'closes'])
  if (turn.calls === undefined && turn.opens === undefined && turn.elements.length === 0) {
    const message = `turn ${turn.turn} says nothing; it should have calls, opens or elements`
    report(checking, 'turn.empty', [...path, 'turn'], message)
  }
  const [ids, labels] = [new Set<string>(), new Set<string>()]
  for (const [index, element] of turn.elements.entries()) {
    const at: Path = [...path, 'elements', index]
    once(checking, ids, element.element, 'element', [...at, 'element'])
    once(checking, labels, element.label, 'element label', [...at, 'label'])
    for (const [number, name] of element.alsoCalled.entries()) {
      once(checking, labels, name, 'element label', [...at, 'alsoCalled', number])
    }
    checkCondition(checking, element.when, [...at, 'when'])
    checkWording(checking, element.says, [...at, 'says'])
    checkReadBack(checking, turn, element, at)
  }
  checkNames(checking, turn, path)
  checkOrder(checking, turn, path)
  if (turn.clears !== undefined && !checking.awaited.includes(turn.clears)) {
    const message = `nothing waits for the clearance "${turn.clears}"${didYouMean(turn.clears, checking.awaited)}`
    report(checking, 'clearance.unknown', [...path, 'clears'], message)
  }
  for (const [index, name] of turn.sets.entries()) checkSet(checking, turn, name, [...path, 'sets', index])
}

/**
 * Parts of a read-back are kept by their names from one transmission to the next: a word that is called like a figure,
 * or like what another element demands, would count for it.
 */
function checkNames(checking: Checking, { elements }: TurnText, path: Path): void {
  const all = elements.map(({ readBack }) => textsOf(readBack).flatMap(slotsOf))
  for (const [index, slots] of all.entries()) {
    for (const word of slots.filter(({ type }) => type === 'word')) {
      const same = (other: Slot) => other.name === word.name && (other.required || other.type === 'figure')
      const clash = all.some((others, at) =>
        others.some((other) => same(other) && (at !== index || other.type === 'figure')),
      )
      if (!clash) continue
      const message = `"${word.name}" stands for something else in this turn too; write it otherwise or name it with a {tag}`
      report(checking, 'part.name', [...path, 'elements', index, 'readBack'], message)
    }
  }
}

/** The one text of both phraseologies, or that of each. */
function textsOf(text: WordingText | undefined): string[] {
  if (text === undefined) return []
  return typeof text === 'string' ? [text] : [text.icao, text.faa]
}

function slotsOf(text: string): readonly Slot[] {
  return responseOrNothing(text).paths.flat()
}

type Name = (figure: string) => string
const asItIs: Name = (figure) => figure

/** One setting in two units is one figure to be said. */
function sameAs({ figures = {} }: Checking): Name {
  return (figure) => {
    const derived = Object.hasOwn(figures, figure) ? figures[figure]?.derived : undefined
    const of = derived?.by === 'same' && 'of' in derived ? derived.of : undefined
    return typeof of === 'string' ? of : figure
  }
}

const figuresIn = (text: string, nameOf: Name) => new Set(parseTemplate(text).figures.map(nameOf))

/** Figures that a wording says in either phraseology, and those that it says in both. */
function figuresSaid(says: WordingText | undefined, nameOf = asItIs): { any: Set<string>; both: Set<string> } {
  if (says === undefined) return { any: new Set(), both: new Set() }
  const wording = wordingOf(says)
  const [icao, faa] = [figuresIn(wording.icao, nameOf), figuresIn(wording.faa, nameOf)]
  return { any: new Set([...icao, ...faa]), both: new Set([...icao].filter((name) => faa.has(name))) }
}

/** Everything in a turn that says a figure (in both phraseologies, or in one), and under which condition. */
function sayings(
  turn: TurnText,
  nameOf = asItIs,
  radio?: Radio,
): { readonly said: Set<string>; readonly when: When }[] {
  const saidIn = (text: WordingText | undefined) =>
    radio && text !== undefined ? figuresIn(wordingOf(text)[radio], nameOf) : figuresSaid(text, nameOf).both
  return [
    { said: saidIn(turn.opens), when: undefined },
    ...turn.elements.map(({ says, when }) => ({ said: saidIn(says), when })),
  ]
}

/** An element is read back from what was said: its own words, the opening, or another element that is always said. */
function checkReadBack(checking: Checking, turn: TurnText, element: ElementText, path: Path): void {
  const { readBack, says } = element
  const at: Path = [...path, 'readBack']
  if (typeof readBack === 'string') checkSaid(checking, turn, element, figuresSaid(says), readBack, at)
  else if (readBack) {
    for (const radio of RADIOS) {
      const own = figuresIn(wordingOf(says)[radio], asItIs)
      checkSaid(checking, turn, element, { any: own, both: own }, readBack[radio], [...at, radio], radio)
    }
  }
}

function checkSaid(
  checking: Checking,
  turn: TurnText,
  { element }: ElementText,
  own: ReturnType<typeof figuresSaid>,
  readBack: string,
  at: Path,
  radio?: Radio,
): void {
  const before = sayings(turn, asItIs, radio).filter(({ when }) => when === undefined)
  for (const name of checkResponse(checking, readBack, at, 'readBack')) {
    if (own.both.has(name) || before.some(({ said }) => said.has(name))) continue
    const message = own.any.has(name)
      ? `${name} is to be read back, but only one of icao and faa says it`
      : `${name} is to be read back, but ${element} never says it; add <${name}> to says`
    report(checking, 'readBack.unsaid', at, message)
  }
}

/** In another order, but all of them. */
function checkOrder(checking: Checking, { turn, elements, faaOrder }: TurnText, path: Path): void {
  if (!faaOrder) return
  const at: Path = [...path, 'faaOrder']
  const ids = elements.map(({ element }) => element)
  const seen = new Set<string>()
  for (const [index, id] of faaOrder.entries()) {
    once(checking, seen, id, 'element', [...at, index])
    if (ids.includes(id)) continue
    report(checking, 'order.unknown', [...at, index], `${turn} has no element "${id}"${didYouMean(id, ids)}`)
  }
  const missing = ids.filter((id) => !faaOrder.includes(id))
  if (missing.length === 0) return
  const message = `faaOrder should name every element of ${turn} once; add ${missing.join(', ')}`
  report(checking, 'order.elements', at, message)
}

function checkSet(checking: Checking, turn: TurnText, name: string, path: Path): void {
  checkFigure(checking, name, path)
  const figure = checking.figures && Object.hasOwn(checking.figures, name) ? checking.figures[name] : undefined
  if (figure && (figure.derived || figure.constant !== undefined)) {
    const origin = figure.derived ? 'computed' : 'fixed in the pack'
    report(checking, 'sets.notEntered', path, `${name} is ${origin}; only what is entered or given can be set here`)
  }
  const saying = sayings(turn, sameAs(checking)).filter(({ said }) => said.has(name))
  // Where figures have mistakes of their own, which of them says another one is not known.
  if (saying.length === 0 && figure) {
    const message = `${name} is set here, but no element of ${turn.turn} says it; add an element with <${name}>`
    report(checking, 'sets.unsaid', path, message)
  } else if (saying.length > 0 && saying.every(({ when }) => when !== undefined)) {
    const message = `${name} is set whenever ${turn.turn} is, but said only under a condition; put the condition on the turn`
    report(checking, 'sets.sometimes', path, message)
  }
}

/** What ICAO lists as to be read back, and is not asked for here: advice, since a pack may be of another state. */
function adviseReadBack(checking: Checking, turn: TurnText, path: Path): void {
  for (const [index, { element, says, readBack }] of turn.elements.entries()) {
    const at: Path = [...path, 'elements', index]
    const kindOf = (name: string) =>
      checking.figures && Object.hasOwn(checking.figures, name) ? checking.figures[name]?.kind : undefined
    const isReadBack = (name: string) => {
      const kind = kindOf(name)
      return kind !== undefined && KINDS[kind].isReadBack
    }
    const nameOf = sameAs(checking)
    // What one phraseology does not say need not be read back in it.
    const owed = RADIOS.flatMap((radio) => {
      const asked = readBack === undefined ? [] : requiredFigures(wordingOf(readBack)[radio]).map(nameOf)
      return [...figuresIn(wordingOf(says)[radio], nameOf)].filter((name) => !asked.includes(name))
    })
    for (const name of new Set(owed.filter(isReadBack))) {
      const message = `${name} (${kindOf(name)}) is one of those that must be read back; add it to the readBack of ${element}`
      report(checking, 'readBack.owed', [...at, 'says'], message, 'advice')
    }
    const asksAll = RADIOS.every((radio) => {
      const asked = readBack !== undefined && asksHoldShort(wordingOf(readBack)[radio])
      return asked || !HOLD_SHORT.test(wordingOf(says)[radio])
    })
    if (asksAll) continue
    const message = `"hold short" must always be read back; add it to the readBack of ${element}, not in brackets`
    report(checking, 'readBack.holdShort', [...at, 'says'], message, 'advice')
  }
}

function requiredFigures(text: string): string[] {
  return figuresOf(required(responseOrNothing(text).tree))
}

function asksHoldShort(readBack: string): boolean {
  return phrasesOf(required(responseOrNothing(readBack).tree)).every((phrase) => HOLD_SHORT.test(phrase))
}

/** Without what may be left out. */
function required(tree: Expansion): Expansion {
  switch (tree.type) {
    case 'optional':
      return { type: 'words', words: [] }
    case 'either':
      return { ...tree, options: tree.options.map(required) }
    case 'sequence':
      return { ...tree, parts: tree.parts.map(required) }
    default:
      return tree
  }
}

export function checkBriefing(checking: Checking, briefing: BriefingText, path: Path): void {
  checking.problems.push(...sayingProblems(checking.source, briefing.ends, [...path, 'ends'], 'ends'))
  const [ids, labels] = [new Set<string>(), new Set<string>()]
  for (const [index, topic] of briefing.topics.entries()) {
    const at: Path = [...path, 'topics', index]
    once(checking, ids, topic.topic, 'topic', [...at, 'topic'])
    once(checking, labels, topic.label, 'topic label', [...at, 'label'])
    checkCondition(checking, topic.when, [...at, 'when'])
    for (const [number, text] of topic.say.entries()) checkResponse(checking, text, [...at, 'say', number], 'say')
  }
}
