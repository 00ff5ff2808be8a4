import { beforeAll, describe, expect, it } from 'vitest'
import { holds } from '../../../src/kernel/figures/condition.ts'
import type { Figure, Figures, KindSpec, Value } from '../../../src/kernel/kinds/kind.ts'
import { transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'

import type { Briefing, Topic } from '../../../src/kernel/pack/exchange.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import { topicsIn } from '../../../src/kernel/response/topics.ts'
import { keywordsOf } from '../../../src/kernel/response/topicWords.ts'
import { seeded } from '../../corpus/case.ts'
import { anotherValue } from '../../corpus/neighbours.ts'
import { drawOf } from '../../corpus/readElements.ts'
import { packAt } from '../figures/marram.ts'

const FIGURES: Figures = {
  runway: { kind: 'runway', value: '27L' },
  level: { kind: 'altitude', unit: 'ft', value: 5000 },
  flap: { kind: 'choice', value: '12', options: { '12': ['twelve'], '19': ['nineteen'] } },
  route: { kind: 'choice', value: 'A', options: { A: ['tarn two alfa'], B: ['tarn two bravo'] } },
  v1: { kind: 'speed', value: 128 },
  vr: { kind: 'speed', value: 134 },
  v2: { kind: 'speed', value: 141 },
}
const TOPICS = [
  { id: 'runway', say: ['[departing] [from] runway <runway>'] },
  { id: 'level', say: ['[first] (level | altitude) <level> [feet]', 'climb [to] <level> [feet]'] },
  { id: 'flap', say: ['(flap | flaps) <flap>'] },
  { id: 'route', say: ['<route> [departure]'] },
  { id: 'speeds', say: ['V one <v1> [rotate <vr>] [V two <v2>]'] },
  { id: 'reject', say: ['[the] rejected takeoff [briefing]', 'we stop'] },
  { id: 'failure', say: ['engine failure', 'failure after V one'] },
  { id: 'terrain', say: ['terrain'] },
].map(({ id, say }) => ({ id, say: say.map((text) => responseFrom(text)) }))
const named = (text: string) => topicsIn(TOPICS, FIGURES, transcriptOf(text))

describe('topics of a briefing', () => {
  it.each([
    ['runway two seven left', { runway: 'ok' }],
    ['we are departing runway two seven left today and level five thousand first', { runway: 'ok', level: 'ok' }],
    ['first level five thousand five hundred', { level: 'wrong' }],
    ['climb to five thousand', { level: 'ok' }],
    ['climb five thousand five hundred', { level: 'wrong' }],
    ['we climb to altitude five thousand feet', { level: 'ok' }],
    ['level five thousand and after that heading two hundred', { level: 'ok' }],
    ['runway two seven right and in a rejected takeoff I brake', { runway: 'wrong', reject: 'ok' }],
    ['before eighty knots we stop for anything', { reject: 'ok' }],
    ['tarn two alfa departure with flap twelve', { route: 'ok', flap: 'ok' }],
    ['tarn to alfa departure with flap twelve', { route: 'ok', flap: 'ok' }],
    ['runway two seven left or', { runway: 'ok' }],
    ['runway two seven left correction', { runway: 'ok' }],
    ['runway two seven left stand by', { runway: 'ok' }],
    ['runway two seven left say again', { runway: 'ok' }],
    ['runway stand by two seven left', { runway: 'ok' }],
    ['runway two seven left not the other one', {}],
    ['flap twelve sorry', { flap: 'ok' }],
    ['flap twelve sorry nineteen', { flap: 'wrong' }],
    ['level five thousand maybe six thousand', { level: 'wrong' }],
    ['level five thousand then heading two hundred', { level: 'ok' }],
    ['level banana five thousand', {}],
    ['the briefing is about the weather', {}],
    ['the weather is fine', {}],
    ['cruise at flight level two four zero', {}],
    ['flap twelve banana nineteen', { flap: 'ok' }],
    ['flap twelve or banana nineteen', { flap: 'ok' }],
    ['flap or twelve', { flap: 'ok' }],
    ['flap twelve say again nineteen', { flap: 'ok' }],
    ['flap twelve flap', { flap: 'ok' }],
    ['flap negative', {}],
    ['flap stand by', {}],
    ['we stop and no we stop', { reject: 'ok' }],
    ['no we stop', {}],
    ['not banana runway two seven left', { runway: 'ok' }],
    ['not five runway two seven left', { runway: 'ok' }],
  ])('are found in "%s"', (heard, topics) => {
    expect(named(heard).topics).toEqual(topics)
  })

  it.each([
    ['not runway two seven left', 'runway'],
    ['we are not departing from runway two seven left', 'runway'],
    ['the runway is not two seven left', 'runway'],
    ['runway two seven left and later runway three three', 'runway'],
    ['runway three three and later runway two seven left', 'runway'],
    ['first level five thousand, no, six thousand', 'level'],
    ['level five thousand or six thousand', 'level'],
    ['flap twelve then flap nineteen', 'flap'],
    ['flap nineteen flap twelve', 'flap'],
    ['flap twelve rather nineteen', 'flap'],
    ['flap twelve perhaps nineteen', 'flap'],
    ['not uh departing from the runway two seven left', 'runway'],
    ['climb five thousand level six thousand', 'level'],
    ['tarn two alfa, tarn two bravo', 'route'],
    ['rotate one three five', 'speeds'],
    ['V two one four two', 'speeds'],
    ['V one one two eight and much later rotate one three five', 'speeds'],
    ['we will not use runway two seven left', 'runway'],
    ['runway two seven left not', 'runway'],
    ['flap twelve is wrong', 'flap'],
    ['flap twelve is not correct', 'flap'],
    ['first level is five thousand not', 'level'],
    ['first level five thousand, no', 'level'],
    ['V one one two eight rotate one three four V two one four one are wrong', 'speeds'],
  ])('are wrong where a value is denied or another one stands beside it: "%s"', (heard, topic) => {
    expect(named(heard).topics).toEqual({ [topic]: 'wrong' })
    expect(named(heard).heard.length).toBeGreaterThan(0)
  })

  it.each([
    ['runway three three correction runway two seven left', { runway: 'ok' }],
    ['runway three three correction two seven left', { runway: 'ok' }],
    ['runway two seven left correction runway three three', { runway: 'wrong' }],
    ['runway three three correction uh departing from runway two seven left', { runway: 'ok' }],
    ['runway two seven left correction runway three three correction runway two seven left', { runway: 'ok' }],
    ['flap nineteen correction flap twelve', { flap: 'ok' }],
    ['climb six thousand correction level five thousand', { level: 'ok' }],
    ['not we stop correction we stop', { reject: 'ok' }],
    ['correction runway two seven left', { runway: 'ok' }],
    ['V one one two eight rotate one three five correction rotate one three four', { speeds: 'ok' }],
  ])('are as "correction" leaves them: "%s"', (heard, topics) => {
    expect(named(heard).topics).toEqual(topics)
  })

  it.each([
    ['runway two seven left two thousand metres', 'ok'],
    ['runway two seven left is two thousand four hundred meters long and wet', 'ok'],
    ['runway 27L 7800 feet', 'ok'],
    ['runway two seven right two thousand metres', 'wrong'],
    ['runway two eight left two thousand metres', 'wrong'],
    ['not runway two seven left two thousand metres', 'wrong'],
    ['runway two seven left or two seven right two thousand metres', 'wrong'],
    ['runway two seven left two thousand', undefined],
    ['runway two seven left two thousand knots', undefined],
    ['runway two seven left forty thousand feet', undefined],
  ])('have a runway without its length: "%s"', (heard, state) => {
    expect(named(heard).topics.runway).toBe(state)
  })

  it.each([
    ['two four two thousand metres', '24', 'ok'],
    ['two four eighteen hundred metres', '24', 'ok'],
    ['two zero two thousand metres', '20', 'ok'],
    // There is no runway 42.
    ['four two two thousand metres', '24', undefined],
    ['two two four thousand metres', '24', 'wrong'],
    ['two two four thousand metres', '22', 'ok'],
    ['two four thousand metres', '24', 'wrong'],
    ['two four thousand metres', '02', 'ok'],
    // Runway 21 of 2,000 feet, or runway 02 of 12,000.
    ['two one two thousand feet', '21', undefined],
    ['two one two thousand feet', '02', undefined],
    ['two four two five two thousand metres', '24', undefined],
  ])('cut the length off by form, whatever the runway is: "runway %s" for %s', (heard, value, state) => {
    const figures: Figures = { ...FIGURES, runway: { kind: 'runway', value } }
    expect(topicsIn(TOPICS, figures, transcriptOf(`runway ${heard}`)).topics.runway).toBe(state)
  })

  it('that are words alone are not named by their denial', () => {
    expect(named('there is no engine failure').topics).toEqual({})
    expect(named('with no engine failure we go on, with an engine failure we stop').topics).toEqual({
      reject: 'ok',
      failure: 'ok',
    })
  })

  it.each([
    'rejected takeoff no briefing',
    'rejected takeoff is not briefed',
    'engine failure nothing',
    'engine failure not briefed',
    'engine failure after V one is not briefed',
    'we have not briefed the engine failure',
    'skip the engine failure briefing',
  ])('that are words alone are not covered by saying that they are not: "%s"', (heard) => {
    expect(named(heard).topics).toEqual({})
  })

  it.each([
    ['no special terrain', { terrain: 'ok' }],
    ['if we do not have V one, we stop', { reject: 'ok' }],
    ['if we do not have V one one two eight, we stop', { speeds: 'ok', reject: 'ok' }],
    ['engine failure, no turn below four hundred feet', { failure: 'ok' }],
    ['engine failure nothing below four hundred feet', { failure: 'ok' }],
    ['rejected takeoff, engine failure not briefed', { reject: 'ok' }],
    ['engine failure not briefed, runway two seven left', { runway: 'ok' }],
    ['runway two seven left, flap twelve, not level five thousand', { runway: 'ok', flap: 'ok', level: 'wrong' }],
    ['flap twelve is wrong, correction flap twelve', { flap: 'ok' }],
  ])('are covered by what is denied in them, and not by what is denied of another: "%s"', (heard, topics) => {
    expect(named(heard).topics).toEqual(topics)
  })

  it.each([
    ['rejected takeoff, after that only for fire, engine failure or loss of control, I call stop', { reject: 'ok' }],
    ['we stop for an engine failure', { reject: 'ok' }],
    ['we stop for fire or engine failure, engine failure after V one we continue', { reject: 'ok', failure: 'ok' }],
    ['we stop for anything, engine failure we land straight ahead', { reject: 'ok', failure: 'ok' }],
    ['failure after V one, one two eight is the speed', { failure: 'ok' }],
  ])('are not named by a reason or inside the words of another: "%s"', (heard, topics) => {
    expect(named(heard).topics).toEqual(topics)
  })

  it('keep the values of an earlier breath, so that one is put right by itself', () => {
    const first = named('V one one two eight rotate one three four V two one four two')
    expect(first.parts).toEqual({ speeds: { v1: 'ok', vr: 'ok', v2: 'wrong' } })
    const then = (text: string) => topicsIn(TOPICS, FIGURES, transcriptOf(text), first.parts)
    expect(then('V two one four one')).toEqual({
      topics: { speeds: 'ok' },
      parts: { speeds: { v1: 'ok', vr: 'ok', v2: 'ok' } },
      heard: [],
    })
    expect(then('V one one two eight').topics).toEqual({ speeds: 'wrong' })
    expect(then('runway two seven left').topics).toEqual({ runway: 'ok' })
  })

  it('of several values are whole when those that must be said were said, together or apart', () => {
    expect(named('rotate one three four').topics).toEqual({})
    expect(named('rotate one three four and V one one two eight').topics).toEqual({ speeds: 'ok' })
  })
})

describe('a flight level', () => {
  const topics = [
    { id: 'level', say: [responseFrom('level <level>')] },
    { id: 'cruise', say: [responseFrom('[flight] level <cruise>')] },
  ]
  const figures: Figures = { level: FIGURES.level as Figure, cruise: { kind: 'flightLevel', value: 240 } }

  it('is none of the levels that are asked for, unless it is asked for', () => {
    const found = (heard: string) => topicsIn(topics, figures, transcriptOf(heard)).topics
    expect(found('cruise at flight level two four zero')).toEqual({ cruise: 'ok' })
    expect(found('flight level two five zero')).toEqual({ cruise: 'wrong' })
  })
})

describe('a topic is named by', () => {
  const names = (text: string) =>
    keywordsOf(0, responseFrom(text), FIGURES).map(({ words, isValue }) =>
      isValue ? `<${words.join(' ')}>` : words.join(' '),
    )

  it.each([
    ['[departing] [from] runway <runway>', ['runway']],
    ['[first] (level | altitude) <level> [feet]', ['level', 'altitude']],
    ['V one <v1> [rotate <vr>]', ['v one', 'rotate']],
    ['we use {it} the <flap>', ['we use']],
    ['climb {it} [then] <level>', ['climb']],
    ['[climb {it}] the {level} <level>', []],
    ['<route> [departure]', ['<tarn 2 alfa>', '<tarn 2 bravo>']],
    ['the <route>', ['<tarn 2 alfa>', '<tarn 2 bravo>']],
    ['<level>', []],
    ['<unknown>', []],
    ['[the] engine failure | [fire]', ['engine failure', 'the engine failure', 'fire']],
  ])('the words before its figures, the names of its values, or all of its words: %s', (text, words) => {
    expect(names(text)).toEqual(words)
  })

  it('words of its way that may stand before them', () => {
    const [keyword] = keywordsOf(4, responseFrom('[departing] [from] runway <runway> set'), FIGURES)
    expect(keyword).toMatchObject({ topic: 4, hasFigures: true })
    expect([...(keyword?.own ?? [])]).toEqual(['departing', 'from', 'runway', 'set'])
    expect(keywordsOf(0, responseFrom('we stop'), FIGURES)).toMatchObject([{ hasFigures: false }])
  })
})

describe('what was heard wrong in a briefing', () => {
  it('is told of the values that are wrong, and of no other', () => {
    expect(named('V one one two eight rotate one three five V two one four one').heard).toEqual(['one three five'])
    expect(named('runway two seven left level six thousand').heard).toEqual(['six thousand'])
    expect(named('runway two seven left level five thousand').heard).toEqual([])
  })

  it('is told of a right value that was denied', () => {
    expect(named('not level five thousand').heard).toEqual(['five thousand'])
  })
})

describe('each topic of the demo, in each of its declared ways', () => {
  const VALUES: Readonly<Record<string, Value>> = {
    ...{
      runway: '24',
      departureRoute: 'LANTERN 2A',
      departureProcedure: 'LANTERN 2',
      firstLevel: 5000,
      takeoffFlap: '12',
      v1: 128,
      vr: 134,
      v2: 141,
    },
  }
  let demo: Pack
  let all: readonly Topic[]
  beforeAll(async () => {
    demo = await packAt('checklists/marram')
    const briefings = demo.phases.flatMap(({ activities }) => activities).filter(({ type }) => type === 'briefing')
    all = briefings.flatMap((one) => (one as Briefing).topics)
  })
  const figure = (name: string) =>
    ({ ...(demo.figures.declarations[name]?.spec as KindSpec), value: VALUES[name] as Value }) as Figure

  it.each(['icao', 'faa'])('is right with its values, wrong with another one, and wrong when denied (%s)', (radio) => {
    const topics = all.filter(({ when }) => holds(when, { situation: { radio }, values: {} }))
    const random = seeded(3_107)
    let ways = 0
    for (const { id, say } of topics) {
      for (const response of say) {
        ways += 1
        const draw = drawOf(id, response, figure)
        const figures = Object.fromEntries(
          topics.flatMap((one) => one.say.flatMap((each) => each.figures)).map((name) => [name, figure(name)]),
        )
        for (let time = 0; time < 40; time++) {
          const text = draw.say(figures, random, true)
          expect(topicsIn(topics, figures, transcriptOf(text)).topics, text).toMatchObject({ [id]: 'ok' })
          if (response.figures.length === 0) continue
          expect(topicsIn(topics, figures, transcriptOf(`not ${text}`)).topics, `not ${text}`).toMatchObject({
            [id]: 'wrong',
          })
          const [name = ''] = response.figures
          const other = anotherValue(figure(name), VALUES[name] as Value, random) as Value
          const wrong = draw.say({ ...figures, [name]: { ...figure(name), value: other } as Figure }, random, true)
          expect(topicsIn(topics, figures, transcriptOf(wrong)).topics, wrong).toMatchObject({ [id]: 'wrong' })
          const twice = topicsIn(topics, figures, transcriptOf(`${text} and ${wrong}`)).topics
          expect(twice, `${text} and ${wrong}`).toMatchObject({ [id]: 'wrong' })
        }
      }
    }
    expect(ways).toBeGreaterThanOrEqual(topics.length)
  })
})

describe('a topic that was right', () => {
  const HELD = { flap: { flap: 'ok' }, speeds: { v1: 'ok', vr: 'ok' }, failure: {} } as const
  const said = (text: string) => topicsIn(TOPICS, FIGURES, transcriptOf(text), HELD)

  it.each([
    ['flap is wrong', 'flap'],
    ['no, the flap is not right', 'flap'],
    ['flaps are not twelve', 'flap'],
    ['engine failure not briefed', 'failure'],
  ])('is open again after "%s"', (text, id) => {
    expect(said(text).topics).toEqual({ [id]: 'wrong' })
  })

  it.each(['terrain is not briefed', 'we have no engine failure here', 'no flap problems'])(
    'stays so after "%s"',
    (text) => {
      expect(said(text).topics).toEqual({})
    },
  )

  it('is right again when it is said again', () => {
    const { parts } = said('flap is wrong')
    expect(topicsIn(TOPICS, FIGURES, transcriptOf('flap twelve'), parts).topics).toEqual({ flap: 'ok' })
  })
})
