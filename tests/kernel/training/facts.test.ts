import { describe, expect, it } from 'vitest'
import { factsOf } from '../../../src/kernel/training/factsOf.ts'
import { TALK, TO_CLEARANCE } from '../../app/demoAnswers.ts'
import { type RigOptions, rig } from '../../app/rig.ts'

async function flown(answers: readonly string[], options: RigOptions = {}) {
  const flight = await rig(options)
  for (const answer of answers) {
    await flight.hear(answer)
    await flight.pass(1_000)
  }
  const facts = factsOf(flight.pack, flight.log.events)
  return { ...flight, facts, trial: (card: string) => facts.trials.filter((one) => one.card === card) }
}

describe('the facts of a run', () => {
  it('have each item once, right or not at its first try, with the cause of a miss', async () => {
    const { trial, facts } = await flown([
      'load figures list',
      'two four three six zero',
      'four point eight up',
      'four point three up',
      'checked',
    ])
    expect(facts.trials).toHaveLength(3)
    expect(trial('loadFigures.zeroFuelWeight')).toMatchObject([{ of: 'value', right: true }])
    expect(trial('loadFigures.trim')).toMatchObject([{ right: false, cause: 'neighbourRow' }])
    expect(trial('loadFigures.v1')).toMatchObject([{ right: false, cause: 'valueless' }])
  })

  it('leave "say again" to the ear, and count the first answer that can be understood', async () => {
    const { trial } = await flown(['load figures list', 'the two of them', 'two four three six zero'])
    expect(trial('loadFigures.zeroFuelWeight')).toMatchObject([{ right: true }])
  })

  it('have the time from the challenge to the onset, and none after a break', async () => {
    const flight = await rig()
    await flight.hear('load figures list')
    await flight.pass(3_000)
    await flight.hear('two four three six zero')
    await flight.hear('stand by')
    await flight.pass(5_000)
    await flight.hear('continue')
    await flight.hear('four point three up')
    const [first, second] = factsOf(flight.pack, flight.log.events).trials
    expect(first?.ms).toBe(3_000)
    expect(second).toMatchObject({ card: 'loadFigures.trim', right: true })
    expect(second?.ms).toBeUndefined()
  })

  it('know a value of earlier figures, and one that was given before it was said', async () => {
    const flight = await rig()
    await flight.hear('load figures list')
    await flight.revise('final')
    // The figures flow is open again, and the list behind it.
    await flight.hear('done')
    await flight.hear('load figures list')
    await flight.hear('two four three six zero')
    const { trials } = factsOf(flight.pack, flight.log.events)
    expect(trials).toMatchObject([{ card: 'loadFigures.zeroFuelWeight', right: false, cause: 'earlierRevision' }])
    const other = await rig()
    await other.hear('load figures list')
    await other.hear('confirm zero fuel weight')
    await other.hear('two four three six zero')
    expect(factsOf(other.pack, other.log.events).trials).toMatchObject([{ right: true, helped: true }])
  })

  it('have read-backs with the number of elements that must be read back, and calls apart from them', async () => {
    const { trial } = await flown([...TO_CLEARANCE, 'cleared to willow lake lantern two alfa departure'], {
      talk: TALK,
    })
    const [call, readBack] = trial('clearance.departure')
    expect(call).toMatchObject({ of: 'exchange', right: true })
    // Limit, departure, runway, level, frequency and squawk.
    expect(readBack).toMatchObject({ of: 'readBack', right: false, cause: 'leftOut', elements: 6 })
  })

  it('tell a break that was resumed with another item’s value from one that was resumed in its place', async () => {
    const away = ['load figures list', 'two four three six zero', 'stand by', 'continue']
    const right = await flown([...away, 'four point eight up'])
    expect(right.facts.resumptions).toEqual([{ what: 'standBy', right: true }])
    const wrong = await flown([...away, 'four point three up', 'stand by', 'continue', 'one three four'])
    expect(wrong.facts.resumptions.map((one) => one.right)).toEqual([true, wrong.state().values.vr !== 134])
  })

  it('are of a flow only where it is done from memory, and not right where it was read out', async () => {
    const shown = await flown(['done'])
    expect(shown.facts.trials).toEqual([])
    const known = await flown(['done'], { settings: { flows: 'memory' } })
    expect(known.facts.trials).toMatchObject([{ of: 'flow', card: 'figuresFlow', right: true }])
    const read = await flown(['read the flow', 'done', 'done', 'done'], { settings: { flows: 'memory' } })
    expect(read.facts.trials).toMatchObject([{ of: 'flow', card: 'figuresFlow', right: false, cause: 'notFromMemory' }])
  })

  it('have a figure that the pilot works out from a card', async () => {
    const { facts } = await flown(['four point eight up'], { settings: { ownValues: true } })
    expect(facts.trials).toMatchObject([{ of: 'reading', card: 'takeoffTrim', right: false }])
  })

  it('leave out what was pressed in place of an answer', async () => {
    const flight = await rig()
    await flight.hear('load figures list')
    const { revision } = flight.state()
    await flight.run.happen({
      type: 'confirmedByKey',
      item: 'loadFigures.zeroFuelWeight',
      evidence: { by: 'key', text: '' },
      expected: {},
      revision,
    })
    expect(factsOf(flight.pack, flight.log.events).trials).toEqual([])
  })
})
