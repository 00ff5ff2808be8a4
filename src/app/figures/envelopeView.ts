/** What the envelope picture shows: limits, the points of two revisions, and how the CG moves as fuel is burned. */

import { armAt, spread } from '../../kernel/figures/fuel.ts'
import { limitsAt } from '../../kernel/figures/loading.ts'
import type { FigureSet } from '../../kernel/figures/model.ts'
import type { Basis, Envelope } from '../../kernel/figures/pack.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { showUnit } from '../../kernel/units.ts'
import type { Hidden } from './hiddenFigures.ts'

export interface EnvelopePoint {
  /** The envelope's label: "takeoff". */
  readonly label: string
  readonly revision: 'draft' | 'inForce'
  readonly weight: number
  readonly cg: number
  /** Limits at this weight; absent where the envelope ends below or above it. */
  readonly forward?: number
  readonly aft?: number
}

export interface WeightAndCg {
  readonly weight: number
  readonly cg: number
}

export interface EnvelopeView {
  readonly weightUnit: string
  readonly cgUnit: string
  readonly envelopes: readonly Envelope[]
  readonly points: readonly EnvelopePoint[]
  /** From the heaviest point of the draft to the lightest. */
  readonly burn: readonly WeightAndCg[]
  /** Points left out because their figures are hidden while a run is on. */
  readonly isHidden: boolean
}

/** Undefined for a pack without envelopes. */
export function envelopeView(
  pack: Pack,
  draft: FigureSet | undefined,
  inForce: FigureSet | undefined,
  hidden: ReadonlyMap<string, Hidden>,
): EnvelopeView | undefined {
  const { basis, declarations } = pack.figures
  const checks = Object.values(declarations).flatMap(({ derived }) => {
    const envelope = derived?.by === 'envelopeMargin' ? basis?.envelopes[derived.envelope ?? ''] : undefined
    const { weight, cg } = derived?.takes ?? {}
    return envelope && typeof weight === 'string' && typeof cg === 'string' ? [{ envelope, weight, cg }] : []
  })
  const [first] = checks
  if (!basis || !first) return undefined
  const isHidden = checks.some(({ weight, cg }) => hidden.has(weight) || hidden.has(cg))
  const pointsOf = (set: FigureSet | undefined, revision: EnvelopePoint['revision']): EnvelopePoint[] =>
    checks.flatMap(({ envelope, weight, cg }) => {
      const [w, c] = [set?.figures[weight]?.exact, set?.figures[cg]?.exact]
      if (w === undefined || c === undefined || isHidden) return []
      return [{ label: envelope.label, revision, weight: w, cg: c, ...limitsAt(envelope.limits, w) }]
    })
  const now = pointsOf(draft, 'draft')
  const before = pointsOf(inForce, 'inForce')
  const isSame = before.every((point, at) => point.weight === now[at]?.weight && point.cg === now[at]?.cg)
  return {
    weightUnit: basis.units.weight,
    cgUnit: showUnit(first.envelope.unit),
    envelopes: [...new Set(checks.map(({ envelope }) => envelope))],
    points: isSame ? now : [...now, ...before],
    burn: burnLine(basis, now, first.envelope.unit === 'percentMac'),
    isHidden,
  }
}

/** Steps of the burn line: enough for its bends where one tank follows another. */
const STEPS = 24
/** The line must end where the takeoff point is, or the pack counts its fuel in another way: in percent MAC or the arm's unit. */
const ENDS_WITHIN = 0.05

/** Fuel leaves the tanks in the pack's order; straight between the points where that does not lead to them. */
function burnLine(basis: Basis, points: readonly EnvelopePoint[], inPercentMac: boolean): WeightAndCg[] {
  const [light, ...heavier] = points.toSorted((a, b) => a.weight - b.weight)
  const heavy = heavier.at(-1)
  if (!light || !heavy) return []
  const straight = [heavy, ...heavier.slice(0, -1).toReversed(), light].map(({ weight, cg }) => ({ weight, cg }))
  const mac = inPercentMac ? basis.mac : undefined
  if (inPercentMac && !mac) return straight
  const armOf = (cg: number) => (mac ? mac.leadingEdge + (cg / 100) * mac.length : cg)
  const cgOf = (arm: number) => (mac ? ((arm - mac.leadingEdge) / mac.length) * 100 : arm)
  const fuel = heavy.weight - light.weight
  const line = Array.from({ length: STEPS + 1 }, (_, step) => {
    const left = fuel * (1 - step / STEPS)
    const quantities = spread(basis.tanks, left)
    const moments = basis.tanks.flat().map((tank) => {
      const quantity = quantities?.get(tank.name) ?? 0
      return quantity * armAt(tank, quantity)
    })
    const moment = light.weight * armOf(light.cg) + moments.reduce((sum, one) => sum + one, 0)
    return { weight: light.weight + left, cg: quantities ? cgOf(moment / (light.weight + left)) : Number.NaN }
  })
  const leadsThere = Math.abs((line[0]?.cg ?? Number.NaN) - heavy.cg) < ENDS_WITHIN
  return leadsThere ? line : straight
}
