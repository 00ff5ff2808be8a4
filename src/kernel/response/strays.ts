/** Values said among an element's own words that only another element can have: "lantern two alfa, zero nine right". */

import { type KindSpec, kindOf, type Specs } from '../kinds/kind.ts'
import { affixesOf } from '../kinds/table.ts'
import { isNumberToken, type Token } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { askedFor } from './asked.ts'
import { isSound, readRun } from './assign.ts'
import type { Response } from './response.ts'
import { type Atom, scan } from './scan.ts'

type Run = Extract<Atom, { type: 'run' }>

export interface Stray {
  /** Place of its first token. */
  readonly at: number
  /** Those of the others that can have it. */
  readonly owners: readonly Response[]
}

/**
 * The first number after a value of a response that is no value of it, but may be one of `others`. None after
 * "correction", which speaks of the same value again.
 */
export function strayIn(
  response: Response,
  others: readonly Response[],
  specs: Specs,
  tokens: readonly Token[],
): Stray | undefined {
  const [scene] = askedFor(response, specs).scenes
  if (!scene || others.length === 0 || tokens.some(({ text }) => text === 'correction')) return undefined
  const isOwn = (run: Run) => isValueOf(run, response, specs)
  const runs = scan(scene, tokens).filter((atom): atom is Run => atom.type === 'run')
  const values = runs.flatMap((run) => (isOwn(run) ? [run] : closedPieces(run)))
  const first = values.findIndex(isOwn)
  for (const run of first < 0 ? [] : values.slice(first + 1)) {
    if (!run.tokens.some(isNumberToken)) continue
    const at = tokens.indexOf(run.tokens[0] as Token)
    const sided = others.filter((other) => isSidedValueOf(run, tokens[at + run.tokens.length], other, specs))
    const owners = sided.length > 0 || isOwn(run) ? sided : others.filter((other) => isValueOf(run, other, specs))
    if (owners.length > 0) return { at, owners }
  }
  return undefined
}

/** "Nine five hundred feet, one two zero decimal one": after a unit or a side another number begins. */
function closedPieces(run: Run): Run[] {
  const { tokens } = run
  const begins = tokens.flatMap((token, at) => {
    const before = tokens[at - 1]
    return !before || (isNumberToken(token) && !before.number) ? [at] : []
  })
  return begins.map((begin, index) => ({ ...run, tokens: tokens.slice(begin, begins[index + 1]) }))
}

const isValueOf = (run: Run, { figures }: Response, specs: Specs) =>
  figures.some((name) => {
    const spec = ownOf(specs, name)
    if (!spec || (hasPoint(run) && !mayHavePoint(spec))) return false
    return readRun(run, spec).some((reading) => isSound(reading, spec))
  })

/** "Two two left": with the word after it, which is no word of this element. */
const isSidedValueOf = (run: Run, next: Token | undefined, other: Response, specs: Specs) =>
  next !== undefined &&
  other.figures.some((name) => {
    const spec = ownOf(specs, name)
    return spec && affixesOf(spec).get(next.text)?.role === 'direction'
  }) &&
  isValueOf({ ...run, tokens: [...run.tokens, next] }, other, specs)

const hasPoint = ({ tokens }: Run) => tokens.some(({ number }) => number?.type === 'point')

/** Nobody says a fraction of a foot or of a degree, whatever could be read; only of what is said in thousands. */
function mayHavePoint(spec: KindSpec): boolean {
  const kind = kindOf(spec)
  return kind.values === 'numbers' && (kind.step(spec) < 1 || ('say' in spec && spec.say === 'thousands'))
}
