/** A departure that is too heavy or out of its envelope, from the figures typed in to the debrief of the run. */

import { screen, waitFor, within } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { compute, figureOf } from '../../src/kernel/figures/compute.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'
import { sayValue } from '../../src/kernel/kinds/table.ts'
import { allText, demo, flying, INPUTS, stage } from './stage.tsx'

const { stated: _, ...SHEET } = INPUTS.preliminary

const changed = (loads: Inputs['loads'], values: Inputs['values'] = {}): Inputs => ({
  ...SHEET,
  loads: { ...SHEET.loads, ...loads },
  values: { ...SHEET.values, ...values },
})

const HEAVY = changed(
  { frontCabin: 2264, rearCabin: 2180, aftHold: 916 },
  { blockFuel: 6260, taxiFuel: 60, tripFuel: 4000 },
)
const AFT = changed({ frontCabin: 1428, rearCabin: 2100, frontHold: 200, aftHold: 1130 })

const CASES = [
  [
    'too heavy for takeoff',
    HEAVY,
    'takeoff weight',
    /^takeoff weight over its limit by 60 kg \(31,700 kg, limit 31,640 kg\)$/,
  ],
  [
    'out of the takeoff envelope',
    AFT,
    'takeoff CG',
    /^takeoff CG 3[23]\.\d+ % MAC is [\d.]+ aft of the envelope takeoff \(.* at takeoff weight [\d,]+ kg\)$/,
  ],
] as const

/** The figures that the first list reads back, in its order. */
const READ = ['zeroFuelWeight', 'takeoffTrim', 'v1', 'vr', 'v2', 'takeoffThrust']

describe.each(CASES)('a departure %s', (_name, inputs, label, warning) => {
  const set = compute(demo.figures, inputs)
  const heading = 'Accept this before a list can be complete'

  /** At the end of the first list, every item of it answered right. */
  async function answered() {
    const flight = await flying({}, inputs)
    await flight.answer('load figures list')
    for (const name of READ) {
      const figure = figureOf(set, name)
      if (!figure) throw new Error(`${name} has no value`)
      await flight.answer(sayValue(figure, 'plain'))
    }
    await flight.answer(`edition one, ${set.figures.personsOnBoard?.value} on board`)
    const list = () => flight.store.getState().run?.lists.loadFigures
    const completions = () => flight.voice.said.filter(({ text }) => /list complete/i.test(text)).length
    return { ...flight, list, completions }
  }

  it('is warned of before it is entered, with the value and its limit', async () => {
    stage({ screen: 'figures', draft: inputs, preview: set })
    const problems = within(await screen.findByRole('region', { name: 'To fix or check' }))
    const told = problems.getAllByRole('listitem').map(({ textContent }) => textContent ?? '')
    const anywhere = new RegExp(warning.source.slice(1, -1))
    expect(
      told.some((text) => anywhere.test(text)),
      told.join('; '),
    ).toBe(true)
  })

  it('has no list complete until the warning is acknowledged on the screen, and the log has both', async () => {
    const { user, actions, store, log, voice, list, completions } = await answered()
    await waitFor(() => expect(store.getState().run?.question?.about).toBe('warnings'))
    expect(voice.said.at(-1)?.text).toMatch(
      new RegExp(`${label} (over limit|out of limits).*\\. Confirm accepted\\?$`, 'i'),
    )
    expect(list()).toMatchObject({ called: true, complete: false })
    expect(completions()).toBe(0)

    actions.show('figures')
    const card = await screen.findByRole('region', { name: heading })
    expect(card.textContent).toContain(label)
    const revised = log.events.find((event) => event.type === 'figuresRevised')
    expect(revised?.type === 'figuresRevised' && revised.warnings).toEqual(
      expect.arrayContaining([expect.stringMatching(warning)]),
    )
    await user.click(within(card).getByRole('button', { name: /^Accept/ }))
    await waitFor(() => expect(list()).toMatchObject({ complete: true }))
    expect(completions()).toBe(1)
    expect(log.events.at(-1)).toMatchObject({ type: 'commanded', command: 'affirm', evidence: { by: 'key' } })
    await waitFor(() => expect(screen.queryByRole('region', { name: heading })).toBeNull())

    await actions.showDebrief()
    await screen.findByRole('heading', { level: 1, name: 'Not all lists are complete' })
    const text = store.getState().debrief?.revisions.flatMap(({ notes }) => notes) ?? []
    for (const word of ['warning', 'acknowledged']) {
      const note = text.find((one) => one.startsWith(`${word}: `) && warning.test(one.slice(word.length + 2)))
      expect(note, word).toBeDefined()
      expect(allText()).toContain(note)
    }
  })

  it('stays incomplete where it is refused, and is asked for again when the list is called', async () => {
    const { answer, store, list, completions, log } = await answered()
    await waitFor(() => expect(store.getState().run?.question?.about).toBe('warnings'))
    await answer('negative')
    await waitFor(() => expect(store.getState().run?.question).toBeUndefined())
    expect(list()).toMatchObject({ complete: false })
    await answer('load figures list')
    await waitFor(() => expect(store.getState().run?.question?.about).toBe('warnings'))
    expect(completions()).toBe(0)
    await answer('affirm')
    await waitFor(() => expect(list()).toMatchObject({ complete: true }))
    expect(log.events.at(-1)).toMatchObject({ type: 'commanded', command: 'affirm', evidence: { by: 'typed' } })
  })
})
