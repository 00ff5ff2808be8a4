/** A colleague on the radio over many numbers, with the clearances of the packs that come with Otherseat. */

import { describe, expect, it } from 'vitest'
import { startOf } from '../../../../src/app/run/beginning.ts'
import { compute } from '../../../../src/kernel/figures/compute.ts'
import { interpret } from '../../../../src/kernel/interpret/interpret.ts'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import type { Exchange } from '../../../../src/kernel/pack/exchange.ts'
import { figuresFor } from '../../../../src/kernel/pack/place.ts'
import { sayResponse } from '../../../../src/kernel/response/sentence.ts'
import type { RunSettings } from '../../../../src/kernel/run/core/events.ts'
import type { RunState } from '../../../../src/kernel/run/core/state.ts'
import { fold } from '../../../../src/kernel/run/core/step.ts'
import { countsOf } from '../../../../src/kernel/run/debrief/debriefPartner.ts'
import { type Chance, FAULT_KINDS, GRADES } from '../../../../src/kernel/run/partner/model.ts'
import { plannedBefore } from '../../../../src/kernel/run/partner/plan.ts'
import { elementWords, requiredOf } from '../../../../src/kernel/run/talk/readBackWords.ts'
import { saidValues } from '../../../../src/kernel/run/talk/said.ts'
import { callableTurns, exchangeAt, findTurn, pendingTurn } from '../../../../src/kernel/run/talk/talk.ts'
import { finalInputs, packOf } from '../../../app/partner/crew.ts'
import { type TalkRun, talkRun } from '../talkFixture.ts'

/** Its controllers alone, without what they would wait for. */
function onRadio(pack: Pack): Pack {
  const controllers = pack.phases.flatMap(({ activities }) =>
    activities.filter((one): one is Exchange => one.type === 'exchange' && one.station.role === 'controller'),
  )
  const free = controllers.map((one) => ({
    ...one,
    turns: one.turns.map(({ interlocks: _, ...turn }) => turn),
  }))
  return { ...pack, phases: [{ ...pack.phases[0], id: 'radio', name: 'Radio', activities: free }] as Pack['phases'] }
}

type Says = (chance: Chance, state: RunState, pack: Pack) => string | undefined

/** In the words of the radio, the right element. */
const ideal: Says = ({ fault }, state, pack) => {
  if (!fault) return undefined
  const { turn } = findTurn(pack, fault.about)
  const element = requiredOf(turn, state).find(({ id }) => id === fault.element)
  if (fault.kind === 'leftOut') return `you left out the ${element?.label}`
  return fault.kind === 'misread' && element ? `negative, ${elementWords(pack, state, element)}` : 'check that'
}
const silent: Says = () => undefined

const packs = await Promise.all(
  ['marram', 'pair'].map(async (name) => ({
    name,
    whole: await packOf(name),
    inputs: await finalInputs(await packOf(name), name),
  })),
)

function flown(at: number, seed: number, settings: Partial<RunSettings>, says: Says): TalkRun {
  const { whole, inputs } = packs[at] as (typeof packs)[number]
  const pack = onRadio(whole)
  const beginning = { inputs, settings: { phraseology: 'plain', coachAfter: 0 } as const, stations: { seed } }
  const started = startOf(whole, beginning, 0)
  const script = started.type === 'runStarted' ? started.script : undefined
  const values = Object.fromEntries(
    Object.entries(compute(whole.figures, inputs).figures).flatMap(([name, one]) =>
      one.value === undefined ? [] : [[name, one.value]],
    ),
  )
  const run = talkRun(script, pack, {
    ...{ values, settings: { readBacks: 'colleague', ...settings } },
    ...(started.type === 'runStarted' && { situation: started.situation }),
  })
  run.plan = (state, event) => plannedBefore(pack, state, event)
  let heard = 0
  const object = () => {
    for (;;) {
      const chance = run.state.partner?.chances[heard]
      if (!chance) return
      heard++
      const words = says(chance, run.state, pack)
      if (words !== undefined) run.hear(words)
    }
  }
  object()
  for (let turns = 0; turns < 40 && run.state.floor.at !== 'end'; turns++) {
    const exchange = exchangeAt(pack, run.state.floor)
    const [turn] = exchange ? callableTurns(exchange, run.state) : []
    if (exchange && pendingTurn(exchange, run.state))
      run.happen({ type: 'silent', order: run.state.listenId, after: 'prompt' })
    else if (turn?.calls)
      run.hear(sayResponse(turn.calls, figuresFor(pack, saidValues(run.state), turn.calls.figures), 'standard'))
    object()
  }
  return run
}

const SEEDS = Array.from({ length: 25 }, (_, seed) => seed)
const CASES = packs.flatMap(({ name }, at) => (['icao', 'faa'] as const).map((radio) => [name, radio, at] as const))

describe.each(CASES)('over the %s, %s words', (_name, radio, at) => {
  const rate = 0.4
  const fly = (seed: number, says: Says, share = rate) =>
    flown(at, seed, { radio, partner: { seed, rate: share } }, says)
  const all = SEEDS.map((seed) => ({ caught: fly(seed, ideal), missed: fly(seed, silent) }))
  const countsIn = (runs: readonly TalkRun[]) => countsOf(runs.flatMap(({ state }) => state.partner?.chances ?? []))

  it('an ideal listener catches all and objects to nothing else; one who never objects catches none', () => {
    const [caught, missed] = [countsIn(all.map((one) => one.caught)), countsIn(all.map((one) => one.missed))]
    expect(caught.faults).toBeGreaterThan(25)
    expect(caught).toMatchObject({ caught: caught.faults, falseObjections: 0 })
    expect(missed).toMatchObject({ caught: 0, falseObjections: 0 })
    expect(missed.faults).toBeGreaterThan(25)
  })

  it('every run comes to its end, and its log gives the same', () => {
    for (const run of all.flatMap(({ caught, missed }) => [caught, missed])) {
      expect(run.state.floor.at).toBe('end')
      expect(fold(onRadio((packs[at] as (typeof packs)[number]).whole), 'talk', run.events)).toEqual(run.state)
    }
  })

  it('all kinds and grades come', () => {
    const faults = all.flatMap(({ missed }) =>
      (missed.state.partner?.chances ?? []).flatMap(({ fault }) => fault ?? []),
    )
    const radioKinds = FAULT_KINDS.filter((kind) => ['misread', 'leftOut', 'readBack'].includes(kind))
    expect(new Set(faults.map(({ kind }) => kind))).toEqual(new Set(radioKinds))
    expect(new Set(faults.filter(({ kind }) => kind === 'misread').map(({ grade }) => grade))).toEqual(new Set(GRADES))
    for (const { kind, said, right } of faults) if (kind === 'misread') expect(said).not.toEqual(right)
  })

  it('at the dose 0 nothing is wrong, and the same number has the same faults', () => {
    for (const seed of SEEDS.slice(0, 5)) {
      const faultsIn = (run: TalkRun) =>
        run.events.filter(({ type }) => type === 'faultPlanned').map((one) => 'fault' in one && one.fault)
      expect(faultsIn(fly(seed, silent, 0))).toEqual([])
      expect(faultsIn(fly(seed, silent))).toEqual(faultsIn((all[seed] as (typeof all)[number]).missed))
    }
  })

  it('what it reads back is what a pilot would have to', () => {
    const asked = new Set<string>()
    for (const { caught } of all.slice(0, 3)) {
      const pack = onRadio((packs[at] as (typeof packs)[number]).whole)
      for (const event of caught.events) {
        if (event.type !== 'radioed' || event.part !== 'readBack') continue
        const state = fold(
          pack,
          'talk',
          caught.events.filter(({ seq }) => seq < event.seq),
        )
        const { turn } = findTurn(pack, event.turn)
        const text = requiredOf(turn, state)
          .map((one) => elementWords(pack, state, one))
          .join(', ')
        if (text === '') continue
        const waits = {
          ...state,
          turns: { ...state.turns, [turn.id]: { ...state.turns[turn.id], status: 'said' } },
        } as RunState
        const heard = interpret(pack, waits, { text, by: 'typed', listenId: state.listenId, beganAt: 0, endedAt: 0 })
        expect([text, heard.event]).toMatchObject([text, { type: 'transmitted', judgement: { verdict: 'correct' } }])
        asked.add(turn.id)
      }
    }
    expect(asked.size).toBeGreaterThan(2)
  })
})
