/** Lists that are called at any time: the run waits, and goes on where it was. */

import { describe, expect, it } from 'vitest'
import { viewOf } from '../../src/app/view/view.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { authored, called, flown } from './authored.ts'

const PACK = authored({
  pack: `
situations:
  fire:
    label: Fire
    initial: burning
    options:
      burning: {label: burning, say: [still burning]}
      out: {label: out, say: [fire is out, fire out]}
`,
  procedures: `
phases:
  - phase: start
    name: Start
    activities:
      - flow: cockpit
        name: cockpit flow
        steps: [{step: pins, text: pins out}]
      - list: beforeStart
        name: before start
        entries:
          - {item: doors, challenge: doors, response: "both closed", states: [[closed], [open]]}
          - {item: beacon, challenge: beacon, response: "beacon on", states: [["on"], ["off"]]}
      - list: taxi
        name: taxi
        entries:
          - {item: flap, challenge: flap, response: "flap up", states: [[up], [down]]}
  - phase: abnormal
    name: Abnormal
    activities:
      - list: engineFire
        name: engine fire
        anytime: true
        entries:
          - {item: lever, challenge: condition lever, response: "cutoff", memory: true, states: [[cutoff], [rich]]}
          - {item: valve, challenge: fuel valve, response: "closed", memory: true, states: [[closed], [open]]}
          - {item: bottle, challenge: second bottle, response: "discharged", when: {fire: burning}}
          - {item: land, challenge: radio call, response: "call made"}
`,
})
const begun = () => flown(PACK).hear('done').happen(called())

describe('a list that may be called at any time', () => {
  it('is never due, and the run ends without it', () => {
    const run = begun().hear('both closed').hear('beacon on').hear('taxi list').hear('flap up')
    expect(run.said()).toContain('All lists complete.')
    const debrief = debriefOf(PACK, run.events)
    expect(debrief.complete).toBe(true)
    expect(debrief.lists.map(({ id }) => id)).toEqual(['beforeStart', 'taxi'])
  })

  it('is called at an open item, and the run goes on at that item', () => {
    const run = begun().hear('both closed').hear('engine fire list')
    expect(run.said()).toBe('Engine fire list. Memory items.')
    expect(run.hear('what is left').said()).not.toContain('Taxi')
    run.hear('condition lever, cutoff')
    expect(run.said()).toBe('')
    expect(run.hear('fuel valve closed').said()).toBe('Second bottle?')
    run.hear('discharged').hear('call made')
    expect(run.said()).toBe('Engine fire list complete. Beacon?')
    expect(run.state.interrupted).toBeUndefined()
    expect(run.hear('beacon on').said()).toContain('Before start list complete.')
  })

  it('goes back to where it was called, also where that is not what comes next', () => {
    const run = begun().hear('taxi list').hear('negative')
    expect(run.state.floor).toMatchObject({ list: 'taxi' })
    run.hear('engine fire').hear('cutoff').hear('closed').hear('discharged').hear('call made')
    expect(run.state.floor).toEqual({ at: 'item', list: 'taxi', item: 'taxi.flap' })
  })

  it('is called from a flow, and while a question is open', () => {
    expect(flown(PACK).hear('engine fire list').state.floor).toMatchObject({ list: 'engineFire' })
    const asked = begun().hear('taxi list')
    expect(asked.state.question?.about).toBe('outOfOrder')
    expect(asked.hear('engine fire list').state).toMatchObject({ question: undefined, floor: { list: 'engineFire' } })
  })

  it('branches by what the pilot says is so', () => {
    const run = begun().hear('engine fire list').hear('cutoff').hear('closed')
    expect(run.state.floor).toMatchObject({ item: 'engineFire.bottle' })
    expect(run.hear('fire is out').said()).toContain('Radio call?')
  })

  it('is gone through anew when it is called again', () => {
    const fire = (run: ReturnType<typeof begun>) =>
      run.hear('engine fire list').hear('cutoff').hear('closed').hear('discharged').hear('call made')
    const run = fire(begun())
    expect(run.hear('engine fire list').state.floor).toMatchObject({ item: 'engineFire.lever' })
    expect(fire(run).state.floor).toMatchObject({ item: 'beforeStart.doors' })
  })

  it('an item from memory is neither spoken nor shown before it was said, and put once it was missed', () => {
    const run = begun().hear('engine fire list')
    const shown = JSON.stringify(viewOf(PACK, run.state))
    expect(shown).not.toContain('condition lever')
    expect(shown).not.toContain('fuel valve')
    run.hear('rich')
    expect(run.said()).toContain('I heard rich')
    expect(JSON.stringify(viewOf(PACK, run.state).entries)).toContain('condition lever')
  })
})

describe('its bare name', () => {
  it('calls it, though another run would stop at these words', () => {
    const run = begun().hear('engine fire')
    expect(run.state.floor).toMatchObject({ at: 'item', list: 'engineFire' })
    expect(run.state.standingBy).toBe(false)
    expect(flown(authored({})).happen(called()).hear('engine fire').state.standingBy).toBe(true)
  })
})

it('"leave it open" never says that something is open', () => {
  const pack = authored({
    entries: '- {item: door, challenge: bypass door, response: open, states: [[open], [closed]]}',
  })
  for (const said of ['leave it open', 'leave open']) {
    const run = flown(pack).happen(called()).hear(said)
    expect(run.events.at(-1)).toMatchObject({ type: 'commanded', command: 'leaveOpen' })
  }
})
