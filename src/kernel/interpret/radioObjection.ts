/** What the pilot says to a colleague's read-back: "negative, squawk three one four six", "you left out the squawk". */

import { phrase } from '../hearing/phrases.ts'
import { isSameValue } from '../kinds/table.ts'
import type { Element } from '../pack/exchange.ts'
import { figuresFor } from '../pack/place.ts'
import { cuesOf } from '../response/cues.ts'
import type { Hypotheses } from '../response/hypotheses.ts'
import { judgeReadBack, wholeResponse } from '../response/readBack.ts'
import { readOff } from '../response/readOff.ts'
import { segmentsOf } from '../response/segments.ts'
import { radioBreath } from '../run/partner/breath.ts'
import { readBacksMeant } from '../run/partner/meant.ts'
import type { Fault, ObjectionTo } from '../run/partner/model.ts'
import { slippedTurn } from '../run/partner/objecting.ts'
import { partnerOf } from '../run/partner/partner.ts'
import { callSignBeside } from '../run/talk/callSign.ts'
import { requiredOf } from '../run/talk/readBackWords.ts'
import { saidValues } from '../run/talk/said.ts'
import { findTurn } from '../run/talk/talk.ts'
import { goneByName } from './disputed.ts'
import { type PointIn, pointsIn } from './pointIn.ts'
import { meantByName } from './shortName.ts'
import { judgedBy } from './transmission.ts'
import type { Utterance } from './utterance.ts'

/** Its number among all chances, and the elements that are named; none where it could be any. */
export interface RadioObjection {
  readonly to: ObjectionTo
  readonly chance: number
  readonly elements?: readonly string[]
}

/** An element that was left out, by its name. */
export function leftOutIn(utterance: Utterance, text: string): RadioObjection | undefined {
  const name = goneByName(text)
  const named = name === undefined ? undefined : elementsNamed(utterance, name)
  return named && { to: 'skipped', ...named }
}

/** One that is doubted, by its name, where no value is said for it. */
export function readBackNamed(utterance: Utterance, name: string): RadioObjection | undefined {
  const named = elementsNamed(utterance, name)
  return named && { to: 'value', ...named }
}

/** Of the colleague's last read-back. */
function elementsNamed(
  { pack, state }: Utterance,
  name: string,
): Pick<RadioObjection, 'chance' | 'elements'> | undefined {
  const { chances } = partnerOf(state)
  for (const chance of radioBreath(pack, state)) {
    const { kind, about } = chances[chance] ?? {}
    if (kind !== 'colleague' || about === undefined) continue
    const isNamed = ({ label, alsoCalled }: Element) =>
      [label, ...alsoCalled].some((one) => phrase(one) === phrase(name))
    const all = requiredOf(findTurn(pack, about).turn, state)
    const whole = all.filter(isNamed)
    const meant = whole.length > 0 ? undefined : meantByName(all, ({ label }) => label, name)
    const elements = meant ? [meant] : whole
    if (elements.length > 0) return { chance, elements: elements.map(({ id }) => id) }
  }
  return undefined
}

/** A value of a read-back, whatever it should be; the newest read-back that it can be of. "Correction" is what is said on the radio itself. */
export function otherReadBack(utterance: Utterance): RadioObjection | 'agreed' | undefined {
  const { pack, state } = utterance
  const { chances } = partnerOf(state)
  const isCorrection = utterance.opening === 'correction' && radioBreath(pack, state).length > 0
  const points: readonly PointIn[] = isCorrection ? [{ lead: 'against', rest: utterance.rest }] : pointsIn(utterance)
  const found = points.flatMap(({ lead, rest }) => {
    if (!lead) return []
    return readBacksMeant(pack, state).flatMap((chance) => {
      const { about = '', fault } = chances[chance] ?? {}
      const read = readIn(utterance, about, rest, fault)
      return read ? [{ lead, chance, ...read }] : []
    })
  })
  // A number may be of several: it is of the one that it is called by, or right in.
  const [best] = found.toSorted((one, other) => other.sure - one.sure)
  if (!best) return undefined
  const { lead, chance, elements, isAsReadBack } = best
  // What was read back so, and is said to be so, is agreed with, where the controller has not come back with something else.
  const isOpen = slippedTurn(pack, state) === chances[chance]?.about
  if (lead === 'states' && isAsReadBack && !isOpen) return 'agreed'
  return { to: 'value', chance, ...(elements.length > 0 && { elements }) }
}

/** Elements that a value was said for; empty where it could be of several. The surer, the likelier this turn is meant. */
interface Read {
  readonly elements: readonly string[]
  readonly sure: number
  /** As the colleague said it. */
  readonly isAsReadBack: boolean
}

/** Undefined where no value of this turn was said. */
function readIn(utterance: Utterance, about: string, rest: Hypotheses, fault: Fault | undefined): Read | undefined {
  const { pack, state } = utterance
  const { exchange, turn } = findTurn(pack, about)
  const required = requiredOf(turn, state)
  const all = [...required, { id: 'callSign', response: callSignBeside(pack, exchange) }]
  const figures = figuresFor(pack, saidValues(state), wholeResponse(all).figures)
  const { parts } = judgeReadBack(all, { ...judgedBy(utterance, turn, rest, []), ...rest, figures })
  const partsOf = ({ response }: (typeof required)[number]) =>
    parts.filter(({ name, state: part }) => response.figures.includes(name) && part !== 'missing')
  const said = required.filter((element) => partsOf(element).length > 0)
  if (said.length > 0) {
    const segments = segmentsOf(cuesOf(all, figures), rest.heard.tokens, new Set())
    const isNamed = segments.some(({ element }) => said.some(({ id }) => id === all[element]?.id))
    const isRight = said.flatMap(partsOf).every((part) => part.state === 'ok')
    const isAsReadBack = said.flatMap(partsOf).every(({ name, state: part, read }) => {
      if (fault?.figure !== name) return part === 'ok'
      const spec = pack.figures.declarations[name]?.spec
      return spec !== undefined && fault.said !== undefined && read !== undefined && isSameValue(spec, read, fault.said)
    })
    return {
      elements: said.map(({ id }) => id),
      sure: 1 + (isNamed ? 1 : 0) + (isRight ? 2 : 0),
      isAsReadBack,
    }
  }
  const isRead = required.some(({ label, response }) =>
    response.figures.some((name) => {
      const declared = pack.figures.declarations[name]
      return declared && readOff(declared.spec, [label, declared.label, ...declared.alsoCalled], rest) !== undefined
    }),
  )
  return isRead ? { elements: [], sure: 0, isAsReadBack: false } : undefined
}
