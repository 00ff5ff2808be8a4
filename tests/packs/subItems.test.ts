/** Lines of a paper that stand further in are parts of the one above; none becomes an item of its own in silence. */

import { expect, it } from 'vitest'
import { draftPack } from '../../src/packs/paper/draftPack.ts'

const PAPER = `AFTER LANDING
Flaps                      UP
Lights:
    Landing                OFF
    Taxi                   ON
APU                        START

PREFLIGHT
3. Fuel selector
a. Left tank ....... CHECKED
b. Right tank ...... CHECKED
4. Trim ............ SET
     Rudder ........ NEUTRAL
5. Tyres ........... CHECKED

RUN-UP (COLD)
1. Throttle ........ IDLE

Cabin
   Doors ........... CLOSED
   Belts ........... FASTENED
`

it('are asked with what they stand below, marked, and the list goes on behind them', () => {
  const { lists, questions } = draftPack(PAPER)
  expect(lists.map(({ name, items }) => [name, items.map(({ challenge }) => challenge)])).toEqual([
    ['after landing', ['flaps', 'lights landing', 'lights taxi', 'A P U']],
    ['preflight', ['fuel selector left tank', 'fuel selector right tank', 'trim', 'rudder', 'tyres']],
    ['run-up', ['throttle']],
    ['cabin', ['doors', 'belts']],
  ])
  const told = (line: number) => questions.filter((one) => one.line === line).map(({ text }) => text)
  expect(told(4)).toContain('"Landing" stands below "Lights", and is asked with it')
  expect(told(11)).toContain('"Right tank" stands below "Fuel selector", and is asked with it')
  expect(told(13)).toContain('"Rudder" stands further in, below "Trim": is it part of that, and asked with it?')
  expect(told(19)).toEqual(['"Cabin" is taken for the name of a list'])
  expect(told(20)).toEqual([])
})
