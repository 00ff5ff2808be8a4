/** Whether an exchange holds together: it asks for nothing that it never says, and what must be read back is. */

import { KINDS } from '../kernel/kinds/kind.ts'
import { RADIOS, type Radio } from '../kernel/kinds/radio.ts'
import { ownOf } from '../kernel/own.ts'
import { parseTemplate } from '../kernel/pack/template.ts'
import { quoted } from '../kernel/quoted.ts'
import { type Expansion, figuresOf, phrasesOf } from '../kernel/response/expansion.ts'
import type { Slot } from '../kernel/response/path.ts'
import { wordingOf } from './buildExchange.ts'
import { checkCondition } from './checkCondition.ts'
import { type Checking, checkFigure, checkInterlocks, checkResponse, checkWording, once } from './checking.ts'
import { responseOrNothing, sayingProblems } from './checkNotation.ts'
import type { When } from './conditions.ts'
import type { BriefingText, ElementText, ExchangeText, TurnText, WordingText } from './exchangeSchema.ts'
import { grouped } from './grouped.ts'
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
    checking.report('turn.empty', [...path, 'turn'], message)
  }
  const [ids, labels] = [new Set<string>(), new Set<string>()]
  const alwaysSaid = alwaysSaidIn(turn)
  for (const [index, element] of turn.elements.entries()) {
    const at: Path = [...path, 'elements', index]
    once(checking, ids, element.element, 'element', [...at, 'element'])
    once(checking, labels, element.label, 'element label', [...at, 'label'])
    for (const [number, name] of element.alsoCalled.entries()) {
      once(checking, labels, name, 'element label', [...at, 'alsoCalled', number])
    }
    checkCondition(checking, element.when, [...at, 'when'])
    checkWording(checking, element.says, [...at, 'says'])
    checkReadBack(checking, alwaysSaid, element, at)
  }
  checkNames(checking, turn, path)
  checkOrder(checking, turn, path)
  if (turn.clears !== undefined && !checking.awaited.has(turn.clears)) {
    const message = `nothing waits for the clearance ${quoted(turn.clears)}`
    checking.report('clearance.unknown', [...path, 'clears'], message, {
      name: turn.clears,
      known: () => checking.awaited,
    })
  }
  const said = turn.sets.length > 0 ? sayings(turn, sameOrGoesBy(checking)) : []
  for (const [index, name] of turn.sets.entries()) checkSet(checking, turn, said, name, [...path, 'sets', index])
}

/**
 * Parts of a read-back are kept by their names from one transmission to the next: a word that is called like a figure,
 * or like what another element demands, would count for it.
 */
function checkNames(checking: Checking, { elements }: TurnText, path: Path): void {
  const slots = elements.flatMap(({ readBack }, index) =>
    textsOf(readBack)
      .flatMap(slotsOf)
      .map((slot) => ({ ...slot, index })),
  )
  const named = grouped(slots, ({ name }) => name)
  for (const { type, name, index } of slots) {
    const others = named.get(name) ?? []
    const isTaken = others.some((other) => other.type === 'figure' || (other.required && other.index !== index))
    if (type !== 'word' || !isTaken) continue
    const message = `"${name}" stands for something else in this turn too; write it otherwise or name it with a {tag}`
    checking.report('part.name', [...path, 'elements', index, 'readBack'], message)
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
    const derived = ownOf(figures, figure)?.derived
    const of = derived && !Array.isArray(derived) && derived.by === 'same' ? derived.of : undefined
    return typeof of === 'string' ? of : figure
  }
}

/** One figure that goes by another is the same said otherwise: a departure without the letter that ICAO gives it. */
function sameOrGoesBy(checking: Checking): Names {
  const nameOf = sameAs(checking)
  return (figure) => [nameOf(figure), ...goesBy(checking, figure)]
}

function goesBy({ figures = {} }: Checking, figure: string): string[] {
  const from = ownOf(figures, figure)?.given?.from
  return from && 'by' in from ? [from.by] : []
}

type Names = (figure: string) => string | readonly string[]
const figuresIn = (text: string, nameOf: Names) => new Set(parseTemplate(text).figures.flatMap(nameOf))

/** Figures that a wording says in either phraseology, and those that it says in both. */
function figuresSaid(says: WordingText | undefined, nameOf: Names = asItIs): { any: Set<string>; both: Set<string> } {
  if (says === undefined) return { any: new Set(), both: new Set() }
  const wording = wordingOf(says)
  const [icao, faa] = [figuresIn(wording.icao, nameOf), figuresIn(wording.faa, nameOf)]
  return { any: new Set([...icao, ...faa]), both: new Set([...icao].filter((name) => faa.has(name))) }
}

interface Saying {
  readonly said: ReadonlySet<string>
  readonly when: When
}

/** Everything in a turn that says a figure (in both phraseologies, or in one), and under which condition. */
function sayings(turn: TurnText, nameOf: Names = asItIs, radio?: Radio): Saying[] {
  const saidIn = (text: WordingText | undefined) =>
    radio && text !== undefined ? figuresIn(wordingOf(text)[radio], nameOf) : figuresSaid(text, nameOf).both
  return [
    { said: saidIn(turn.opens), when: undefined },
    ...turn.elements.map(({ says, when }) => ({ said: saidIn(says), when })),
  ]
}

/** Figures that a turn says in any case, by phraseology, and those that it says in both. */
type AlwaysSaid = Readonly<Record<Radio | 'both', ReadonlySet<string>>>

function alwaysSaidIn(turn: TurnText): AlwaysSaid {
  const always = (radio?: Radio) => {
    const unconditional = sayings(turn, asItIs, radio).filter(({ when }) => when === undefined)
    return new Set(unconditional.flatMap(({ said }) => [...said]))
  }
  return { both: always(), icao: always('icao'), faa: always('faa') }
}

/** An element is read back from what was said: its own words, the opening, or another element that is always said. */
function checkReadBack(checking: Checking, always: AlwaysSaid, element: ElementText, path: Path): void {
  const { readBack, says } = element
  const at: Path = [...path, 'readBack']
  if (typeof readBack === 'string') checkSaid(checking, always.both, element, figuresSaid(says), readBack, at)
  else if (readBack) {
    for (const radio of RADIOS) {
      const own = figuresIn(wordingOf(says)[radio], asItIs)
      checkSaid(checking, always[radio], element, { any: own, both: own }, readBack[radio], [...at, radio])
    }
  }
}

function checkSaid(
  checking: Checking,
  always: ReadonlySet<string>,
  { element }: ElementText,
  own: ReturnType<typeof figuresSaid>,
  readBack: string,
  at: Path,
): void {
  for (const name of checkResponse(checking, readBack, at, 'readBack')) {
    if (own.both.has(name) || always.has(name)) continue
    const message = own.any.has(name)
      ? `${name} is to be read back, but only one of icao and faa says it`
      : `${name} is to be read back, but ${element} never says it; add <${name}> to says`
    checking.report('readBack.unsaid', at, message)
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
    checking.report('order.unknown', [...at, index], `${turn} has no element ${quoted(id)}`, {
      name: id,
      known: () => ids,
    })
  }
  const missing = ids.filter((id) => !faaOrder.includes(id))
  if (missing.length === 0) return
  const message = `faaOrder should name every element of ${turn} once; add ${missing.join(', ')}`
  checking.report('order.elements', at, message)
}

function checkSet(checking: Checking, turn: TurnText, said: readonly Saying[], name: string, path: Path): void {
  checkFigure(checking, name, path)
  const figure = ownOf(checking.figures, name)
  if (figure && (figure.derived || figure.constant !== undefined)) {
    const origin = figure.derived ? 'computed' : 'fixed in the pack'
    checking.report('sets.notEntered', path, `${name} is ${origin}; only what is entered or given can be set here`)
  }
  // Said in one phraseology only, it may go by what the other one says.
  const isSaid = turn.elements.some(({ says }) => figuresSaid(says, sameAs(checking)).any.has(name))
  const names = [name, ...(isSaid ? goesBy(checking, name) : [])]
  const saying = said.filter((one) => names.some((each) => one.said.has(each)))
  // Where figures have mistakes of their own, which of them says another one is not known.
  if (saying.length === 0 && figure) {
    const message = `${name} is set here, but no element of ${turn.turn} says it; add an element with <${name}>`
    checking.report('sets.unsaid', path, message)
  } else if (saying.length > 0 && saying.every(({ when }) => when !== undefined)) {
    const message = `${name} is set whenever ${turn.turn} is, but said only under a condition; put the condition on the turn`
    checking.report('sets.sometimes', path, message)
  }
}

/** What ICAO lists as to be read back, and is not asked for here: advice, since a pack may be of another state. */
function adviseReadBack(checking: Checking, turn: TurnText, path: Path): void {
  for (const [index, { element, says, readBack }] of turn.elements.entries()) {
    const at: Path = [...path, 'elements', index]
    const kindOf = (name: string) => ownOf(checking.figures, name)?.kind
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
      checking.report('readBack.owed', [...at, 'says'], message, undefined, 'advice')
    }
    const asksAll = RADIOS.every((radio) => {
      const asked = readBack !== undefined && asksHoldShort(wordingOf(readBack)[radio])
      return asked || !HOLD_SHORT.test(wordingOf(says)[radio])
    })
    if (asksAll) continue
    const message = `"hold short" must always be read back; add it to the readBack of ${element}, not in brackets`
    checking.report('readBack.holdShort', [...at, 'says'], message, undefined, 'advice')
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
