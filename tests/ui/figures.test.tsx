import { screen, waitFor, within } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { hiddenFigures } from '../../src/app/figures/hiddenFigures.ts'
import { dealtBy } from '../../src/app/run/beginning.ts'
import { compute } from '../../src/kernel/figures/compute.ts'
import { shownIn } from '../../src/kernel/figures/shown.ts'
import { allText, atTrim, demo, INPUTS, SHEETS, stage } from './stage.tsx'

const field = (name: string, group?: string) =>
  (group ? within(screen.getByRole('group', { name: group })) : screen).getByRole('textbox', { name })
const computed = (name: string) =>
  within(screen.getByRole('list', { name: 'Values that are read back' }))
    .getAllByRole('listitem')
    .find((row) => row.textContent?.startsWith(name))?.textContent

/** On the figures screen, with the preliminary figures typed in, and the load sheet's own totals where they are wanted. */
function entering(stated: typeof INPUTS.preliminary.stated = {}) {
  const draft = { ...INPUTS.preliminary, stated }
  return stage({ screen: 'figures', draft, preview: compute(demo.figures, draft) })
}

function csvOf({ status, values, loads }: typeof INPUTS.final): string {
  const rows = Object.entries({ status, ...values, ...loads }).map(([name, value]) => `${name},${value}`)
  return ['name,value', ...rows].join('\n')
}

async function revising() {
  const flight = await atTrim()
  await flight.user.click(screen.getByRole('button', { name: 'Figures' }))
  await screen.findByRole('heading', { level: 1, name: 'Figures of this departure' })
  return flight
}

describe('entering figures', () => {
  it('computes as the keys are pressed, with the unit and the usual range beside each field', async () => {
    const { user } = entering()
    await waitFor(() => expect(computed('takeoff trim')).toContain('4.3 up'))
    const fuel = field('fuel on board')
    expect(fuel.closest('.field')?.textContent).toMatch(/^fuel on board\s*kg\s*normally 1,500 to 6,780 kg$/)
    await user.clear(fuel)
    await user.type(fuel, '5640')
    await waitFor(() => expect(computed('takeoff weight')).toContain('29,820 kg'))
  })

  it.each([
    ['fuel on board', '54 sacks', 'fuel on board "54 sacks" should be a number in kg'],
    ['fuel on board', '900', 'fuel on board 900 kg is unusual; normally 1,500 to 6,780 kg'],
    ['runway', '7', 'runway "7" should be 01 to 36'],
    ['transponder', '427', 'transponder "427" should be 4 digits from 0 to 7 (in quotes)'],
  ])('says beside the field %s what is wrong with "%s"', async (label, typed, told) => {
    const { user } = entering()
    await user.clear(field(label))
    await user.type(field(label), typed)
    await waitFor(() => expect(field(label).closest('.field')?.textContent).toContain(told))
    expect(field(label)).toHaveProperty('value', typed)
  })

  it('accepts nothing while a field is wrong, and says so; what is only unusual may be meant', async () => {
    const { user, actions, log } = entering()
    const enter = () => screen.getByRole('button', { name: 'Accept figures as revision 1' })
    await user.clear(field('runway'))
    await user.type(field('runway'), '37')
    await waitFor(() => expect(enter()).toHaveProperty('disabled', true))
    expect(enter().parentElement?.textContent).toContain('Correct the marked fields first.')
    await actions.enterRevision()
    expect(log.events).toEqual([])
    await user.clear(field('runway'))
    await user.type(field('runway'), '24')
    await user.clear(field('fuel on board'))
    await user.type(field('fuel on board'), '900')
    await waitFor(() => expect(enter()).toHaveProperty('disabled', false))
  })

  it('begins no run on nothing: a figure or a load sheet comes first', async () => {
    const { user, actions, store, log } = stage({ screen: 'figures' })
    const enter = screen.getByRole('button', { name: 'Accept figures as revision 1' })
    expect(enter).toHaveProperty('disabled', true)
    expect(screen.getByText('Type a figure or take a load sheet first.')).toBeTruthy()
    await actions.enterRevision()
    expect(log.events).toEqual([])
    expect(store.getState().run).toBeUndefined()
    await user.type(field('fuel on board'), '5240')
    expect(enter).toHaveProperty('disabled', false)
  })

  it('names a load that is over its limit, with what would be right', async () => {
    const { user } = entering()
    await user.clear(field('aft hold'))
    await user.type(field('aft hold'), '2500')
    const problems = await screen.findByRole('region', { name: 'To fix or check' })
    expect(problems.textContent).toContain('load aft hold 2,500 kg is over its limit of 1,900 kg')
  })

  it('goes back one field at a time', async () => {
    const { user, store } = entering()
    const undo = () => screen.getByRole('button', { name: 'Undo' })
    await user.clear(field('trip fuel'))
    await user.type(field('trip fuel'), '3100')
    await user.clear(field('taxi fuel'))
    await user.type(field('taxi fuel'), '200')
    expect(store.getState().draft.values).toMatchObject({ tripFuel: 3100, taxiFuel: 200 })
    await user.click(undo())
    expect(store.getState().draft.values).toMatchObject({ tripFuel: 3100, taxiFuel: 180 })
    await user.click(undo())
    expect(store.getState().draft.values).toMatchObject({ tripFuel: 2900, taxiFuel: 180 })
    await waitFor(() => expect(field('trip fuel')).toHaveProperty('value', '2900'))
  })

  it('can be taken back after other screens were looked at', async () => {
    const { user, store, actions } = entering()
    await user.clear(field('trip fuel'))
    await user.type(field('trip fuel'), '3100')
    actions.show('settings')
    await waitFor(() => expect(screen.queryByRole('button', { name: 'Undo' })).toBeNull())
    actions.show('figures')
    await user.click(await screen.findByRole('button', { name: 'Undo' }))
    expect(store.getState().draft.values.tripFuel).toBe(2900)
    await waitFor(() => expect(screen.getByRole('button', { name: 'Undo' })).toHaveProperty('disabled', true))
  })

  it('begins a new past with a departure that is dealt, and with each revision that is entered', async () => {
    const { user, store, actions } = entering()
    const undo = () => screen.getByRole('button', { name: 'Undo' })
    await user.type(field('trip fuel'), '{Backspace}')
    await waitFor(() => expect(undo()).toHaveProperty('disabled', false))
    actions.deal(7)
    await waitFor(() => expect(undo()).toHaveProperty('disabled', true))
    await user.clear(field('trip fuel'))
    await user.type(field('trip fuel'), '2500')
    await waitFor(() => expect(undo()).toHaveProperty('disabled', false))
    await user.click(screen.getByRole('button', { name: 'Accept figures as revision 1' }))
    await screen.findByRole('heading', { level: 1, name: 'Figures flow' })
    actions.show('figures')
    expect(await screen.findByRole('button', { name: 'Undo' })).toHaveProperty('disabled', true)
    expect(store.getState().draft.values.tripFuel).toBe(2500)
  })

  it('takes last-minute changes by count at a station', async () => {
    const { user } = entering()
    await user.click(screen.getByRole('button', { name: 'Add a last-minute change' }))
    await user.selectOptions(screen.getByRole('combobox', { name: 'Station' }), 'rear cabin')
    await user.type(field('Persons added (minus if removed)'), '2')
    // Two at 84 kg: 24,364 kg by the stations become 24,532 kg, rounded to 10.
    await waitFor(() => expect(computed('zero fuel weight')).toContain('24,530 kg'))
    await user.click(screen.getByRole('button', { name: 'Remove the change at rear cabin' }))
    await waitFor(() => expect(computed('zero fuel weight')).toContain('24,360 kg'))
  })
})

describe('a load sheet', () => {
  it.each([
    ['YAML', SHEETS.final],
    ['JSON', JSON.stringify(INPUTS.final)],
    ['CSV', csvOf(INPUTS.final)],
  ])('pasted as %s fills the fields', async (_, text) => {
    const { user } = stage({ screen: 'figures' })
    await user.click(screen.getByText('Paste, drop or open a load sheet'))
    await user.click(field('Load sheet as YAML, JSON or CSV'))
    await user.paste(text)
    await user.click(screen.getByRole('button', { name: 'Read it' }))
    await waitFor(() => expect(computed('takeoff trim')).toContain('3.1 up'))
    await waitFor(() => expect(field('fuel on board')).toHaveProperty('value', '5640'))
    expect(screen.getByRole('radio', { name: 'Final' })).toHaveProperty('checked', true)
  })

  it('opened as a file is read, and what is wrong in it has its line and column', async () => {
    const { user } = stage({ screen: 'figures' })
    await user.click(screen.getByText('Paste, drop or open a load sheet'))
    const text = SHEETS.preliminary.replace('blockFuel', 'blokFuel')
    await user.upload(screen.getByLabelText('Or open a file, or drop one here'), new File([text], 'sheet.yaml'))
    const problems = await screen.findByRole('region', { name: 'Load sheet not read' })
    expect(problems.textContent).toContain('blokFuel')
    expect(problems.textContent).toMatch(/sheet\.yaml, line 7, column 3/)
  })
})

describe('sources side by side', () => {
  const stated = () => field('load sheet', 'takeoff weight')
  const line = (name: string) => screen.getByRole('group', { name }).closest('details')?.querySelector('summary')

  it('that agree are said to, and one that differs blocks the figure until it is settled with a reason', async () => {
    const { user, store } = entering(INPUTS.preliminary.stated)
    await waitFor(() => expect(stated().closest('div.fields')?.textContent).toMatch(/agrees(?! \()/))
    await user.clear(stated())
    await user.type(stated(), '29240')
    await screen.findByText(/differs \(-180 kg\)/)
    expect(computed('takeoff weight')).toContain('not known yet')
    await user.click(screen.getByRole('radio', { name: /^computed: / }))
    await screen.findByText('Chosen without a reason, so not settled: takeoff weight.')
    expect(line('takeoff weight')?.textContent).toContain('chosen, the reason is missing')
    await user.type(field('Reason'), 'the sheet has two digits swapped')
    await waitFor(() => expect(computed('takeoff weight')).toContain('29,420 kg'))
    expect(store.getState().draft.settled?.takeoffWeight).toMatchObject({
      use: 'computed',
      reason: 'the sheet has two digits swapped',
    })
    expect(line('takeoff weight')?.textContent).toContain('differed, settled')
    // What is being typed in must not be shut away by its own effect.
    expect(line('takeoff weight')?.closest('details')).toHaveProperty('open', true)
    // Another total on the sheet was not what was settled.
    await user.type(stated(), '{Backspace}9')
    await waitFor(() => expect(line('takeoff weight')?.textContent).toContain('choose again'))
    expect(computed('takeoff weight')).toContain('not known yet')
  })

  it('are compared with what was typed in: a runway, a flap, a fuel', async () => {
    const { user } = entering()
    expect(line('runway')?.textContent).toContain('nothing stated')
    await user.type(field('takeoff data', 'runway'), '33')
    await waitFor(() => expect(line('runway')?.textContent).toContain('takeoff data differs: choose one'))
    expect(computed('V one')).toContain('not known yet')
    await user.clear(field('takeoff data', 'runway'))
    await user.type(field('takeoff data', 'runway'), '24')
    await waitFor(() => expect(line('runway')?.textContent).toContain('takeoff data agrees'))
    expect(computed('V one')).toContain('126 kt')
    await user.type(field('load sheet', 'fuel on board'), '5280')
    await waitFor(() => expect(line('fuel on board')?.textContent).toContain('load sheet differs'))
  })

  it('are compared with nothing where the newest edition of the paper leaves a blank', async () => {
    const { user, store, actions, log } = entering(INPUTS.preliminary.stated)
    await waitFor(() => expect(line('V one')?.textContent).toContain('takeoff data agrees'))
    const { v1: _, ...data } = INPUTS.final.stated?.takeoffData ?? {}
    const sheet = { ...INPUTS.final, stated: { ...INPUTS.final.stated, takeoffData: data } }
    await actions.readInputs(JSON.stringify(sheet), 'final.json', 'lay')
    await waitFor(() => expect(line('V one')?.textContent).toContain('nothing stated'))
    expect(field('takeoff data', 'V one').closest('.source')?.textContent).toContain(
      'Not on the takeoff data, edition 1: not compared.',
    )
    expect(line('V two')?.textContent).toContain('takeoff data agrees')
    expect(store.getState().draft.stated?.takeoffData?.v1).toBe(126)
    await user.click(screen.getByRole('button', { name: 'Accept figures as revision 1' }))
    await waitFor(() => expect(log.events.some(({ type }) => type === 'figuresRevised')).toBe(true))
    const revised = log.events.find((event) => event.type === 'figuresRevised')
    expect(revised?.inputs.stated?.takeoffData).not.toHaveProperty('v1')
  })

  it('stand beside our own trim, which no sheet prints', async () => {
    const { user } = entering()
    await user.type(field('flight computer', 'takeoff trim'), '-4.3')
    await waitFor(() => expect(line('takeoff trim')?.textContent).toContain('flight computer differs'))
    expect(screen.getByRole('group', { name: 'takeoff trim' }).textContent).toContain('Computed here: 4.3 up')
    expect(screen.getAllByRole('radio', { name: /computed|sheet|data|computer/ }).length).toBe(2)
  })
})

describe('why a value is what it is', () => {
  it('is told with the table cells that were used', async () => {
    const { user } = entering()
    const row = screen.getByRole('list', { name: 'Values that are read back' })
    await user.click(await within(row).findByText(/^4\.3 up/))
    expect(row.textContent).toContain('table takeoff trim, takeoff CG 22, flap 12: 4.8')
    expect(row.textContent).toContain('table takeoff trim, takeoff CG 26, flap 12: 3.5')
  })

  it('is seen in the table: the cells in use are named as such', async () => {
    entering()
    const table = await screen.findByRole('table', { name: 'takeoff trim, units' })
    const used = within(table).getAllByRole('cell', { name: /in use/ })
    expect(used.map((cell) => cell.textContent)).toEqual(['4.8 in use', '3.5 in use'])
  })

  it('is seen in the envelope, and the same stands in a table', async () => {
    const { user } = entering()
    const { figures } = compute(demo.figures, INPUTS.preliminary)
    const picture = screen.getByRole('img', { name: /Envelopes of weight and centre of gravity: .*takeoff 29,424 at/ })
    expect(picture.getAttribute('aria-label')).toContain(`takeoff 29,424 at ${figures.takeoffCg?.exact?.toFixed(1)}`)
    await user.click(screen.getByText('The same as a table'))
    const rows = within(screen.getByRole('region', { name: 'Weight and centre of gravity as a table' })).getAllByRole(
      'row',
    )
    expect(rows[2]?.textContent).toBe(`takeoff, entered29,424${figures.takeoffCg?.exact?.toFixed(1)}13.231.8inside`)
  })
})

describe('a revision while a run is on', () => {
  it('hides every value that is yet to be read back, and what gives it away', async () => {
    const { pack, store } = await revising()
    const { run } = store.getState()
    const set = compute(pack.figures, INPUTS.preliminary)
    const hidden = [...hiddenFigures(pack, run).keys()]
    expect(hidden).toContain('takeoffTrim')
    const long = hidden.flatMap((name) => shownIn(set, name) ?? []).filter((value) => /\d{3}|\.\d/.test(value))
    expect(long.length).toBeGreaterThan(8)
    for (const value of long) expect(allText(), value).not.toContain(value)
  })

  it('says which values will be other ones and what opens again, and then it does', async () => {
    const { user, actions, store } = await revising()
    actions.draft(INPUTS.final)
    const changes = await screen.findByRole('region', { name: 'Against revision 1' })
    await waitFor(() => expect(changes.textContent).toContain('takeoff trimchanges'))
    expect(changes.textContent).toContain('Opens again: zero fuel weight.')
    await user.click(screen.getByRole('button', { name: 'Accept figures as revision 2' }))
    // What sets it comes before what says it: the flow is to be done again first.
    await screen.findByRole('heading', { level: 1, name: 'Figures flow' })
    expect(store.getState().run?.items['loadFigures.zeroFuelWeight']?.status).toBe('reopened')
  })

  it('keeps hidden values in force unless another one is typed', async () => {
    const { user, store } = await revising()
    const fuel = field('fuel on board')
    expect(fuel).toHaveProperty('value', '')
    expect(fuel).toHaveProperty('placeholder', 'as in force')
    await user.type(fuel, '5640')
    expect(store.getState().draft.values.blockFuel).toBe(5640)
    await user.clear(fuel)
    expect(store.getState().draft.values.blockFuel).toBe(INPUTS.preliminary.values.blockFuel)
  })

  it('shows one value on request: the voice says it, and what rests on it is marked as given', async () => {
    const { user, voice, store } = await revising()
    await user.click(screen.getByText(/Hidden during the run/))
    expect(screen.getByText(/every item that rests on it is marked as given/)).toBeTruthy()
    await user.click(screen.getByRole('button', { name: 'Show takeoff trim' }))
    await waitFor(() => expect(computed('takeoff trim')).toContain('4.3 up'))
    expect(voice.said.map(({ text }) => text).join(' ')).toContain('Takeoff trim, four point three up.')
    expect(store.getState().run?.items['loadFigures.trim']?.revealed).toBe(true)
    expect(allText()).not.toContain('126 kt')
  })

  it('hides the value that a draft would give to one that was shown', async () => {
    const { user, actions } = await revising()
    await user.click(screen.getByText(/Hidden during the run/))
    await user.click(screen.getByRole('button', { name: 'Show takeoff trim' }))
    await waitFor(() => expect(computed('takeoff trim')).toContain('4.3 up'))
    actions.draft(INPUTS.final)
    const changes = await screen.findByRole('region', { name: 'Against revision 1' })
    await waitFor(() => expect(changes.textContent).toContain('takeoff trimchanges'))
    expect(allText()).not.toMatch(/[45]\.[0-9] up/)
  })

  it('leaves the situation as it was told in the meantime', async () => {
    const { actions, store } = await revising()
    actions.press({ type: 'situation', name: 'stand', value: 'own' })
    await waitFor(() => expect(store.getState().draft.situation?.stand).toBe('own'))
    const { loads } = INPUTS.preliminary
    actions.draft({ ...store.getState().draft, loads: { ...loads, aftHold: 800 } })
    await actions.enterRevision()
    expect(store.getState().run).toMatchObject({ revision: 2, situation: { stand: 'own' } })
  })

  it('says that a load sheet tells of another situation, before it is entered', async () => {
    const { actions } = await revising()
    actions.draft({ ...INPUTS.final, situation: { stand: 'own', icing: 'no' } })
    const changes = await screen.findByRole('region', { name: 'Against revision 1' })
    await waitFor(() => expect(changes.textContent).toContain('Stand: leaves under its own power'))
  })

  it('that comes in on its own can be taken back to what was being typed', async () => {
    const dealt = dealtBy(demo, 7)
    if (!dealt) throw new Error('the demo pack deals nothing')
    const { actions, store, clock, user } = stage()
    actions.deal(7)
    await actions.enterRevision()
    actions.show('figures')
    await screen.findByRole('heading', { level: 1, name: 'Figures of this departure' })
    await user.clear(field('trip fuel'))
    await user.type(field('trip fuel'), '2850')
    clock.advance(dealt.finalAfterMinutes * 60_000)
    await waitFor(() => expect(store.getState().revisions.length).toBe(2))
    expect(store.getState().draft.values.tripFuel).toBe(dealt.final.values.tripFuel)
    await user.click(screen.getByRole('button', { name: 'Undo' }))
    expect(store.getState().draft.values.tripFuel).toBe(2850)
  })

  it('takes typing back, and never what a voice gave in the meantime', async () => {
    const { actions, store, ear, user } = await revising()
    await user.type(field('fuel on board'), '5640')
    actions.press({ type: 'situation', name: 'stand', value: 'own' })
    actions.press({ type: 'crossCheck', figure: 'runway', source: 'takeoffData' })
    await waitFor(() => expect(store.getState().run?.question?.about).toBe('reading'))
    ear.hear('runway two four')
    await waitFor(() => expect(store.getState().run?.revision).toBe(2))
    await user.click(screen.getByRole('button', { name: 'Undo' }))
    const { draft } = store.getState()
    expect(draft.values.blockFuel).toBe(INPUTS.preliminary.values.blockFuel)
    expect(draft.stated?.takeoffData?.runway).toBe('24')
    expect(draft.situation?.stand).toBe('own')
  })

  it('keeps what was being typed when a value is read aloud', async () => {
    const { actions, store, ear } = await revising()
    actions.press({ type: 'situation', name: 'stand', value: 'own' })
    actions.draft({ ...INPUTS.final, situation: { stand: 'own' } })
    actions.press({ type: 'crossCheck', figure: 'runway', source: 'takeoffData' })
    await waitFor(() => expect(store.getState().run?.question?.about).toBe('reading'))
    ear.hear('runway two four')
    await waitFor(() => expect(store.getState().run?.revision).toBe(2))
    const { draft, run } = store.getState()
    expect(draft.values.blockFuel).toBe(INPUTS.final.values.blockFuel)
    expect(draft.stated?.takeoffData?.runway).toBe('24')
    expect(run?.inputs?.values.blockFuel).toBe(INPUTS.preliminary.values.blockFuel)
    expect(run?.situation.stand).toBe('own')
  })

  it('hides the workings, and shows one on request; what it helps to work out is marked', async () => {
    const { user, store } = await revising()
    // What leads to nothing that is read back is no secret.
    const shown = screen.queryByRole('list', { name: 'Workings' })?.querySelectorAll('.cap') ?? []
    expect([...shown].map(({ textContent }) => textContent)).toEqual(['dew point'])
    const moment = shownIn(compute(demo.figures, INPUTS.preliminary), 'takeoffMoment') ?? ''
    expect(moment).toMatch(/\d{3} kg m$/)
    expect(allText()).not.toContain(moment)
    await user.click(screen.getByText(/Workings hidden during the run/))
    await user.click(screen.getByRole('button', { name: 'Show pressure altitude' }))
    const workings = await screen.findByRole('list', { name: 'Workings' })
    const height = shownIn(compute(demo.figures, INPUTS.preliminary), 'pressureAltitude') ?? ''
    expect(height).toMatch(/\d ft$/)
    expect(workings.textContent).toContain(height)
    expect(store.getState().run?.items['beforeStart.altimeters']?.revealed).toBe(true)
    expect(store.getState().run?.items['loadFigures.trim']?.revealed).not.toBe(true)
  })

  it('is kept, and an earlier one can be taken up again', async () => {
    const { actions, store, user } = await revising()
    actions.draft(INPUTS.final)
    await actions.enterRevision()
    actions.show('figures')
    await user.click(await screen.findByText('Revisions so far (2)'))
    const kept = screen.getByRole('list', { name: 'Revisions so far' })
    expect(kept.textContent).toContain('Revision 2, final load sheet')
    expect(kept.textContent).toContain('opened again: zero fuel weight')
    await user.click(screen.getByRole('button', { name: /^Use again revision 1/ }))
    expect(store.getState().draft).toEqual(INPUTS.preliminary)
    expect(store.getState().revisions.length).toBe(2)
  })

  it('with a jump larger than the pack expects is worth a second look before it is entered', async () => {
    const { actions } = await revising()
    actions.draft({ ...INPUTS.preliminary, stated: {}, values: { ...INPUTS.preliminary.values, blockFuel: 3540 } })
    const problems = await screen.findByRole('region', { name: 'To fix or check' })
    await waitFor(() => expect(problems.textContent).toContain('Check fuel on board: it is worth a second look'))
    expect(problems.textContent).not.toMatch(/3,540|5,240/)
  })

  it('that changes no spoken value says so', async () => {
    const { actions } = await revising()
    const { loads } = INPUTS.preliminary
    actions.draft({ ...INPUTS.preliminary, loads: { ...loads, frontCabin: (loads.frontCabin ?? 0) + 1 } })
    const changes = await screen.findByRole('region', { name: 'Against revision 1' })
    await waitFor(() => expect(changes.textContent).toContain('No value that is read back changes.'))
    expect(changes.textContent).not.toContain('Opens again')
  })

  it('of a broken limit asks for it to be acknowledged at the end of the list', async () => {
    const { store } = await revising()
    const { run } = store.getState()
    if (!run) throw new Error('no run')
    store.setState({
      run: { ...run, warnings: ['takeoff weight over its limit by 360 kg (32,000 kg, limit 31,640 kg)'] },
    })
    const warnings = await screen.findByRole('region', { name: /Accept this before/ })
    expect(warnings.textContent).toContain('takeoff weight over its limit; show its value to read by how much')
    expect(warnings.textContent).not.toMatch(/32,000|360/)
  })
})
