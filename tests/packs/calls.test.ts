/** Calls of a watch as an author may want them: rests of the starter, replies, limits that are figures, calls by situation. */

import { describe, expect, it } from 'vitest'
import { viewOf } from '../../src/app/view/view.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { authored, flown, sheet } from './authored.ts'

const written = (watch: string) => ({
  pack: `
situations:
  power:
    label: Power
    initial: cart
    options:
      cart: {label: cart, say: [cart start]}
      battery: {label: battery, say: [battery start]}
`,
  figures: '  rotate: {label: rotate speed, kind: speed, entered: {}}',
  procedures: `
phases:
  - phase: start
    name: Start
    activities:
      - watch: engine
        name: engine start
        begins: [starting the engine]
        stopWords: starter off
${watch.replace(/^/gm, '        ')}
      - list: after
        name: after start
        entries: [{item: doors, challenge: doors, response: both closed}]
`,
})

describe('attempts of a starter', () => {
  const pack = authored(
    written(`
attempts: {most: 2, rest: {seconds: 60, say: let it cool}, cool: {seconds: 1800, say: starter cooling}}
calls: [{call: light, label: light up, say: [engine lights up]}]
abnormal: [{abnormal: cold, label: no light, say: [no light up], stopWords: cutoff, again: {seconds: 20, say: drain}}]`),
  )

  it('are followed by a rest, the last of them by a longer one', () => {
    const run = flown(pack).hear('starting the engine').hear('no light up')
    expect(run.said()).toContain('Let it cool, sixty seconds.')
    expect(run.hear('starting the engine').said()).toContain('Not yet, let it cool')
    run.pass(61_000).hear('starting the engine').hear('stop')
    expect(run.said()).toContain('Starter off. Starter cooling, ')
    run.pass(61_000)
    expect(run.hear('starting the engine').said()).toContain('Not yet, starter cooling')
    run.pass(1_800_000).hear('starting the engine').hear('no light up')
    expect(run.said()).toContain('Let it cool, sixty seconds.')
  })
})

describe('a call that Otherseat answers', () => {
  const pack = authored(
    written(`
calls:
  - {call: alive, label: airspeed alive, say: [airspeed alive], reply: both alive}
  - {call: rotate, label: rotate, say: ["passing <value>"], value: {kind: speed, min: rotate, label: speed}, reply: rotate}`),
  )

  it('draws its own call, once the value is where the figure has it', () => {
    const run = flown(pack, sheet({ rotate: 74 })).hear('starting the engine')
    expect(run.hear('airspeed alive').said()).toBe('Both alive.')
    expect(run.hear('passing seven zero').said()).not.toContain('Rotate.')
    expect(run.hear('affirm').hear('passing seven four').said()).toContain('Rotate.')
    expect(run.state.watches.engine?.status).toBe('done')
  })
})

describe('calls by situation', () => {
  const pack = authored(
    written(`
calls:
  - {call: speed, label: speed, say: ["speed <value>"], value: {kind: integer, unit: percent, min: 12}, when: {power: cart}}
  - {call: slow, label: speed, say: ["speed <value>"], value: {kind: integer, unit: percent, min: 9}, when: {power: battery}}
  - {call: light, label: light up, say: [engine lights up]}`),
  )

  it('have the limits of the situation, and no other is waited for', () => {
    const run = flown(pack).hear('battery start').hear('starting the engine').hear('speed ten percent')
    expect(run.state.watches.engine?.calls).toHaveProperty('slow')
    expect(viewOf(pack, run.state).watch?.calls).toHaveLength(2)
    run.hear('engine lights up')
    expect(run.state.watches.engine?.status).toBe('done')
    expect(debriefOf(pack, run.events).watches[0]?.calls).toHaveLength(2)
    const cart = flown(pack).hear('starting the engine').hear('speed ten percent')
    expect(cart.state.watches.engine?.calls).toEqual({})
  })
})
