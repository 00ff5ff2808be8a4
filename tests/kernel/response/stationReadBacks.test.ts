import { expect, it } from 'vitest'
import { cases } from '../../cases.ts'
import { sourceOf } from '../../corpus/demoTransmissions.ts'
import {
  isAsItShould,
  judgementOfStation,
  STATION_TUNING,
  type StationReadBack,
  stationReadBacks,
} from '../../corpus/stationReadBacks.ts'
import { packAt } from '../figures/marram.ts'

const TRUTHS = [
  ['with one element left out asks for that one by its name and for no other', 'leftOut'],
  ['with one value wrong is never taken for right', 'wrong'],
  ['that is right is accepted', 'right'],
] as const

it.each(TRUTHS)('a read-back of three to seven elements %s', (_, truth) => {
  expectAllAsTheyShould([...stationReadBacks(truth, cases(2_500), STATION_TUNING)])
})

it.each(TRUTHS)('a read-back of the demo’s stations %s', async (_, truth) => {
  expectAllAsTheyShould([
    ...stationReadBacks(truth, cases(1_000), STATION_TUNING, sourceOf(await packAt('checklists/marram'))),
  ])
})

function expectAllAsTheyShould(all: readonly StationReadBack[]) {
  const astray = all.filter((each) => !isAsItShould(each, judgementOfStation(each)))
  expect(astray.map(({ element, heard }) => `${element}: ${heard}`)).toEqual([])
  // One to seven numbers and names, and every element in its turn.
  expect(new Set(all.map(({ elements }) => elements.length)).size).toBeGreaterThan(2)
}
