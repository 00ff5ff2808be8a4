import { describe, expect, it } from 'vitest'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import { begun, call, FINAL, PACK, PRELIMINARY, revision, type TestRun } from '../fixture.ts'

/** The load list answered on preliminary figures, to its last item or to its end; then final ones with another trim. */
const atWindows = (settings = { lateCatch: true }) =>
  begun(settings).happen(call('load')).answer('correct').answer('correct')
const changed = (run: TestRun) => run.happen(revision(2, 'final', FINAL, PRELIMINARY))
const catchesOf = (run: TestRun) => debriefOf(PACK, run.events).catches
const ended = (run: TestRun) => run.happen({ type: 'ended' })

describe('late catch', () => {
  it('says that figures are in, and opens nothing', () => {
    const run = changed(atWindows())
    expect(run.said()).toBe('Final figures are in. Windows?')
    expect(run.state.items['load.trim']?.status).toBe('done')
    expect(run.state.stepsAgain).toEqual([])
    // Looked at in the middle of a run, the debrief keeps it back too.
    expect(catchesOf(run)).toEqual([])
    expect(catchesOf(ended(run))).toEqual([
      { item: 'load.trim', challenge: 'takeoff trim', changedAt: 5_000, by: 'nobody' },
    ])
  })

  it('is off where it is not set', () => {
    const run = changed(atWindows({ lateCatch: false }))
    expect(run.said()).toContain('Recheck takeoff trim')
    expect(catchesOf(run)).toEqual([])
  })

  it('ends when the list would be complete: Otherseat says it then, and the list is not complete', () => {
    const run = changed(atWindows()).answer('correct')
    expect(run.state.lists.load?.complete).toBe(false)
    expect(run.said()).toContain('Recheck takeoff trim.')
    expect(run.state.floor.at).toBe('flow')
    expect(run.state.items['load.trim']?.status).toBe('reopened')
    expect(catchesOf(run)).toEqual([
      { item: 'load.trim', challenge: 'takeoff trim', changedAt: 5_000, t: 6_000, by: 'otherseat' },
    ])
    run.happen({ type: 'flowClosed', flow: 'loadFlow', evidence: { by: 'typed', text: 'done' } }).answer('correct')
    expect(run.state.lists.load?.complete).toBe(true)
    expect(catchesOf(run)).toHaveLength(1)
  })

  it('opens the step that sets it too, where that was done', () => {
    const run = begun({ lateCatch: true })
    run.happen({ type: 'flowClosed', flow: 'loadFlow', evidence: { by: 'typed', text: 'done' } })
    run.happen(call('load')).answer('correct').answer('correct')
    changed(run).answer('correct')
    expect(run.state.stepsAgain).toEqual(['loadFlow.setTrim'])
    expect(run.said()).toBe('Recheck takeoff trim. Redo load flow, Trim.')
  })

  it('of a list that is complete is told when the next one would be', () => {
    const run = changed(atWindows().answer('correct'))
    expect(run.state.lists.load?.complete).toBe(true)
    run.happen(call('start')).answer('correct')
    run.happen({ type: 'cleared', clearance: 'push', evidence: { by: 'typed', text: 'cleared to push' } })
    run.answer('correct')
    expect(run.state.lists.load?.complete).toBe(true)
    run.answer('correct')
    expect(run.said()).toContain('Recheck takeoff trim. Load list incomplete. Start list complete.')
    expect(run.state.lists.load).toMatchObject({ complete: false, revoked: true })
    expect(run.state.lists.start?.complete).toBe(true)
  })

  it('belongs to the pilot who rechecks it unasked: nothing is said of it later', () => {
    const run = begun({ lateCatch: true })
    run.happen({ type: 'flowClosed', flow: 'loadFlow', evidence: { by: 'typed', text: 'done' } })
    run.happen(call('load')).answer('correct').answer('correct')
    changed(run).hear('recheck takeoff trim')
    expect(run.said()).toBe('Takeoff trim?')
    run.answer('correct')
    expect(catchesOf(run)).toEqual([
      { item: 'load.trim', challenge: 'takeoff trim', changedAt: 6_000, t: 8_000, by: 'pilot' },
    ])
    run.answer('correct')
    expect(run.said()).toMatch(/^Load list complete\./)
    expect(run.state.stepsAgain).toEqual([])
    expect(catchesOf(run)).toHaveLength(1)
  })

  it('is not brought out by what is read aloud or taken down meanwhile', () => {
    const run = changed(atWindows())
    run.happen({ ...revision(3, 'final', { ...FINAL, code: '4272' }, FINAL), crossChecked: 'code' } as never)
    expect(run.state.items['load.trim']?.status).toBe('done')
    expect(run.state.heldBack?.moved).toEqual(['trim', 'code'])
  })

  it('is Otherseat’s where the old value is read back to a recheck and refused', () => {
    const run = changed(atWindows()).hear('recheck takeoff trim').answer('negative')
    expect(catchesOf(run)).toEqual([
      { item: 'load.trim', challenge: 'takeoff trim', changedAt: 5_000, t: 7_000, by: 'otherseat' },
    ])
    run.answer('correct')
    expect(catchesOf(run)).toHaveLength(1)
  })

  it('is no catch where Otherseat was first', () => {
    const run = changed(atWindows()).answer('correct')
    run.happen({ type: 'flowClosed', flow: 'loadFlow', evidence: { by: 'typed', text: 'done' } })
    run.answer('negative').answer('correct')
    expect(catchesOf(run)).toMatchObject([{ item: 'load.trim', challenge: 'takeoff trim', by: 'otherseat' }])
  })

  it('is no catch where the old value still holds', () => {
    const run = begun({ lateCatch: true }).happen(call('load')).answer('correct').answer('correct')
    changed(run).hear('recheck flap').answer('correct')
    expect(catchesOf(ended(run))).toMatchObject([{ item: 'load.trim', challenge: 'takeoff trim', by: 'nobody' }])
  })

  it('counts from the first change where several came, and from the inputs before it', () => {
    const run = changed(atWindows())
    run.happen(revision(3, 'amended', { ...FINAL, flap: 18 }, FINAL)).answer('correct')
    expect(run.state.heldBack).toBeUndefined()
    expect(catchesOf(run).map(({ challenge, changedAt }) => [challenge, changedAt])).toEqual([
      ['takeoff trim', 5_000],
      ['flap', 5_000],
    ])
  })

  it('holds nothing back behind the last list, or of what the pilot read aloud', () => {
    const trim = (run: TestRun) => run.state.items['load.trim']?.status
    const read = atWindows().happen({
      ...revision(2, 'preliminary', FINAL, PRELIMINARY),
      crossChecked: 'trim',
    } as never)
    expect(trim(read)).toBe('reopened')
    const over = atWindows()
      .answer('correct')
      .happen(revision(2, 'final', PRELIMINARY, PRELIMINARY))
    over.happen(call('start')).answer('correct')
    over.happen({ type: 'cleared', clearance: 'push', evidence: { by: 'typed', text: 'cleared to push' } })
    over.answer('correct').answer('correct')
    expect(over.state.floor.at).toBe('end')
    over.happen(revision(3, 'amended', FINAL, PRELIMINARY))
    expect(trim(over)).toBe('reopened')
  })
})

describe('recheck', () => {
  it('of what no item is called asks for its name, and is no miss of the open item', () => {
    const run = begun().happen(call('load')).hear('recheck the magic carpet')
    expect(run.said()).toBe('Recheck what? Say recheck and the item.')
    expect(run.state.floor).toMatchObject({ at: 'item', item: 'load.trim' })
    expect(run.state.items['load.trim']?.misses ?? 0).toBe(0)
    expect(run.hear('five point two up').state.floor).toMatchObject({ item: 'load.flap' })
    expect(debriefOf(PACK, run.events).lists[0]?.items[0]?.tries).toMatchObject([{ judgement: { verdict: 'correct' } }])
  })

  it('puts the item again that is named, and takes its list back', () => {
    const run = begun().happen(call('load')).answer('correct').answer('correct').answer('correct')
    run.hear('recheck flap')
    expect(run.said()).toBe('Load list incomplete. Flap?')
    run.answer('correct')
    expect(run.state.lists.load?.complete).toBe(true)
  })

  it('of what is open already, or unknown, changes nothing', () => {
    const run = begun().happen(call('load'))
    run.hear('recheck flap')
    expect([run.said(), run.state.floor]).toMatchObject(['Not yet, takeoff trim.', { item: 'load.trim' }])
    run.hear('recheck wing lights', { by: 'typed' })
    expect(run.state.floor).toMatchObject({ item: 'load.trim' })
  })
})
