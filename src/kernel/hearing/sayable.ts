/**
 * Which words may follow, by a grammar: the JSGF (W3C note, June 2000) that `grammarOf` writes, without its weights, one
 * word at a time. Whoever decodes by it need not be the recogniser that compiles the text. Pure.
 */

type Expansion =
  | { readonly type: 'word'; readonly word: string }
  | { readonly type: 'rule'; readonly name: string }
  | { readonly type: 'sequence'; readonly parts: readonly Expansion[] }
  | { readonly type: 'either'; readonly options: readonly Expansion[] }

/** What is still to come, each the one and only of its kind, so that places that were reached twice are known for one. */
interface Rest {
  readonly head: Expansion
  readonly tail: Rest | undefined
  /** Those that come before this one. */
  readonly before: Map<Expansion, Rest>
}

/** All places in the grammar that what was said so far may have led to. */
export interface Places {
  readonly next: ReadonlyMap<string, () => Places>
  /** Nothing more need be said. */
  readonly mayEnd: boolean
}

const NOTHING: Expansion = { type: 'sequence', parts: [] }
const SYMBOLS = /<([^>]*)>|\/[^/]*\/|([()[\]|])|([^\s()[\]|<>/]+)/g

/** The place before the first word of the public rule. Words in `without` cannot be said. */
export function sayableBy(grammar: string, without: ReadonlySet<string> = new Set()): Places {
  const rules = new Map<string, Expansion>()
  let start = NOTHING
  for (const [, isPublic, name = '', text = ''] of grammar.matchAll(/(public )?<([^>]*)> = ([^;]*);/g)) {
    const rule = expansionOf(text)
    rules.set(name, rule)
    if (isPublic) start = rule
  }
  const last = new Map<Expansion, Rest>()
  const rest = (head: Expansion, tail: Rest | undefined): Rest => {
    const before = tail?.before ?? last
    const made = before.get(head) ?? { head, tail, before: new Map() }
    before.set(head, made)
    return made
  }

  function placesOf(from: Iterable<Rest | undefined>): Places {
    const behind = new Map<string, Set<Rest | undefined>>()
    const seen = new Set<Rest | undefined>()
    const visit = (at: Rest | undefined): void => {
      if (seen.has(at)) return
      seen.add(at)
      if (!at) return
      const { head, tail } = at
      switch (head.type) {
        case 'word': {
          if (without.has(head.word)) return
          const tails = behind.get(head.word) ?? new Set()
          behind.set(head.word, tails.add(tail))
          return
        }
        case 'rule':
          visit(rest(rules.get(head.name) ?? NOTHING, tail))
          return
        case 'either':
          for (const option of head.options) visit(rest(option, tail))
          return
        case 'sequence':
          visit(head.parts.reduceRight<Rest | undefined>((later, part) => rest(part, later), tail))
          return
        default:
          head satisfies never
      }
    }
    for (const at of from) visit(at)
    const next = new Map<string, () => Places>()
    for (const [word, tails] of behind) {
      let places: Places | undefined
      next.set(word, () => {
        places ??= placesOf(tails)
        return places
      })
    }
    return { next, mayEnd: seen.has(undefined) }
  }

  return placesOf([rest(start, undefined)])
}

function expansionOf(text: string): Expansion {
  const symbols = [...text.matchAll(SYMBOLS)]
  let at = 0
  const either = (): Expansion => {
    const options = [sequence()]
    while (symbols[at]?.[2] === '|') {
      at++
      options.push(sequence())
    }
    return options.length === 1 ? (options[0] as Expansion) : { type: 'either', options }
  }
  const sequence = (): Expansion => {
    const parts: Expansion[] = []
    for (;;) {
      const [, rule, bracket, word] = symbols[at] ?? []
      if (at >= symbols.length || bracket === '|' || bracket === ')' || bracket === ']') break
      at++
      if (word !== undefined) parts.push({ type: 'word', word })
      else if (rule !== undefined) parts.push(rule === 'NULL' ? NOTHING : { type: 'rule', name: rule })
      else if (bracket !== undefined) {
        const inner = either()
        at++
        parts.push(bracket === '(' ? inner : { type: 'either', options: [inner, NOTHING] })
      }
    }
    return parts.length === 1 ? (parts[0] as Expansion) : { type: 'sequence', parts }
  }
  return either()
}
