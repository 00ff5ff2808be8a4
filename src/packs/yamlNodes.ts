/** What may not stand in the data of a pack or sheet though it is YAML: names twice, names that are none, too much of one thing. */

import { type Document, isAlias, isMap, isScalar, isSeq, type ParsedNode } from 'yaml'
import { MOST_ENTRIES } from '../kernel/bounds.ts'
import { quoted } from '../kernel/quoted.ts'
import { TWICE } from './yamlMistakes.ts'
import type { Mistake } from './yamlText.ts'

/** Names that every object of the language has: as names of things they would be found where nothing is. */
export function isUsable(name: string): boolean {
  return !(name in Object.prototype)
}

/** All of them, by their place. */
export function mistakesIn({ contents }: Document.Parsed<ParsedNode>): readonly Mistake[] {
  const mistakes: Mistake[] = []
  const anchors = new Set<string>()
  const wrong = (offset: number, message: string, code?: Mistake['code']) =>
    mistakes.push({ offset, message, ...(code && { code }) })

  function visit(node: unknown, inside: readonly string[]): void {
    if (isAlias(node)) {
      const offset = node.range?.[0] ?? 0
      if (inside.includes(node.source)) wrong(offset, `"*${node.source}" would hold itself; write out what is meant`)
      else if (!anchors.has(node.source)) wrong(offset, `nothing before this is called "&${node.source}"`)
      return
    }
    if (!isMap(node) && !isSeq(node)) {
      if (isScalar(node) && node.anchor !== undefined) anchors.add(node.anchor)
      return
    }
    const { anchor } = node
    if (node.items.length > MOST_ENTRIES) {
      wrong(node.range?.[0] ?? 0, `${node.items.length} entries in one place; at most ${MOST_ENTRIES}`)
      return
    }
    const within = anchor === undefined ? inside : [...inside, anchor]
    if (anchor !== undefined) anchors.add(anchor)
    if (isSeq(node)) for (const item of node.items) visit(item, within)
    else visitPairs(node.items, within)
  }

  function visitPairs(pairs: readonly { readonly key: unknown; readonly value: unknown }[], inside: readonly string[]) {
    const names = new Set<string>()
    for (const { key, value } of pairs) {
      const offset = (key as ParsedNode | null)?.range?.[0] ?? 0
      const name = isScalar(key) && key.value !== null ? String(key.value) : undefined
      if (name === undefined)
        wrong(offset, 'a name should stand before this colon, not a list, a set of names or nothing')
      else if (!isUsable(name)) wrong(offset, `${quoted(name)} cannot be a name here; choose another`)
      else if (names.has(name)) wrong(offset, TWICE, 'id.duplicate')
      if (name !== undefined) names.add(name)
      visit(value, inside)
    }
  }

  visit(contents, [])
  return mistakes
}
