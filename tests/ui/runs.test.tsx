/** The screen of runs, as a person uses it. */

import { fireEvent, screen, waitFor, within } from '@testing-library/preact'
import { beforeAll, describe, expect, it } from 'vitest'
import { linesOf } from '../../src/app/runs/runFiles.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { asRun, flownRun, keptIn } from '../app/runs/flownRuns.ts'
import { createFakeLog } from '../fakes/log.ts'
import { flying, stage } from './stage.tsx'

let flown: readonly RunEvent[]
beforeAll(async () => {
  flown = await flownRun()
})

/** Three runs: two ended, in January and in March, and one in February that was left. */
async function runs(own: Parameters<typeof stage>[1] = {}) {
  const log = createFakeLog()
  await keptIn(log, asRun(flown, 'january', 5), asRun(flown.slice(0, 5), 'february', 36), asRun(flown, 'march', 70))
  const on = stage({ screen: 'runs' }, { log, ...own })
  await screen.findByText('3 runs')
  return { ...on, log }
}

const rows = () => within(screen.getByRole('region', { name: 'Kept in this browser' })).queryAllByRole('listitem')
const daysShown = () => rows().map((row) => row.textContent?.match(/\d+ \w+ 2026/)?.[0])

describe('the list of runs', () => {
  it('tells of each what was flown, how far it went and what was missed, newest first', async () => {
    await runs()
    expect(daysShown()).toEqual(['11 Mar 2026', '5 Feb 2026', '5 Jan 2026'])
    expect(rows()[0]?.textContent).toMatch(
      /Marram.*figures entered, no stations.*2 of \d+ items, 0 of \d+ lists complete; 1 missed: 1 at items; lasted \d+ s/,
    )
    expect(rows()[0]?.textContent).not.toContain('not ended')
    expect(rows()[1]?.textContent).toContain('not ended')
  })

  it('shows those of a day range, of an end and of a pack', async () => {
    const { user } = await runs()
    fireEvent.change(screen.getByLabelText('From'), { target: { value: '2026-02-05' } })
    await waitFor(() => expect(daysShown()).toEqual(['11 Mar 2026', '5 Feb 2026']))
    fireEvent.change(screen.getByLabelText('To'), { target: { value: '2026-02-05' } })
    await screen.findByText('1 of 3 runs')
    await user.click(screen.getByRole('button', { name: 'Show all' }))
    await user.selectOptions(screen.getByLabelText('End'), 'Not ended')
    await waitFor(() => expect(daysShown()).toEqual(['5 Feb 2026']))
    await user.selectOptions(screen.getByLabelText('End'), 'Ended')
    await waitFor(() => expect(rows()).toHaveLength(2))
    expect(within(screen.getByLabelText('Pack')).getAllByRole('option')).toHaveLength(2)
  })

  it('reads no events of runs whose line is there, and makes up for one of an earlier edition', async () => {
    const log = createFakeLog()
    await keptIn(log, asRun(flown, 'new', 2))
    const events = asRun(flown, 'old', 1)
    const summary = { runId: 'old', pack: 'Marram', startedAt: Date.UTC(2026, 0, 1), ended: true }
    await log.put({ summary, events })
    const read: string[] = []
    const counting = {
      ...log,
      async read(runId: string) {
        read.push(runId)
        return log.read(runId)
      },
    }
    stage({ screen: 'runs' }, { log: counting })
    await waitFor(() => expect(rows()[1]?.textContent).toContain('1 miss'))
    expect(read).toEqual(['old'])
    expect((await log.runs()).find(({ runId }) => runId === 'old')).toMatchObject({
      events: events.length,
      isOver: true,
    })
  })

  it('opens the debrief of any, under an address of its own', async () => {
    const { user, store } = await runs()
    await user.click(screen.getByRole('button', { name: /^Debrief of .*5 Jan 2026/ }))
    await screen.findByRole('heading', { level: 1, name: 'Not all lists are complete' })
    expect(store.getState().debrief?.runId).toBe('january')
    await waitFor(() => expect(location.hash).toBe('#runs/january'))
    await user.click(screen.getByRole('button', { name: 'Runs' }))
    await screen.findByText('3 runs')
  })

  it('keeps to itself what would be right in any run that has no end yet, not only in the one that is offered', async () => {
    const open = flown.slice(
      0,
      flown.findLastIndex(({ type }) => type === 'answered'),
    )
    const log = createFakeLog()
    await keptIn(log, asRun(open, 'march', 70))
    await log.putAway('march')
    for (const event of asRun(open, 'january', 5)) await log.append(event)
    for (const event of asRun(open, 'february', 36)) await log.append(event)
    const { store, actions } = stage({ screen: 'runs' }, { log })
    await actions.openRun('january')
    const tries = () =>
      store
        .getState()
        .debrief?.lists.flatMap(({ items }) => items)
        .flatMap((item) => item.tries) ?? []
    expect(tries().some(({ judgement }) => judgement.verdict === 'negative')).toBe(true)
    expect(JSON.stringify(tries())).not.toContain('4.3')
    // One that came from a file is not gone on with.
    await actions.openRun('march')
    expect(JSON.stringify(tries())).toContain('4.3')
  })

  it('ends the replay of one where the debrief of another is opened', async () => {
    const { store, actions } = await runs()
    await actions.openRun('january')
    await actions.replay()
    expect(store.getState().replay).toBeDefined()
    await actions.openRun('march')
    expect(store.getState()).toMatchObject({ debrief: { runId: 'march' }, replay: undefined })
  })

  it('deletes one and brings it back as it was', async () => {
    const { user, log } = await runs()
    const before = await log.read('february')
    await user.click(screen.getByRole('button', { name: /^Delete .*5 Feb 2026/ }))
    await screen.findByText('2 runs')
    expect(await log.read('february')).toEqual([])
    const undo = screen.getByRole('button', { name: 'Undo' })
    await waitFor(() => expect(document.activeElement).toBe(undo))
    await user.click(undo)
    await screen.findByText('3 runs')
    expect(await log.read('february')).toEqual(before)
    expect(screen.queryByRole('button', { name: 'Undo' })).toBeNull()
  })

  it('takes the way back away where the run came back in a file', async () => {
    const { user } = await runs()
    await user.click(screen.getByRole('button', { name: /^Delete .*5 Jan 2026/ }))
    await screen.findByRole('button', { name: 'Undo' })
    const file = new File([linesOf(asRun(flown, 'january', 5))], 'january.jsonl')
    await user.upload(screen.getByLabelText('Choose archives, saved runs or logs, or drop them here'), file)
    await screen.findByText('3 runs')
    await waitFor(() => expect(screen.queryByRole('button', { name: 'Undo' })).toBeNull())
  })

  it('does not delete the run that is on', async () => {
    const flight = await flying()
    await flight.user.click(screen.getByRole('button', { name: 'Runs' }))
    await screen.findByText('1 run')
    await flight.user.click(screen.getByRole('button', { name: /^Delete/ }))
    await screen.findByText('This run is on, here or in another tab: end it first.')
    expect(await flight.log.read('run')).not.toEqual([])
  })

  it('takes logs in and tells what became of them', async () => {
    const { user } = await runs()
    const file = (name: string, text: string) => new File([text], name)
    await user.upload(screen.getByLabelText('Choose archives, saved runs or logs, or drop them here'), [
      file('may.jsonl', linesOf(asRun(flown, 'may', 130))),
      file('january.jsonl', linesOf(asRun(flown, 'january', 5))),
      file('cut.jsonl', linesOf(asRun(flown, 'cut', 131)).slice(0, -5)),
    ])
    await screen.findByText('2 runs came in.')
    await screen.findByText('1 run was here already.')
    await screen.findByText(/^"cut.jsonl" is cut; it is read up to its last whole line, event \d+\.$/)
    await screen.findByText('5 runs')
  })

  it('asks the browser to keep them, and says what it answered', async () => {
    const answers = [false, true]
    const siteStorage = {
      room: async () => ({ used: 90_000_000, most: 2_000_000_000 }),
      isKept: async () => false,
      keep: async () => answers.shift(),
    }
    const { user } = await runs({ siteStorage })
    const room = screen.getByRole('region', { name: 'Room' })
    await within(room).findByText(/The runs take about \d+ kB\. .* takes 90 MB of the 2\.0 GB/)
    await within(room).findByText(/may delete them if the disk runs short, or/)
    await user.click(within(room).getByRole('button', { name: 'Ask the browser to keep them' }))
    await within(room).findByText(/did not agree/)
    await user.click(within(room).getByRole('button', { name: 'Ask the browser to keep them' }))
    await within(room).findByText(/has promised to keep them/)
    expect(within(room).queryByRole('button')).toBeNull()
  })
})
