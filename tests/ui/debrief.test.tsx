import { screen, waitFor, within } from '@testing-library/preact'
import { describe, expect, it, vi } from 'vitest'
import { type Debrief, debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { notesOf } from '../../src/ui/parts/debrief/Accounts.tsx'
import { atTrim, demo, INPUTS, stage } from './stage.tsx'

const heading1 = () => screen.getByRole('heading', { level: 1 }).textContent

async function afterwards() {
  const flight = await atTrim()
  await flight.answer('four point eight up')
  await flight.answer('confirm takeoff trim')
  await flight.answer('four point three up')
  await flight.answer('remark the left gauge flickers')
  flight.actions.draft(INPUTS.final)
  await flight.actions.enterRevision()
  await flight.user.click(screen.getByRole('button', { name: 'Debrief' }))
  await screen.findByRole('heading', { level: 1, name: 'Not all lists are complete' })
  return flight
}

/** A blob of this page has no stream. */
function textOf(blob: Blob | undefined): Promise<string> {
  return new Promise((done) => {
    const reader = new FileReader()
    reader.onload = () => done(String(reader.result))
    reader.readAsText(blob ?? new Blob())
  })
}

describe('the debrief', () => {
  it('tells a stop once, with how long it took, and a list called early among the deviations alone', () => {
    const told = {
      interruptions: [
        { what: 'standBy', t: 4_000, lengthMs: 60_000, at: 'takeoff trim', offered: false },
        { what: 'standBy', t: 90_000, lengthMs: 30_000, at: 'V one', offered: false },
      ],
      stops: [{ t: 4_000, text: 'stop', at: 'takeoff trim' }],
      outOfOrder: [{ t: 5_000, list: 'before start', before: 'load figures' }],
      ...{ remarks: [], situations: [], notEnded: [] },
    }
    expect(notesOf(told as unknown as Debrief).map(({ text }) => text)).toEqual([
      'stopped at takeoff trim, 1:00: “stop”',
      'stood by at V one, 0:30',
    ])
  })

  it('ends the run that is on, once asked, and stays with it', async () => {
    const { user, log } = await afterwards()
    await user.click(screen.getByRole('button', { name: 'End the run' }))
    await user.click(screen.getByRole('button', { name: 'End it now' }))
    await waitFor(() => expect(screen.queryByRole('button', { name: 'End it now' })).toBeNull())
    expect(log.events.at(-1)?.type).toBe('ended')
    await waitFor(() => expect(heading1()).toBe('Not all lists are complete'))
    expect(screen.queryByRole('button', { name: 'End the run' })).toBeNull()
  })

  it('tells each item with every try, what was missed, given and opened again', async () => {
    await afterwards()
    const list = screen.getByRole('region', { name: 'List load figures' })
    const trim = within(list)
      .getAllByRole('listitem')
      .find((item) => item.textContent?.startsWith(' takeoff trim'))
    expect(trim?.textContent).toContain('open again, typed, 1 missed, opened again once, value given')
    expect(trim?.textContent).toContain('“four point eight up”')
    expect(trim?.textContent).toContain('takeoff trim: said 4.8 up, 4.3 up was right')
    expect(trim?.textContent).toContain('Correct')
  })

  it('counts misses, values given and void answers, and tells revisions and remarks', async () => {
    await afterwards()
    const totals = screen.getByRole('region', { name: 'Summary' })
    const count = (term: string) => within(totals).getByText(term).nextSibling?.textContent
    expect(within(totals).getByText('1 missed: 1 at items.')).toBeDefined()
    expect(Number(count('Values given'))).toBeGreaterThan(0)
    const figures = screen.getByRole('region', { name: 'Figures' })
    expect(figures.textContent).toContain('revision 2, final, final load sheet')
    expect(figures.textContent).toContain('opened again: zero fuel weight, takeoff trim')
    expect(screen.getByRole('region', { name: 'Stops, interruptions, remarks and changes' }).textContent).toContain(
      'remark: the left gauge flickers',
    )
  })

  it('keeps what would be right at an open item to itself while the run goes on', async () => {
    const flight = await atTrim()
    await flight.answer('four point eight up')
    await flight.user.click(screen.getByRole('button', { name: 'Debrief' }))
    await screen.findByRole('heading', { level: 1, name: 'Not all lists are complete' })
    const page = document.body.textContent ?? ''
    expect(page).toContain('“four point eight up”')
    expect(page).toContain('said 4.8 up')
    expect(page).not.toContain('4.3')
  })

  it('hands out the log, one event a line, as it is stored', async () => {
    const { user, log } = await afterwards()
    let saved: Blob | undefined
    URL.createObjectURL = vi.fn((blob: Blob) => {
      saved = blob
      return 'blob:log'
    })
    URL.revokeObjectURL = vi.fn()
    const click = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(() => undefined)
    await user.click(screen.getByRole('button', { name: 'Save the log' }))
    await waitFor(() => expect(click).toHaveBeenCalledOnce())
    const lines = (await textOf(saved)).trim().split('\n')
    expect(lines.map((line) => JSON.parse(line))).toEqual(log.events)
  })

  it('of no run says where it comes from', () => {
    stage({ screen: 'debrief' })
    expect(screen.getByRole('heading', { level: 1, name: 'No debrief yet' })).toBeTruthy()
  })
})

describe('the first page', () => {
  it('has what to take away, each with the way to do it again, and folds the rest under headings with counts', async () => {
    await afterwards()
    const first = screen.getByRole('region', { name: 'To take away' })
    expect(first.textContent).toContain('“four point eight up”')
    expect(within(first).getAllByRole('button', { name: /^Do that moment again/ }).length).toBeGreaterThan(0)
    const heads = [...document.querySelectorAll('.fold > summary')].map(({ textContent }) => textContent)
    expect(heads).toContain('Lists 5, 1 missed')
    expect(heads).toContain('Summary 1 missed')
    expect([...document.querySelectorAll<HTMLDetailsElement>('.fold')].some(({ open }) => open)).toBe(false)
  })

  it('tells each thing of the timeline by the arrow keys, and the same in a table', async () => {
    const { user } = await afterwards()
    const timeline = screen.getByRole('listbox', { name: 'The run along its time' })
    timeline.focus()
    await user.keyboard('{End}{ArrowLeft}{Home}')
    const [option] = within(timeline).getAllByRole('option', { selected: true })
    expect(timeline.getAttribute('aria-activedescendant')).toBe(option?.id)
    const told = within(timeline)
      .getAllByRole('option')
      .map(({ textContent }) => textContent)
    const words = 'Takeoff trim: “four point eight up”, wrong; “four point three up”, right'
    expect(told.some((text) => text?.includes(words))).toBe(true)
    const rows = within(screen.getByRole('table')).getAllByRole('row')
    expect(rows).toHaveLength(told.length + 1)
    expect(rows.some(({ textContent }) => textContent?.includes(words))).toBe(true)
  })
})

describe('that moment again', () => {
  const REST = [
    ...['four point three up', 'one two six', 'one three two', 'one three nine', 'niner zero point four'],
    'edition one, seven zero on board',
  ]

  it('begins a new run at the item, tells at its end how it went, and leads back to the run before', async () => {
    const flight = await atTrim()
    const { user, log, answer } = flight
    await answer('four point eight up')
    for (const text of REST) await answer(text)
    await user.click(screen.getByRole('button', { name: 'Debrief' }))
    const before = log.events.length
    // Pressed twice it begins once.
    await user.dblClick(await screen.findByRole('button', { name: 'Do that moment again: takeoff trim' }))
    await screen.findByRole('heading', { level: 1, name: 'takeoff trim' })
    const own = () => log.events.filter(({ runId }) => runId === 'run 2')
    await waitFor(() => expect(own().at(-1)?.type).toBe('resumed'))
    expect(own()[0]).toMatchObject({ type: 'runStarted', again: { runId: 'run', lastMisses: 1 } })
    expect(own().map(({ seq }) => seq)).toEqual(own().map((_, index) => index))
    expect(log.events.slice(0, before).every(({ runId }) => runId === 'run')).toBe(true)
    expect(new Set(log.events.map(({ runId }) => runId)).size).toBe(2)

    for (const text of REST) await answer(text)
    await screen.findByRole('heading', { level: 1, name: 'Drill over' })
    expect(document.body.textContent).toContain('This time: nothing missed. The last time: 1 missed.')
    await user.click(screen.getByRole('button', { name: 'End the drill, read how it went' }))
    await screen.findByRole('heading', { level: 1, name: 'Again: load figures' })
    expect(own().at(-1)?.type).toBe('ended')
    expect(document.body.textContent).toContain('This time nothing missed, the last time 1 missed.')
    await user.click(screen.getByRole('button', { name: 'The debrief of that run' }))
    await screen.findByRole('heading', { level: 1, name: 'Not all lists are complete' })
  })
})

describe('that moment again on other figures', () => {
  it('asks for a value that the pilot has not said before, and lays its sheet on the table', async () => {
    const { user, log, answer, store } = await atTrim()
    await answer('four point eight up')
    const before = store.getState().run?.values.takeoffTrim
    await user.click(screen.getByRole('button', { name: 'Debrief' }))
    await user.click(await screen.findByRole('button', { name: 'Other figures: takeoff trim' }))
    await screen.findByRole('heading', { level: 1, name: 'takeoff trim' })
    await waitFor(() => expect(store.getState().run?.revision).toBe(2))
    const { values } = store.getState().run ?? {}
    expect(values?.takeoffTrim).not.toBe(before)
    const came = log.events.filter(({ runId }) => runId === 'run 2').findLast(({ type }) => type === 'figuresRevised')
    expect(came).toMatchObject({ sheet: { label: 'other figures' } })
    // It is set anew before it is read.
    await answer('done')
    await screen.findByRole('heading', { level: 1, name: 'zero fuel weight' })
    expect(screen.getByRole('button', { name: /^load sheet ?edition 2/ })).toBeTruthy()
    await answer(`${values?.zeroFuelWeight}`)
    await screen.findByRole('heading', { level: 1, name: 'takeoff trim' })
    await answer(`${before} up`)
    expect(await screen.findByText('Negative')).toBeTruthy()
    await answer(`${values?.takeoffTrim} up`)
    await screen.findByRole('heading', { level: 1, name: 'V one' })
  })
})

describe('a replay', () => {
  it('is not offered while the run goes on; once it is over it plays, and is gone through one by one', async () => {
    const { user, actions, store } = await afterwards()
    expect(screen.queryByRole('button', { name: 'Replay' })).toBeNull()
    await actions.replay()
    expect(store.getState().replay).toBeUndefined()
    const { debriefed } = store.getState()
    await actions.endRun()
    store.setState({ debriefed, debrief: debriefOf(demo, debriefed?.events ?? []), screen: 'debrief' })
    await user.click(await screen.findByRole('button', { name: 'Replay' }))
    await waitFor(() => expect(store.getState().replay?.isPlaying).toBe(true))
    const replay = await screen.findByRole('region', { name: 'Replay' })
    await user.click(within(replay).getByRole('button', { name: 'Pause' }))
    await user.click(within(replay).getByRole('button', { name: 'Next' }))
    await user.click(within(replay).getByRole('radio', { name: '4×' }))
    expect(store.getState().replay).toMatchObject({ isPlaying: false, speed: 4 })
    expect(store.getState().replay?.at).toBeGreaterThan(0)
    actions.show('start')
    await waitFor(() => expect(store.getState().replay).toBeUndefined())
  })
})
