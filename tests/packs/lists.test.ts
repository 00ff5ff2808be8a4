/** What a list may hold besides plain items: notes, optional and repeated items, questions that branch, times to wait. */

import { describe, expect, it } from 'vitest'
import { listBeside } from '../../src/app/view/packBeside.ts'
import { viewOf } from '../../src/app/view/view.ts'
import { print } from '../../src/kernel/papers/print.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { authored, called, flown } from './authored.ts'

const SITUATIONS = `
situations:
  fire:
    label: Fire
    initial: burning
    options:
      burning: {label: burning, say: [still burning]}
      out: {label: out, say: [fire is out, fire out]}
`
function begun(entries: string, more = '') {
  const pack = authored({ entries, pack: more })
  return { pack, run: flown(pack).happen(called()) }
}

describe('notes and headings', () => {
  const entries = `
- {heading: Cabin}
- {item: doors, challenge: doors, response: both closed}
- {note: Hold the brakes until the run-up is complete}
- {item: beacon, challenge: beacon, response: beacon on}
- {note: Nobody near the propeller}`

  it('stand where they were written, are never asked, and are no items', () => {
    const { pack, run } = begun(entries)
    expect(viewOf(pack, run.state).entries.map(({ type, label }) => [type, label])).toEqual([
      ['heading', 'Cabin'],
      ['item', 'doors'],
      ['note', 'Hold the brakes until the run-up is complete'],
      ['item', 'beacon'],
      ['note', 'Nobody near the propeller'],
    ])
    expect(run.said()).toBe('Before start list. Doors?')
    expect(run.hear('both closed').said()).toBe('Beacon?')
    expect(run.hear('beacon on').said()).toContain('complete')
    expect(debriefOf(pack, run.events).totals.items).toBe(2)
  })

  it('are on the card and on the checklist in print', () => {
    const pack = authored({ entries })
    expect(listBeside(pack, 'beforeStart')?.entries.map(({ type }) => type)).toEqual([
      'heading',
      'item',
      'note',
      'item',
      'note',
    ])
    const paper = { id: 'card', title: 'card', lines: [], tables: [], lists: ['beforeStart'], notes: [] }
    const sheet = { status: 'final', values: {}, loads: {} } as const
    const [list] = print(pack, paper, { sheet, situation: {}, hasStations: false }).lists
    expect(list?.rows.map(({ type }) => type)).toEqual(['heading', 'item', 'note', 'item', 'note'])
  })

  it('are left out where they do not apply', () => {
    const { pack, run } = begun(
      `
- {note: Watch the cowl, when: {fire: out}}
- {item: doors, challenge: doors, response: both closed}`,
      SITUATIONS,
    )
    expect(viewOf(pack, run.state).entries).toHaveLength(1)
    expect(viewOf(pack, run.hear('fire is out').state).entries).toHaveLength(2)
  })
})

describe('an optional item', () => {
  const entries = `
- {item: pins, challenge: gear pins, response: three removed, optional: true}
- {item: doors, challenge: doors, response: both closed}`

  it('is closed by "not applicable" alone, and counted apart from what was passed', () => {
    const { pack, run } = begun(entries)
    run.hear('not applicable')
    expect(run.said()).toBe('Doors?')
    expect(run.state.items['beforeStart.pins']).toMatchObject({ status: 'passed', reason: 'notApplicable' })
    expect(viewOf(pack, run.state).entries[0]?.note).toBe('not applicable')
    const { totals } = debriefOf(pack, run.hear('both closed').events)
    expect(totals).toMatchObject({ closed: 2, passed: 0, notApplicable: 1 })
  })

  it('is answered as any other, and has a button', () => {
    const { pack, run } = begun(entries)
    const button = viewOf(pack, run.state).buttons.find(({ label }) => label === 'Not applicable')
    expect(button?.press).toEqual({ type: 'command', command: 'pass', argument: 'notApplicable' })
    expect(run.hear('three removed').state.items['beforeStart.pins']?.status).toBe('done')
  })

  it('closes no other item', () => {
    const { run } = begun(entries)
    run.hear('not applicable').hear('not applicable')
    expect(run.state.items['beforeStart.doors']?.status ?? 'open').toBe('open')
  })
})

describe('a repeated item', () => {
  it('has its number in the challenge, in the place of the star or behind it', () => {
    const { run } = begun(`
- {item: primer, challenge: primer stroke, response: stroke made, times: 2}
- {item: pump, challenge: engine * fuel pump, response: pump on, times: 2}`)
    expect(run.said()).toContain('Primer stroke one?')
    expect(run.hear('stroke made').said()).toBe('Primer stroke two?')
    expect(run.hear('stroke made').said()).toBe('Engine one fuel pump?')
    expect(run.hear('pump on').hear('pump on').said()).toContain('complete')
  })

  it('is asked for each of several things, by its name', () => {
    const { run } = begun('- {item: cap, challenge: fuel cap, response: cap secure, each: [left wing, right wing]}')
    expect(run.said()).toContain('Left wing fuel cap?')
    expect(run.hear('cap secure').said()).toBe('Right wing fuel cap?')
    expect(Object.keys(run.state.items)).toEqual(['beforeStart.cap.leftWing', 'beforeStart.cap.rightWing'])
  })
})

describe('a question', () => {
  const entries = `
- {question: out, challenge: fire out, decides: fire, "yes": out, "no": burning}
- {item: bottle, challenge: second bottle, response: discharged, when: {fire: burning}}
- {item: land, challenge: radio call, response: call made}`

  it.each([
    ['yes', 'out', 'Radio call?'],
    ['affirm', 'out', 'Radio call?'],
    ['fire is out', 'out', 'Radio call?'],
    ['no', 'burning', 'Second bottle?'],
    ['still burning', 'burning', 'Second bottle?'],
  ])('answered "%s" leads to its branch', (said, value, next) => {
    const { run } = begun(entries, SITUATIONS)
    run.hear(said)
    expect(run.state.situation.fire).toBe(value)
    expect(run.state.items['beforeStart.out']?.status).toBe('done')
    expect(run.said()).toContain(next)
  })

  it('is not closed by anything else', () => {
    const { run } = begun(entries, SITUATIONS)
    for (const said of ['fire', 'checked', 'perhaps']) {
      expect(run.hear(said).state.floor).toMatchObject({ item: 'beforeStart.out' })
    }
  })

  it('has a button for each answer', () => {
    const { pack, run } = begun(entries, SITUATIONS)
    expect(viewOf(pack, run.state).buttons.slice(0, 2)).toEqual([
      { label: 'Burning', phrase: 'still burning', press: { type: 'situation', name: 'fire', value: 'burning' } },
      { label: 'Out', phrase: 'fire is out', press: { type: 'situation', name: 'fire', value: 'out' } },
    ])
  })
})

describe('a time to wait', () => {
  const entries = `
- {item: motor, challenge: starter, response: motoring}
- {item: off, challenge: starter, response: starter off, wait: {seconds: 15, due: fifteen seconds}}`

  it('runs from the entry before it, on the screen, and is told when it is up', () => {
    const { pack, run } = begun(entries)
    run.hear('motoring')
    expect(viewOf(pack, run.state).clocks).toHaveLength(1)
    expect(run.hear('starter off').said()).toMatch(/^Not yet, starter, /)
    run.pass(16_000).happen({ type: 'timeUp', of: 'beforeStart.off' })
    expect(run.said()).toContain('Fifteen seconds.')
    expect(run.hear('starter off').said()).toContain('complete')
  })

  it('at the top of a list runs from its call, each time it is called', () => {
    const pack = authored({
      procedures: `
phases:
  - phase: one
    name: One
    activities:
      - list: cool
        name: cool down
        anytime: true
        entries: [{item: temp, challenge: temperature, response: stable, wait: {seconds: 60}}]
      - list: beforeStart
        name: before start
        entries: [{item: doors, challenge: doors, response: both closed}]
`,
    })
    const run = flown(pack).hear('cool down list')
    for (const _ of ['first', 'again']) {
      expect(run.hear('stable').said()).toMatch(/^Not yet, temperature, /)
      run.pass(61_000).hear('stable')
      expect(run.state.lists.cool?.complete).toBe(true)
      run.hear('cool down list')
    }
  })
})
