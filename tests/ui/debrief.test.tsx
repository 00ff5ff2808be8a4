import { screen, waitFor, within } from '@testing-library/preact'
import { describe, expect, it, vi } from 'vitest'
import { atTrim, INPUTS, stage } from './stage.tsx'

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
    expect(count('Item answers missed')).toBe('1')
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
