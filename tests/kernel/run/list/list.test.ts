import { describe, expect, it } from 'vitest'
import { begun, call, TYPED } from '../fixture.ts'

describe('a list', () => {
  it('is called by its name out of the flow, and puts its first challenge', () => {
    const run = begun().happen(call('load'))
    expect(run.said()).toBe('Load list. Takeoff trim?')
    expect(run.state.floor).toEqual({ at: 'item', list: 'load', item: 'load.trim' })
    expect(run.effects.at(-1)).toMatchObject({ type: 'startTimer' })
  })

  it('moves to the next challenge only when the answer is right', () => {
    const run = begun().happen(call('load'))
    for (const verdict of ['negative', 'incomplete', 'sayAgain'] as const) {
      run.answer(verdict, {
        parts: [{ name: 'trim', kind: 'figure', state: verdict === 'negative' ? 'wrong' : 'missing' }],
      })
      expect(run.state.floor).toMatchObject({ item: 'load.trim' })
    }
    run.answer('correct')
    expect(run.state.floor).toMatchObject({ item: 'load.flap' })
  })

  it('is answered by the pilot first and then by Otherseat where both seats answer', () => {
    const run = begun().happen(call('load')).answer('correct').answer('correct')
    expect(run.said()).toBe('Fourteen, simulated. Windows?')
  })

  it('is complete only when every item is closed, and says on which figures', () => {
    const run = begun().happen(call('load')).answer('correct').answer('correct')
    expect(run.state.lists.load?.complete).toBe(false)
    run.answer('correct')
    expect(run.state.lists.load).toMatchObject({ complete: true, onPreliminary: true })
    expect(run.said()).toBe('Load list complete on preliminary figures. Start list on your call.')
  })

  it('called out of order is questioned, and runs on negative', () => {
    const run = begun().happen(call('start'))
    expect(run.said()).toBe('Load list not done. Do that first?')
    expect(run.state.floor.at).toBe('flow')
    run.command('negative')
    expect(run.state.floor).toMatchObject({ item: 'start.code' })
    const first = begun().happen(call('start')).command('affirm')
    expect(first.state.floor).toMatchObject({ list: 'load' })
    expect(first.state.lists.start).toBeUndefined()
  })

  it('that needs final figures asks for them while they are preliminary', () => {
    const run = begun().happen(call('load')).answer('correct').answer('correct').answer('correct').happen(call('start'))
    expect(run.said()).toBe('Final figures in?')
    run.command('affirm')
    expect(run.said()).toBe('Still on preliminary figures. Final figures in?')
    run.command('negative')
    expect(run.state.floor.at).toBe('call')
  })

  it('stops at the line until the clearance is in', () => {
    const run = begun().happen(call('load')).answer('correct').answer('correct').answer('correct')
    run.happen(call('start')).command('affirm').command('affirm').answer('correct')
    expect(run.state.floor).toEqual({ at: 'line', list: 'start', line: 'start.line' })
    expect(run.effects.some((effect) => effect.type === 'startTimer')).toBe(false)
    run.happen({ type: 'cleared', clearance: 'push', evidence: TYPED })
    expect(run.said()).toBe('Below the line. Tow bar?')
  })

  it('leaves out the items that do not apply in the situation', () => {
    const run = begun().happen({ type: 'situationSet', name: 'stand', value: 'self', evidence: TYPED })
    run
      .happen(call('load'))
      .answer('correct')
      .answer('correct')
      .answer('correct')
      .happen(call('start'))
      .command('affirm')
      .command('affirm')
    run.answer('correct').happen({ type: 'cleared', clearance: 'push', evidence: TYPED })
    expect(run.state.floor).toMatchObject({ item: 'start.beacon' })
    run.answer('correct')
    expect(run.said()).toBe('Start list complete on preliminary figures. All lists complete.')
    expect(run.state.floor).toEqual({ at: 'end' })
  })
})

describe('an item left open', () => {
  it('is asked for before completion, and blocks it', () => {
    const run = begun().happen(call('load')).command('leaveOpen').answer('correct').answer('correct')
    expect(run.said()).toBe('Left open. Takeoff trim?')
    run.command('leaveOpen')
    expect(run.said()).toContain('Load list complete except takeoff trim.')
    expect(run.state.lists.load?.complete).toBe(false)
  })

  it('where no item is open is just asked for: what is open is put again', () => {
    const run = begun().command('leaveOpen')
    expect(run.said()).toContain('Load flow.')
    expect(run.state.items).toEqual({})
  })

  it('is come back to after all others, and only what is left open twice is gone on from', () => {
    const run = begun().happen(call('load')).command('leaveOpen').command('leaveOpen')
    expect(run.said()).toBe('Windows?')
    run.command('leaveOpen')
    expect(run.said()).toBe('Left open. Takeoff trim?')
    run.answer('correct')
    expect(run.state.floor).toMatchObject({ item: 'load.flap' })
    run.command('leaveOpen')
    expect(run.said()).toContain('Load list complete except flap and windows.')
    expect(run.state.lists.load).toMatchObject({ complete: false, suspended: true })
  })

  it('is not gone on from any more once an item before it is said again', () => {
    const run = begun().happen(call('load')).answer('correct').answer('correct').command('leaveOpen')
    run.command('leaveOpen').command('correction')
    expect(run.state.floor).toMatchObject({ item: 'load.flap' })
    expect(run.state.lists.load).toMatchObject({ complete: false, revoked: false, suspended: false })
  })
})

describe('silence', () => {
  const timers = ({ effects }: ReturnType<typeof begun>) =>
    effects.flatMap((effect) => (effect.type === 'startTimer' ? [[effect.timer, effect.ms]] : []))

  it('at an open item is prompted after 8 s and told by a tone after a minute, once', () => {
    const run = begun().happen(call('load'))
    expect(timers(run)).toEqual([
      ['prompt', 8_000],
      ['tone', 60_000],
    ])
    run.happen({ type: 'silent', order: run.state.listenId, after: 'prompt' })
    expect(run.said()).toBe('Takeoff trim?')
    expect(timers(run)).toEqual([['tone', 60_000]])
    run.happen({ type: 'silent', order: run.state.listenId, after: 'tone' })
    expect(run.effects).toEqual([{ type: 'tone', tone: 'soft' }])
    expect(run.state.floor).toMatchObject({ item: 'load.trim' })
  })

  it('does not count after a miss before 20 s have passed', () => {
    const run = begun()
      .happen(call('load'))
      .answer('negative', { parts: [{ name: 'trim', kind: 'figure', state: 'wrong' }] })
    expect(timers(run)[0]).toEqual(['prompt', 20_000])
  })

  it.each<[string, (run: ReturnType<typeof begun>) => unknown]>([
    ['at an open question', (run) => run.happen(call('load')).command('pass', 'training')],
    ['at a question beside a flow', (run) => run.happen(call('start'))],
    ['standing by', (run) => run.happen(call('load')).command('standBy')],
    ['in a flow', (run) => run.command('radioCheck')],
  ])('is none %s', (_, bring) => {
    const run = begun()
    bring(run)
    expect(run.effects).toContainEqual(expect.objectContaining({ type: 'listen' }))
    expect(timers(run)).toEqual([])
  })

  it('of an earlier listening turn changes nothing', () => {
    const run = begun().happen(call('load'))
    const { listenId } = run.state
    run.command('sayAgain').happen({ type: 'silent', order: listenId, after: 'prompt' })
    expect(run.effects).toEqual([])
  })
})

describe('passing an item', () => {
  const asked = () => begun().happen(call('load')).hear('pass')

  it.each(['voice', 'typed'] as const)('asks for a reason and for affirm (%s)', (by) => {
    const run = begun().happen(call('load')).hear('pass', { by })
    expect(run.said()).toBe("Say the reason, not fitted, simulator fault, instructor's word, training.")
    expect(run.hear('not fitted', { by }).said()).toBe('Pass takeoff trim, not fitted. Confirm?')
    expect(run.state.items['load.trim']?.status).toBe('open')
    expect(run.hear('affirm', { by }).said()).toBe('Takeoff trim passed. Flap?')
    expect(run.state.items['load.trim']).toMatchObject({ status: 'passed', reason: 'notFitted', by })
  })

  it('takes the reason in the same breath', () => {
    expect(begun().happen(call('load')).hear('pass, simulator fault').said()).toBe(
      'Pass takeoff trim, simulator fault. Confirm?',
    )
  })

  it.each(['negative', 'disregard'])('is left by "%s", at the reason as at affirm', (text) => {
    for (const run of [asked(), asked().hear('training')]) {
      expect(run.hear(text).said()).toBe('Takeoff trim?')
      expect(run.state).toMatchObject({ question: undefined, floor: { item: 'load.trim' } })
      expect(run.hear('five point two up').state.items['load.trim']?.status).toBe('done')
    }
  })

  it('takes nothing else for a reason, and asks once more on request', () => {
    const run = asked().hear('five point two up').hear('affirm')
    expect(run.said()).toMatch(/^Say the reason/)
    expect(run.hear('say again').said()).toMatch(/^Say the reason/)
    expect(run.state).toMatchObject({ question: { about: 'passReason' }, floor: { item: 'load.trim' } })
  })
})

describe('correction after an advance', () => {
  it('opens the item before again', () => {
    const run = begun().happen(call('load')).answer('correct').command('correction')
    expect(run.state.floor).toMatchObject({ item: 'load.trim' })
    expect(run.state.items['load.trim']?.status).toBe('reopened')
  })
})

describe('the same wrong answer twice', () => {
  it('with a value is answered with the revision it was judged against, and a question for newer figures', () => {
    const run = begun().happen(call('load')).hear('five point four up')
    expect(run.said()).not.toContain('Newer one')
    expect(run.hear('five point four up').said()).toContain('Revision one here. Newer one?')
    expect(run.hear('five point six up').said()).not.toContain('Newer one')
  })

  it('with a state is not: no figures bear on it', () => {
    const run = begun().happen(call('load')).answer('correct').answer('correct').hear('open')
    expect(run.hear('open').said()).not.toContain('Newer one')
    expect(run.state.items['load.windows']?.misses).toBe(2)
  })
})
