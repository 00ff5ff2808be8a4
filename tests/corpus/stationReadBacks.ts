/**
 * Read-backs of three to seven elements: right, with one element left out, and with one value wrong; each element in its
 * turn. Of stations made up for it (`stations.ts`), and of a pack's exchanges. `STATION_TUNING` was looked at,
 * `STATION_CHECK` was not.
 */

import type { Figure, Figures } from '../../src/kernel/kinds/kind.ts'
import { tokensOf, transcriptOf } from '../../src/kernel/numbers/tokens.ts'
import type { Judgement } from '../../src/kernel/response/model.ts'
import { judgeReadBack, partNames, statesOf, withoutAddress } from '../../src/kernel/response/readBack.ts'
import { responseFrom } from '../../src/kernel/response/response.ts'
import type { SpokenElement } from '../../src/kernel/response/spokenElement.ts'
import { type Random, seeded } from './case.ts'
import { pronounce } from './checkingValues.ts'
import { CLEARANCE, of, type Said, sayGiven, TAXI, type Words } from './stations.ts'
import type { Source } from './transmissions.ts'

export const STATION_TUNING = 4_203
export const STATION_CHECK = 20_281_130

export interface StationReadBack {
  readonly elements: readonly SpokenElement[]
  readonly figures: Figures
  readonly station?: string
  readonly heard: string
  readonly truth: 'right' | 'leftOut' | 'wrong'
  /** The element that was left out or said wrong. */
  readonly element?: string
}

const CALLSIGN: Figure = { kind: 'callsign', telephony: ['Sandbar', 'Curlew'], value: 'SANDBAR 37' }
const SIGNED = responseFrom('[<callsign>]')

/** Some of them in their order. */
function someOf<T>(all: readonly T[], length: number, random: Random): T[] {
  const some = [...all]
  while (some.length > length) some.splice(random.below(some.length), 1)
  return some
}

/** `count` of one truth; `source` gives elements of a pack. */
export function* stationReadBacks(
  truth: StationReadBack['truth'],
  count: number,
  seed: number,
  source?: (random: Random) => Source,
): Generator<StationReadBack> {
  const random = seeded(seed)
  for (let done = 0; done < count; ) {
    const readBack = source ? ofSource(source(random), random) : ofStation(random)
    if (readBack.said.length < 3) continue
    const elements = truth === 'right' ? [undefined] : readBack.said.filter(({ wrong }) => truth === 'leftOut' || wrong)
    for (const element of elements) {
      if (done++ >= count) return
      yield spoken(readBack, truth, element?.id, random)
    }
  }
}

interface ReadBack {
  readonly said: readonly Said[]
  readonly callSign: Figure | undefined
  readonly station: string | undefined
}

function ofStation(random: Random): ReadBack {
  const all = random.of([CLEARANCE, CLEARANCE, TAXI])
  const said = someOf(all, of(random, 3, 7), random).map((one) => sayGiven(one, random))
  return {
    said,
    callSign: { ...CALLSIGN, value: `${random.of(['SANDBAR', 'CURLEW'])} ${of(random, 10, 999)}` } as Figure,
    station: 'harbour delivery',
  }
}

function ofSource({ draws, callSign, station }: Source, random: Random): ReadBack {
  const said = someOf(draws, of(random, 3, 7), random).map((draw): Said => {
    const figures = draw.draw(random)
    const other = draw.another(figures, random)
    const words = (those: Figures): Words => ({ text: draw.say(those, random, false) })
    return {
      ...{ id: draw.id, response: draw.response, figures, words: words(figures) },
      ...(other && { wrong: words(other) }),
    }
  })
  return { said, callSign, station }
}

function spoken(
  { said, callSign, station }: ReadBack,
  truth: StationReadBack['truth'],
  element: string | undefined,
  random: Random,
): StationReadBack {
  const all = truth === 'leftOut' ? said.filter(({ id }) => id !== element) : said
  const words = inOrder(all, random).map((one) => (truth === 'wrong' && one.id === element && one.wrong) || one.words)
  const texts = words.map(({ text, alone }, at) => (alone === undefined || isNumberBeside(words, at) ? text : alone))
  const body = `${random.of(BEGINNINGS)}${texts.join(random.of([' ', ', ', ', ', ' uh ']))}`
  const signed = callSign ? signedBy(body, pronounce(callSign, random), random) : body
  const address = station !== undefined && random.chance(0.1) ? `${station}, ` : ''
  const elements = said.map(({ id, response }): SpokenElement => ({ id, response }))
  return {
    elements: callSign ? [...elements, { id: 'callSign', response: SIGNED }] : elements,
    figures: { ...Object.assign({}, ...said.map(({ figures }) => figures)), ...(callSign && { callsign: callSign }) },
    ...(station !== undefined && { station }),
    heard: `${address}${signed}`,
    truth,
    ...(element !== undefined && { element }),
  }
}

const BEGINNINGS = ['', '', '', '', '', 'roger ', 'copied, ', 'okay '] as const

/** As they were given, or two neighbours the other way round. */
function inOrder<T>(all: readonly T[], random: Random): readonly T[] {
  const at = random.below(all.length - 1)
  const [one, other] = [all[at], all[at + 1]]
  if (one === undefined || other === undefined || random.chance(0.8)) return all
  return all.toSpliced(at, 2, other, one)
}

/** A call sign in front ends in a number as well. */
function isNumberBeside(words: readonly Words[], at: number): boolean {
  const [before, behind] = [words[at - 1], words[at + 1]]
  const last = before && tokensOf(before.text).at(-1)
  const next = behind && tokensOf(behind.alone ?? behind.text)[0]
  return at === 0 || last?.number !== undefined || next?.number !== undefined
}

function signedBy(body: string, callSign: string, random: Random): string {
  switch (random.of(['end', 'end', 'end', 'front', 'none'] as const)) {
    case 'end':
      return `${body}, ${callSign}`
    case 'front':
      return `${callSign}, ${body}`
    case 'none':
      return body
  }
}

export const judgementOfStation = ({ elements, figures, station = '', heard }: StationReadBack): Judgement =>
  judgeReadBack(elements, { figures, heard: withoutAddress(transcriptOf(heard), station) })

/** What is right is accepted; what was left out is asked for by its name, and nothing else; what is wrong never passes. */
export function isAsItShould({ elements, truth, element }: StationReadBack, judgement: Judgement): boolean {
  const owed = elements.filter((one) => partNames(one).required.size > 0)
  const states = statesOf(owed, judgement)
  switch (truth) {
    case 'right':
      return judgement.verdict === 'correct'
    case 'leftOut':
      return (
        judgement.verdict === 'incomplete' && owed.every(({ id }) => states[id] === (id === element ? 'missing' : 'ok'))
      )
    case 'wrong':
      return judgement.verdict !== 'correct' && states[element ?? ''] !== 'ok'
  }
}
