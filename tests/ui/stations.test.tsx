import { cleanup, screen, waitFor } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS, type Settings } from '../../src/app/settings.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'
import type { Figure } from '../../src/kernel/kinds/kind.ts'
import { sayValue } from '../../src/kernel/kinds/table.ts'
import { demo, flying, INPUTS, SHEETS, stage } from './stage.tsx'

const WITH = (change: Partial<Settings> = {}) => ({
  settings: { ...DEFAULT_SETTINGS, welcomed: true, ownValues: false, ...change },
})
const GIVEN = Object.values(demo.figures.declarations).filter(({ given }) => given)

const specOf = (name: string) => demo.figures.declarations[name]?.spec

function started({ log }: Awaited<ReturnType<typeof flying>>) {
  const [first] = log.events
  if (first?.type !== 'runStarted') throw new Error('no run')
  return first
}

/** Flown until the broadcast is taken down; it says some figures otherwise than the papers have them. */
async function informed(said: Inputs['said'] = {}) {
  const flight = await flying(WITH(), { ...INPUTS.preliminary, said })
  const { answer } = flight
  const { script } = started(flight)
  const figures = ['two four three six zero', 'four point three up', 'one two six', 'one three two', 'one three nine']
  for (const text of ['load figures list', ...figures, 'niner zero point four', 'edition one, seven zero on board'])
    await answer(text)
  await screen.findByRole('heading', { level: 1, name: 'departure information' })
  await answer('get the information')
  const aloud = (name: string) => {
    const value = script?.values[name] ?? INPUTS.preliminary.values[name]
    return sayValue({ ...specOf(name), value } as Figure, 'standard')
  }
  const wind = `wind ${aloud('windDirection')} ${aloud('windSpeed')}`
  await answer(`information ${aloud('information')}, ${wind}, altimeter ${aloud('altimeter')}, runway two four`)
  await screen.findByRole('heading', { level: 1, name: 'departure clearance' })
  return { ...flight, script }
}

describe('figures that only stations give', () => {
  const labels = () => [...document.querySelectorAll('label')].map(({ textContent }) => textContent?.trim())

  it('are not asked for while the voices outside are on, and are while they are off', async () => {
    expect(GIVEN.length).toBeGreaterThan(5)
    const { store } = stage({ screen: 'figures', ...WITH() })
    const transponder = expect.stringMatching(/^transponder/)
    expect(labels()).not.toContainEqual(transponder)
    expect(labels()).toContainEqual(expect.stringMatching(/^fuel on board/))
    store.setState(WITH({ stations: false }))
    await waitFor(() => expect(labels()).toContainEqual(transponder))
  })

  it('are unknown at the start of a run, whatever the load sheet says', async () => {
    const { store, log } = await flying(WITH())
    expect(INPUTS.preliminary.values.transponder).toBe('4271')
    expect(store.getState().run?.values.transponder).toBeUndefined()
    expect(log.events.find(({ type }) => type === 'figuresRevised')).not.toMatchObject({
      inputs: { values: { transponder: expect.anything() } },
    })
  })

  it('come in as a revision when they were read back, and stay when a later load sheet comes in', async () => {
    const { actions, store, script } = await informed()
    const { information } = store.getState().run?.values ?? {}
    expect(information).toBe(script?.values.information)
    actions.draft({ ...INPUTS.final, values: { ...INPUTS.final.values, information: 'Z' } })
    await actions.enterRevision()
    await waitFor(() => expect(store.getState().run?.revision).toBe(3))
    expect(store.getState().run?.values.information).toBe(information)
  })
})

describe('what a broadcast gave in the place of what was entered', () => {
  it('stays when a sheet comes in that has the old value, and gives way to a hand that types another one', async () => {
    const { actions, store } = await informed({ altimeter: 1010 })
    const altimeter = () => store.getState().run?.values.altimeter
    expect(altimeter()).toBe(1010)
    await actions.readInputs(SHEETS.final, 'final.yaml')
    expect(store.getState().draft.values.altimeter).toBe(1010)
    await actions.enterRevision()
    await waitFor(() => expect(store.getState().run?.figureStatus).toBe('final'))
    expect(altimeter()).toBe(1010)
    const { draft } = store.getState()
    actions.draft({ ...draft, values: { ...draft.values, altimeter: 1009 } })
    await actions.enterRevision()
    await waitFor(() => expect(altimeter()).toBe(1009))
  })

  it('gives way to a sheet that has other news than the papers before', async () => {
    const { actions, store } = await informed({ altimeter: 1010 })
    await actions.readInputs(SHEETS.final.replace('altimeter: 1009', 'altimeter: 1012'), 'final.yaml')
    await actions.enterRevision()
    await waitFor(() => expect(store.getState().run?.values.altimeter).toBe(1012))
  })
})

describe('the script of a run', () => {
  it('is in its log from the first event, with the words on the radio', async () => {
    const first = started(await flying(WITH({ radio: 'faa' })))
    expect(first.settings.radio).toBe('faa')
    expect(Object.keys({ ...first.script?.values, ...first.script?.by })).toEqual(
      expect.arrayContaining(GIVEN.map(({ name }) => name)),
    )
    expect(first.script?.slip).toBeUndefined()
  })

  it('lets a controller err once where that is set', async () => {
    const { script } = started(await flying(WITH({ wrongHearBacks: true })))
    expect(script?.slip).toBeDefined()
  })

  it('is the same for the same dealt departure', async () => {
    const dealt = 41
    const one = started(await flying({ dealt, ...WITH() }))
    cleanup()
    const other = started(await flying({ dealt, ...WITH() }))
    expect(one.script).toEqual(other.script)
  })

  it('is not there where the voices outside are left out: the departure is flown without them', async () => {
    const flight = await flying(WITH({ stations: false }))
    expect(started(flight).script).toBeUndefined()
    expect(flight.store.getState().run?.values.transponder).toBe('4271')
    expect(screen.getByRole('region', { name: 'All lists' }).textContent).not.toContain('exchange')
  })
})
