/** Items that ask for too little, give their answer away, or stand twice. */

import type { Problem } from '../../kernel/problem.ts'
import { quoted } from '../../kernel/quoted.ts'
import { readCommand } from '../../kernel/response/commands.ts'
import type { Expansion } from '../../kernel/response/expansion.ts'
import { hypothesesOf } from '../../kernel/response/hypotheses.ts'
import { phraseOf, type WordSlot } from '../../kernel/response/path.ts'
import type { Response } from '../../kernel/response/response.ts'
import { isStop } from '../../kernel/response/stopWords.ts'
import { responseOrNothing } from '../checkNotation.ts'
import { statesIn } from '../partStates.ts'
import type { ItemText, ListText } from '../proceduresSchema.ts'
import { openSituation } from '../situations.ts'
import type { Path } from '../source.ts'
import { type Advise, activitiesOf, advising, type Written } from './written.ts'

export function adviseItems(written: Written): Problem[] {
  const problems: Problem[] = []
  const advise = advising(written.procedures.source, problems)
  for (const { value, path } of activitiesOf(written)) {
    if (!('list' in value)) continue
    for (const [index, entry] of value.entries.entries()) {
      if ('item' in entry) adviseItem(entry, [...path, 'entries', index], advise)
    }
    adviseTwice(written, value, path, advise)
  }
  return problems
}

function adviseItem(item: ItemText, path: Path, advise: Advise): void {
  const one = typeof item.response === 'string'
  const cases = typeof item.response === 'string' ? [{ say: item.response }] : item.response
  const count = /\(\s*\d+\s*\)/
  for (const [index, { say }] of cases.entries()) {
    const at: Path = one ? [...path, 'response'] : [...path, 'response', index, 'say']
    const response = responseOrNothing(say)
    if (isAllOptional(response)) {
      advise(
        'optional',
        at,
        'all of the response is in brackets, so none of it has to be said: take what must be said out',
      )
    } else if (count.test(say)) {
      advise(
        'sign',
        at,
        `${quoted(count.exec(say)?.[0] ?? '')} asks for a number to be said; write "both"`,
        say.search(count),
      )
    } else adviseAnswer(item, response, at, path, advise)
  }
}

export function isAllOptional({ paths }: Response): boolean {
  return paths.length > 0 && paths.every((path) => path.every(({ required }) => !required))
}

/** The ways to say only what must be said; undefined where a value is among it. */
function wordsDemanded({ paths }: Response): readonly (readonly WordSlot[])[] | undefined {
  const demanded = paths.map((path) => path.filter(({ required }) => required))
  const words = demanded.map((path) => path.filter((slot) => slot.type === 'word'))
  return words.every((path, index) => path.length === demanded[index]?.length) ? words : undefined
}

/** "Stand by", "hold", "pass", "next": said alone they mean Otherseat, not the aircraft. */
function isOrder(text: string): boolean {
  const { heard } = hypothesesOf({ text })
  return ORDERS.has(text.toLowerCase()) || isStop(heard.tokens, true) || readCommand(heard) !== undefined
}
const ORDERS = new Set(['hold'])

function adviseAnswer(item: ItemText, response: Response, at: Path, path: Path, advise: Advise): void {
  const demanded = wordsDemanded(response)
  if (!demanded) return
  const order = response.wordings.find(isOrder)
  if (order !== undefined) {
    const more = `say more than that: "${item.challenge} ${order}"`
    advise(
      'command',
      at,
      `${quoted(order)} is an order to Otherseat: it would be obeyed in place of an answer, or taken for one where it is meant; ${more}`,
    )
    return
  }
  const said = demanded.map((slots) => slots.flatMap(({ wordings }) => wordings[0]?.words ?? []))
  const challenge = new Set(phraseOf(item.challenge).words)
  const given = said.find((words) => words.every((word) => challenge.has(word)))
  if (given) {
    const message = `the challenge gives its answer away: ${quoted(given.join(' '))} stands in it; name the thing alone and let the answer say how it is`
    advise('givenAway', [...path, 'challenge'], message)
    return
  }
  const states = new Set((statesIn(item.states) ?? []).flat().flatMap((state) => phraseOf(state).words))
  const bare = said.find((words) => words.every((word) => BARE.has(word) && (word === 'checked' || !states.has(word))))
  if (bare) {
    advise(
      'bare',
      at,
      `${quoted(bare.join(' '))} says nothing of what was seen: let the answer be the value or the state, "<fuel> pounds", "both closed"${bare.includes('set') ? '; of a brake, give states: [[set], [released]]' : ''}`,
    )
    return
  }
  const all = statesIn(item.states)
  if (!all || isAnyState(response.tree, all)) return
  const names = all.flat().join(', ')
  advise(
    'states',
    [...path, 'states'],
    `none of the states (${names}) is what ${quoted(said[0]?.join(' ') ?? '')} says; the right one must be among them`,
  )
}

/**
 * Degani and Wiener, Cockpit checklists: concepts, design, and use (Human Factors 35(2), 1993), guideline 1 (looked up): a
 * response portrays the status or value that is wanted, not just "checked" or "set". CAA CAP 676 and FAA AC 120-71 say
 * likewise (from memory).
 */
const BARE = new Set([
  'set',
  'checked',
  'check',
  'complete',
  'completed',
  'done',
  'verified',
  'confirmed',
  'ok',
  'okay',
])

/** Whether a response says one of the states. */
function isAnyState(tree: Expansion, states: readonly (readonly string[])[]): boolean {
  const texts = textIn(tree)
  return states
    .flat()
    .some((state) => texts.some((text) => ` ${text} `.includes(` ${phraseOf(state).words.join(' ')} `)))
}

function textIn(node: Expansion): string[] {
  switch (node.type) {
    case 'words':
      return [phraseOf(node.words.join(' ')).words.join(' ')]
    case 'figure':
      return []
    case 'optional':
      return textIn(node.part)
    case 'either':
      return node.options.flatMap(textIn)
    case 'sequence':
      return [...node.parts.flatMap(textIn), node.parts.map((part) => textIn(part)[0] ?? '').join(' ')]
  }
}

/** One challenge twice where both may be asked: nobody knows which is meant. */
function adviseTwice({ pack, figures }: Written, list: ListText, path: Path, advise: Advise): void {
  const before: { readonly item: ItemText; readonly words: string }[] = []
  for (const [index, entry] of list.entries.entries()) {
    if (!('item' in entry)) continue
    const words = phraseOf(entry.challenge).words.join(' ')
    const first = before.find(
      (one) =>
        one.words === words &&
        openSituation(
          { pack: pack.value, figures: figures.value.figures },
          [list.when, one.item.when, entry.when],
          [],
        ) !== undefined,
    )
    if (first) {
      const message = `item ${first.item.item} of this list has the challenge ${quoted(entry.challenge)} too; say in each what it asks for`
      advise('twice', [...path, 'entries', index, 'challenge'], message)
    }
    before.push({ item: entry, words })
  }
}
