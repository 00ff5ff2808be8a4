/** What stations say in dealt departures: of one piece before and after the final figures, and telling nothing of them. */

import { beforeAll, describe, expect, test } from 'vitest'
import { compute } from '../../../../src/kernel/figures/compute.ts'
import { deal } from '../../../../src/kernel/figures/deal.ts'
import type { Inputs } from '../../../../src/kernel/figures/model.ts'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import { readBackOf } from '../../../../src/kernel/pack/rests.ts'
import { fillTemplate } from '../../../../src/kernel/pack/template.ts'
import { emptyRun } from '../../../../src/kernel/run/core/emptyRun.ts'
import type { Script } from '../../../../src/kernel/run/core/events.ts'
import type { RunState } from '../../../../src/kernel/run/core/state.ts'
import { stationWords } from '../../../../src/kernel/run/talk/radio.ts'
import { scriptFor } from '../../../../src/kernel/run/talk/script.ts'
import { exchangesOf, findTurn } from '../../../../src/kernel/run/talk/talk.ts'
import { cases } from '../../../cases.ts'
import { packAt } from '../../figures/marram.ts'

/** The demo's aerodrome, written down here by itself: what belongs to which runway, as spoken. */
const AERODROME: Readonly<Record<string, Readonly<Record<'runway' | 'route' | 'point' | 'taxi' | 'short', RegExp>>>> = {
  '06': {
    runway: /runway zero six\b/,
    route: /\borchard one (alfa|bravo) departure/,
    point: /holding point alfa (one|two)\b/,
    taxi: /via (echo )?bravo alfa\b/,
    short: /hold short of runway three three/,
  },
  '24': {
    runway: /runway two four\b/,
    route: /\blantern two (alfa|bravo) departure/,
    point: /holding point charlie (three|four)\b/,
    taxi: /via (echo charlie|bravo echo charlie|bravo charlie)\b/,
    short: /hold short of runway three three/,
  },
  '33': {
    runway: /runway three three\b/,
    route: /\b(orchard three delta|lantern two bravo) departure/,
    point: /holding point delta (one|two)\b/,
    taxi: /via (echo|bravo) delta\b/,
    short: /hold short of runway zero six/,
  },
}

let pack: Pack
let dealt: { readonly name: string; readonly state: RunState }[]
beforeAll(async () => {
  pack = await packAt('checklists/marram')
  const readBack = readBackOf(pack)
  dealt = Array.from({ length: cases(1000) }, (_, seed) => {
    const departure = deal(pack.figures, readBack, seed)
    if (!departure) throw new Error(`seed ${seed} deals nothing`)
    const { preliminary, final } = departure
    const script = scriptFor(pack, preliminary, seed)
    return [preliminary, final].map((inputs) => ({ name: `seed ${seed}, ${inputs.status}`, state: at(inputs, script) }))
  }).flat()
})

/** A run while these inputs hold: where sources differ, a figure has no value. */
function at(inputs: Inputs, script: Script): RunState {
  const { figures } = compute(pack.figures, inputs)
  const values = Object.fromEntries(
    Object.entries(figures).flatMap(([name, { value }]) => (value === undefined ? [] : [[name, value]])),
  )
  return { ...emptyRun('dealt'), situation: { ...inputs.situation, radio: 'icao' }, inputs, values, script }
}

/** What a station says in one turn. */
function said(state: RunState, id: string): string {
  const { exchange, turn } = findTurn(pack, id)
  return stationWords(pack, state, exchange, turn)
    .whole()
    .map(({ text }) => text.toLowerCase())
    .join(' ')
}

describe('in a thousand dealt departures, before and after the final figures', () => {
  test('runway, departure route, holding point, taxi route and crossing belong together', () => {
    for (const { name, state } of dealt) {
      const own = AERODROME[String(state.inputs?.values.runway)]
      if (!own) throw new Error(`the demo has no runway ${state.inputs?.values.runway}`)
      const clearance = said(state, 'clearance.departure')
      for (const part of ['runway', 'route'] as const) expect(clearance, name).toMatch(own[part])
      const taxi = said(state, 'taxi.route')
      for (const part of ['runway', 'point', 'taxi', 'short'] as const) expect(taxi, name).toMatch(own[part])
    }
  })

  test('no station has a hole where a value should be', () => {
    const turns = exchangesOf(pack).flatMap(({ station, turns }) => (station.role === 'otherseat' ? [] : turns))
    for (const { name, state } of dealt.slice(0, 100)) {
      for (const { id, opens, elements } of turns) {
        const text = said(state, id)
        for (const { icao } of [
          ...(opens ? [opens] : []),
          ...elements.filter(({ when }) => !JSON.stringify(when ?? {}).includes('faa')).map(({ says }) => says),
        ]) {
          const pattern = fillTemplate(icao, () => '[a-z]+( [a-z]+)*').toLowerCase()
          expect(text, `${name}, ${id}`).toMatch(new RegExp(`\\b${pattern}(?=[,.])`))
        }
      }
    }
  })
})
