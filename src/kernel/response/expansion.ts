/**
 * The tree of a response text (`parse.ts` makes it) and what can be read off it. Consecutive words form one phrase; a tag
 * names its part.
 */

export type Expansion =
  | { readonly type: 'words'; readonly words: readonly string[]; readonly tag?: string }
  | { readonly type: 'figure'; readonly name: string; readonly tag?: string }
  | { readonly type: 'sequence'; readonly parts: readonly Expansion[]; readonly tag?: string }
  | { readonly type: 'either'; readonly options: readonly Expansion[]; readonly tag?: string }
  | { readonly type: 'optional'; readonly part: Expansion }

/** Names of the figures in an expansion, each once, in order. */
export function figuresOf(expansion: Expansion): string[] {
  const names = new Set<string>()
  const visit = (node: Expansion) => {
    if (node.type === 'figure') names.add(node.name)
    else if (node.type === 'optional') visit(node.part)
    else if (node.type === 'sequence') node.parts.forEach(visit)
    else if (node.type === 'either') node.options.forEach(visit)
  }
  visit(expansion)
  return [...names]
}

/** What every saying of an expansion has. */
export interface Least {
  /** Figures: of alternatives one is said. */
  readonly values: number
  /** Parts with names of their own, which may come in several breaths. */
  readonly parts: number
}

/** How many figures and how many tagged parts the shortest saying of an expansion has. */
export function leastOf(expansion: Expansion): Least {
  const both = (nodes: readonly Expansion[], join: (...counts: number[]) => number) => {
    const counts = nodes.map(leastOf)
    return { values: join(...counts.map(({ values }) => values)), parts: join(...counts.map(({ parts }) => parts)) }
  }
  const sum = (...counts: number[]) => counts.reduce((total, count) => total + count, 0)
  const inside = () => {
    switch (expansion.type) {
      case 'words':
      case 'optional':
        return { values: 0, parts: 0 }
      case 'figure':
        return { values: 1, parts: 0 }
      case 'either':
        return both(expansion.options, Math.min)
      case 'sequence':
        return both(expansion.parts, sum)
    }
  }
  const { values, parts } = inside()
  return { values, parts: 'tag' in expansion && expansion.tag !== undefined ? 1 : parts }
}

/** Most wordings that one group is unfolded to. */
const MOST_WORDINGS = 200

/** Every way to say an expansion that holds no figure, as phrases; empty phrases for what is optional. */
export function phrasesOf(expansion: Expansion): string[] {
  switch (expansion.type) {
    case 'words':
      return [expansion.words.join(' ')]
    case 'figure':
      return ['']
    case 'optional':
      return ['', ...phrasesOf(expansion.part)]
    case 'either':
      return expansion.options.flatMap(phrasesOf).slice(0, MOST_WORDINGS)
    case 'sequence':
      return expansion.parts.reduce<string[]>(
        (heads, part) => {
          const tails = phrasesOf(part)
          const all = heads.flatMap((head) => tails.map((tail) => [head, tail].filter(Boolean).join(' ')))
          return all.slice(0, MOST_WORDINGS)
        },
        [''],
      )
  }
}

/** All literal wordings of an expansion, figures aside: each phrase between figures in every way it can be said. */
export function wordsOf(expansion: Expansion): string[] {
  const phrases = new Set<string>()
  const visit = (node: Expansion) => {
    if (figuresOf(node).length === 0) for (const phrase of phrasesOf(node)) phrases.add(phrase)
    else if (node.type === 'optional') visit(node.part)
    else if (node.type === 'sequence') node.parts.forEach(visit)
    else if (node.type === 'either') node.options.forEach(visit)
  }
  visit(expansion)
  phrases.delete('')
  return [...phrases]
}
