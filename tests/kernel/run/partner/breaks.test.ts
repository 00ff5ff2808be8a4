/** Interruptions on purpose, at every item of both packs: who comes in, with and without a cue, and how the pilot came back. */

import { describe, expect, it } from 'vitest'
import { readPackDir } from '../../../../src/cli/packDir.ts'
import { compute } from '../../../../src/kernel/figures/compute.ts'
import type { Item, List, Pack } from '../../../../src/kernel/pack/checklist.ts'
import { itemsOf, listsOf } from '../../../../src/kernel/pack/place.ts'
import { emptyRun } from '../../../../src/kernel/run/core/emptyRun.ts'
import type { EventBody } from '../../../../src/kernel/run/core/events.ts'
import { BREAKERS, type Breaker } from '../../../../src/kernel/run/partner/model.ts'
import { plannedBefore } from '../../../../src/kernel/run/partner/plan.ts'
import { inputsFrom } from '../../../app/rig.ts'
import { type Flown, happen, hear, words } from '../demoRun.ts'

const KEY = { by: 'key', text: '' } as const

/** One list alone, on the final sheet, every line of it cleared. */
async function flown(name: string, rate: number) {
  const { pack } = await readPackDir(`checklists/${name}`)
  if (!pack) throw new Error(name)
  const inputs = await inputsFrom(pack, `checklists/${name}/inputs/final.yaml`)
  const figures = Object.values(compute(pack.figures, inputs).figures)
  const values = Object.fromEntries(
    figures.flatMap(({ name: id, value }) => (value === undefined ? [] : [[id, value]])),
  )
  const initial = Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
  const from = (list: List): Flown => {
    const alone: Pack = { ...pack, phases: [{ id: 'part', name: 'Part', activities: [list] }] }
    let run: Flown = { pack: alone, state: emptyRun('demo'), effects: [] }
    const events: EventBody[] = [
      {
        type: 'runStarted',
        pack: { id: pack.id, version: '1', sha256: 'none', name, texts: {} },
        situation: { ...initial, ...inputs.situation },
        settings: { phraseology: 'plain', coachAfter: 0, breaks: { seed: 7, rate, cues: 'mixed' } },
        startedAt: 0,
      },
      ...list.entries.flatMap((entry): EventBody[] =>
        entry.type === 'line' ? [{ type: 'cleared', clearance: entry.clearance, evidence: KEY }] : [],
      ),
      {
        type: 'figuresRevised',
        revision: 1,
        status: 'final',
        label: 'final',
        inputs,
        values,
        changes: [],
        warnings: [],
      },
    ]
    for (const event of events) run = happen(run, event)
    return run
  }
  return { pack, from }
}

const closed = (run: Flown, item: Item) =>
  happen(run, { type: 'confirmedByKey', item: item.id, evidence: KEY, expected: {}, revision: 1 })
const isNamed = (text: string, item: Item) => text.toLowerCase().includes(item.challenge.toLowerCase())

/** Each item with the event that leads to it. */
function* placesOf(pack: Pack, from: (list: List) => Flown) {
  for (const list of listsOf(pack)) {
    let run = from(list)
    let lead: EventBody = { type: 'listCalled', list: list.id, evidence: KEY }
    for (const item of itemsOf(list, run.state)) {
      yield { run, lead, item }
      run = happen(run, lead)
      lead = { type: 'confirmedByKey', item: item.id, evidence: KEY, expected: {}, revision: 1 }
    }
  }
}

describe.each(['marram', 'pair'])('in the %s', (name) => {
  it('comes in behind the challenge at every item, and is over with a word', async () => {
    const { pack, from } = await flown(name, 0)
    let count = 0
    for (const { run, lead, item } of placesOf(pack, from)) {
      for (const by of BREAKERS.filter((one): one is Breaker => one !== 'radio')) {
        for (const cue of [true, false]) {
          const planned = happen(run, { type: 'breakPlanned', item: item.id, by, cue })
          const here = happen(planned, lead)
          if (here.state.floor.at !== 'item' || here.state.floor.item !== item.id) continue
          count++
          const said = words(here)
          const came = said.findIndex((one) => one.startsWith('groundCrew: '))
          expect([item.id, came]).not.toEqual([item.id, -1])
          expect(said.slice(came + 1).some((one) => isNamed(one, item))).toBe(cue)
          const prompts = here.effects.some((one) => one.type === 'startTimer' && one.timer === 'prompt')
          expect(prompts).toBe(cue)
          const over = hear(here, 'one moment')
          expect(over.state.floor).toEqual(here.state.floor)
          expect(over.state.partner?.breaks).toMatchObject([{ item: item.id, by, cue, overAt: over.state.t }])
          expect(closed(over, item).state.partner?.breaks).toMatchObject([{ place: 'right' }])
          expect(hear(over, 'where are we').state.partner?.breaks).toMatchObject([{ place: 'asked' }])
        }
      }
    }
    expect(count).toBeGreaterThan(100)
  })

  it('is dealt by its number: the same items each time, and about as many as it should be', async () => {
    const { pack, from } = await flown(name, 0.3)
    const dealt = () =>
      [...placesOf(pack, from)].map(({ run, lead }) =>
        plannedBefore(run.pack, run.state, { v: 1, seq: 99, runId: 'demo', t: 0, wall: '', ...lead } as never),
      )
    const once = dealt()
    expect(dealt()).toEqual(once)
    const breaks = once.flat()
    expect(breaks.length).toBeGreaterThan(0)
    expect(breaks.length).toBeLessThan(once.length * 0.6)
    expect(new Set(breaks.map((one) => one.type))).toEqual(new Set(['breakPlanned']))
  })
})

describe('where the pilot comes back', () => {
  it('one item back, or at another, is told as that', async () => {
    const { pack, from } = await flown('marram', 0)
    const places = [...placesOf(pack, from)].filter(({ lead }) => lead.type === 'confirmedByKey')
    const { run, lead, item } = places[1] ?? { run: undefined }
    if (!run || !lead || !item) throw new Error('no such place')
    const here = happen(happen(run, { type: 'breakPlanned', item: item.id, by: 'cabin', cue: false }), lead)
    expect(hear(here, 'go back one').state.partner?.breaks).toMatchObject([{ place: 'before' }])
    expect(hear(here, 'from the top').state.partner?.breaks).toMatchObject([{ place: 'wrong' }])
  })
})
