/** Answers to an item: right ones in their wordings, and wrong ones that lie near them. Whether they are so, `judge` says. */

import type { Neighbour } from '../../kernel/figures/neighbours.ts'
import type { Figure, Figures, Value } from '../../kernel/kinds/kind.ts'
import { isNumeric, sayValue } from '../../kernel/kinds/table.ts'
import type { Item } from '../../kernel/pack/checklist.ts'
import type { Expansion } from '../../kernel/response/expansion.ts'
import { opposites } from '../../kernel/response/lexicon.ts'
import type { Response } from '../../kernel/response/response.ts'
import { sayResponse } from '../../kernel/response/sentence.ts'

export interface Refused {
  readonly said: string
  readonly why: string
}

const MOST_WAYS = 6

/** Ways to say it right, the fullest first. */
export function waysOf(response: Response, figures: Figures): string[] {
  const ways = (['plain', 'standard'] as const).flatMap((phraseology) =>
    worded(response.tree, (name) => {
      const figure = figures[name]
      return figure ? sayValue(figure, phraseology) : ''
    }),
  )
  return [...new Set(ways)].filter((said) => said !== '').slice(0, MOST_WAYS)
}

/** Every way through the alternatives and optional parts, as far as anybody would read them. */
function worded(node: Expansion, say: (figure: string) => string): string[] {
  switch (node.type) {
    case 'words':
      return [node.words.join(' ')]
    case 'figure':
      return [say(node.name)]
    case 'optional':
      return [...worded(node.part, say), '']
    case 'either':
      return node.options.flatMap((option) => worded(option, say)).slice(0, MOST_READ)
    case 'sequence':
      return node.parts.reduce<string[]>(
        (heads, part) =>
          heads
            .flatMap((head) => worded(part, say).map((tail) => [head, tail].filter(Boolean).join(' ')))
            .slice(0, MOST_READ),
        [''],
      )
  }
}

const MOST_READ = 24

/** Wrong answers that somebody may give: the other states, the values beside, the answer without its value. */
export function refusable(
  item: Item,
  response: Response,
  figures: Figures,
  neighbours: (figure: string) => readonly Neighbour[],
): Refused[] {
  const right = sayResponse(response, figures, 'plain')
  const found = [
    ...otherStates(item, right),
    ...response.figures.flatMap((name) => {
      const figure = figures[name]
      return figure ? otherValues(name, figure, response, figures, neighbours(name)) : []
    }),
    ...(response.figures.length > 0 ? [{ said: 'checked', why: 'says no value' }] : []),
  ]
  return [...new Map(found.reverse().map((one) => [one.said, one])).values()].reverse()
}

function otherStates({ states = [] }: Item, right: string): Refused[] {
  const words = right.split(' ')
  const stated = states.flatMap((row) => (row.some((word) => right.includes(word)) ? [] : row.slice(0, 1)))
  const others = words.flatMap((word) =>
    [...opposites(word.toLowerCase())].slice(0, 1).map((other) => right.replace(word, other)),
  )
  return [...stated, ...others].map((said) => ({ said, why: 'another state' }))
}

function otherValues(
  name: string,
  figure: Figure,
  response: Response,
  figures: Figures,
  neighbours: readonly Neighbour[],
): Refused[] {
  const said = (value: Value) => {
    const other = { ...figure, value } as Figure
    return sayResponse(response, { ...figures, [name]: other }, 'plain')
  }
  const beside = neighbours.slice(0, 3).map(({ value, detail }) => ({ said: said(value), why: `the ${detail}` }))
  return [...beside, ...swapped(figure).map((value) => ({ said: said(value), why: 'two digits swapped' }))]
}

/** With the first two digits swapped that differ; a value whose digits are alike has none. */
function swapped(figure: Figure): Value[] {
  const text = String(figure.value)
  for (let at = 0; at + 1 < text.length; at++) {
    const pair = text.slice(at, at + 2)
    if (!/^\d\d$/.test(pair) || pair[0] === pair[1]) continue
    const turned = `${text.slice(0, at)}${pair[1]}${pair[0]}${text.slice(at + 2)}`
    if (isNumeric(figure)) return turned.startsWith('0') ? [] : [Number(turned)]
    return [turned]
  }
  return []
}
