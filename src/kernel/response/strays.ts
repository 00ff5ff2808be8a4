/** Values said among an element's own words that only another element can have: "lantern two alfa, zero nine right". */

import { type KindSpec, kindOf, type Specs } from '../kinds/kind.ts'
import { affixesOf } from '../kinds/table.ts'
import { isNumberToken, type Token } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { askedFor } from './asked.ts'
import type { Response } from './response.ts'
import { isSound, readRun } from './runs.ts'
import { type RunAtom, scan } from './scan.ts'

export interface Stray {
  /** Place of its first token. */
  readonly at: number
  /** Those of the others whose value it could be. */
  readonly owners: readonly Response[]
}

/**
 * The first number after the response's own value that cannot be its value again but could be that of one of `others`.
 * None where "correction" was said: that is about the same value.
 */
export function strayIn(
  response: Response,
  others: readonly Response[],
  specs: Specs,
  tokens: readonly Token[],
): Stray | undefined {
  const [frame] = askedFor(response, specs).frames
  if (!frame || others.length === 0 || tokens.some(({ text }) => text === 'correction')) return undefined
  const isOwn = (run: RunAtom) => isValueOf(run, response, specs)
  const runs = scan(frame, tokens).filter((atom): atom is RunAtom => atom.type === 'run')
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

/** "Nine thousand five hundred feet, one two zero decimal one": after a unit or a side a new number begins. */
function closedPieces(run: RunAtom): RunAtom[] {
  const { tokens } = run
  const begins = tokens.flatMap((token, at) => {
    const before = tokens[at - 1]
    return !before || (isNumberToken(token) && !before.number) ? [at] : []
  })
  return begins.map((begin, index) => ({ ...run, tokens: tokens.slice(begin, begins[index + 1]) }))
}

const isValueOf = (run: RunAtom, { figures }: Response, specs: Specs) =>
  figures.some((name) => {
    const spec = ownOf(specs, name)
    if (!spec || (hasPoint(run) && !mayHavePoint(spec))) return false
    return readRun(run, spec).some((reading) => isSound(reading, spec))
  })

/** "Two two left": a value together with the word after it, which this element does not know. */
const isSidedValueOf = (run: RunAtom, next: Token | undefined, other: Response, specs: Specs) =>
  next !== undefined &&
  other.figures.some((name) => {
    const spec = ownOf(specs, name)
    return spec && affixesOf(spec).get(next.text)?.role === 'direction'
  }) &&
  isValueOf({ ...run, tokens: [...run.tokens, next] }, other, specs)

const hasPoint = ({ tokens }: RunAtom) => tokens.some(({ number }) => number?.type === 'point')

/** Nobody says a fraction of a foot or a degree, although it could be read; of a weight in thousands they do. */
function mayHavePoint(spec: KindSpec): boolean {
  const kind = kindOf(spec)
  return kind.values === 'numbers' && (kind.step(spec) < 1 || ('say' in spec && spec.say === 'thousands'))
}
