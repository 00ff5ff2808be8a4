import { fireEvent, render, screen, waitFor, within } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import type { Actions } from '../../src/app/actions/actions.ts'
import { createAppStore } from '../../src/app/store.ts'
import { App } from '../../src/ui/App.tsx'
import { begun, PACK } from '../kernel/run/fixture.ts'
import { allText, atTrim, flying, INPUTS, stage } from './stage.tsx'

const challenge = (name: string) => screen.findByRole('heading', { level: 1, name })
const verdict = () => within(screen.getByRole('region', { name: 'What was heard' })).getByRole('status')
const items = () => within(screen.getByRole('region', { name: 'Items of the list' })).getAllByRole('listitem')
const item = (name: string) => items().find((entry) => entry.textContent?.startsWith(name))?.textContent

describe('an answer', () => {
  it('that is right is told in words in a live region, and the next challenge is put', async () => {
    const { answer } = await atTrim()
    await answer('four point three up')
    await challenge('V one')
    expect(verdict().textContent).toContain('takeoff trim')
    expect(verdict().textContent).toContain('Correct')
    expect(item('takeoff trim')).toContain('answered')
    expect(item('V one')).toContain('now')
  })

  it.each([
    ['four point eight up', 'Negative', 'a different value', 'wrong'],
    ['four point three down', 'Negative', 'a different direction', 'wrong'],
    ['four point three', 'Incomplete', 'direction missing', 'missing'],
  ])('"%s" for 4.3 up is %s: the part and why are told, and never the value that is right', async (said, ...told) => {
    const { answer } = await atTrim()
    await answer(said)
    await waitFor(() => expect(verdict().textContent).toContain(told[0]))
    for (const words of told) expect(verdict().textContent).toContain(words)
    const words = within(verdict()).getAllByText(/^(four|point|three|eight|up|down)$/)
    expect(words.map((word) => word.textContent).join(' ')).toBe(said)
    expect(allText()).not.toMatch(/4\.3|4,3/)
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('takeoff trim')
  })

  it('in another state does not tell the wording that would be right', async () => {
    const { answer, log } = await flying()
    await answer('before start list')
    await answer('negative')
    await challenge('parking brake')
    await answer('brake released')
    expect(log.events.at(-1)).toMatchObject({ type: 'answered', judgement: { verdict: 'negative' } })
    await waitFor(() => expect(verdict().textContent).toContain('Negative'))
    expect(allText()).not.toMatch(/brake set/)
  })

  it('that nothing is made of is shown as typed, in the place of an answer', async () => {
    const { answer } = await flying()
    await answer('banana')
    await waitFor(() => expect(verdict().textContent).toBe('Not understood: “banana”'))
    await answer('load figures list')
    await waitFor(() => expect(verdict().textContent).not.toContain('banana'))
  })

  it('beside words that nobody knows is to be said again: it is not missing', async () => {
    const { answer, store } = await flying()
    await answer('load figures list')
    for (const said of ['leave it open', 'leave it open', 'leave it open', 'leave it open', 'leave it open'])
      await answer(said)
    await answer('leave it open')
    await challenge('load sheet')
    await answer('edition one by the paper')
    await waitFor(() => expect(verdict().textContent).toContain('say it again'))
    expect(store.getState().run?.said).toMatch(
      /^Say again, load sheet edition\. Load sheet, persons on board and the rest\?$/,
    )
  })

  it('shows its words so far while it is spoken', async () => {
    const { ear } = await atTrim()
    ear.emit({ type: 'soFar', listenId: 1, text: 'four point' })
    const heard = screen.getByRole('region', { name: 'What was heard' })
    await waitFor(() => expect(heard.textContent).toContain('Words so far:fourpoint'))
  })

  it('typed counts from its first key: figures that change before it is sent make it void', async () => {
    const { user, actions, log } = await atTrim()
    const field = screen.getByRole('textbox', { name: 'Answer or phrase, typed' })
    await user.type(field, 'four point three')
    actions.draft(INPUTS.final)
    await actions.enterRevision()
    await user.type(field, ' up{Enter}')
    await waitFor(() => expect(log.events.at(-1)).toMatchObject({ type: 'voided', because: 'figuresChanged' }))
  })
})

describe('words that nothing is made of', () => {
  it('are told until something is, and go no further', async () => {
    const { answer, log } = await flying()
    const before = screen.getByRole('heading', { level: 1 }).textContent
    await answer('what a lovely day')
    await waitFor(() => expect(verdict().textContent).toBe('Not understood: “what a lovely day”'))
    expect(log.events.at(-1)).toMatchObject({ type: 'overheard', meant: true })
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe(before)
    await answer("okay, let's have the load figures list please")
    expect(log.events.at(-1)).toMatchObject({ type: 'listCalled' })
    await waitFor(() => expect(allText()).not.toContain('Not understood'))
  })
})

describe('the place in the procedure', () => {
  it('shows steps of a flow, each to be marked as done', async () => {
    const { user } = await flying()
    const steps = () => within(screen.getByRole('list', { name: 'Steps of the flow' })).getAllByRole('listitem')
    const count = steps().length
    await user.click(screen.getByRole('button', { name: 'Done: Set the takeoff trim on the wheel' }))
    await waitFor(() => expect(steps().filter((step) => step.textContent?.endsWith('done'))).toHaveLength(1))
    expect(steps()).toHaveLength(count)
  })

  it('sets several flows of a phase apart by their names', async () => {
    const [load, ...rest] = PACK.phases
    const [flow, ...others] = load?.activities ?? []
    if (!load || flow?.type !== 'flow') throw new Error('the small pack has another order')
    const steps = [
      { id: 'outside.door', text: 'Shut the door', say: flow.steps[0]?.say, sets: [] },
    ] as typeof flow.steps
    const walk = { ...flow, id: 'outside', name: 'Walk round', steps }
    const twoFlows = { ...PACK, phases: [{ ...load, activities: [walk, flow, ...others] }, ...rest] }
    const store = createAppStore({ pack: twoFlows, run: begun({}, twoFlows).state, screen: 'run' })
    store.setState({ settings: { ...store.getState().settings, welcomed: true } })
    render(<App store={store} actions={{} as Actions} />)
    const list = await screen.findByRole('list', { name: 'Steps of the Walk round' })
    expect(within(list).getAllByRole('listitem')).toHaveLength(1)
    expect(screen.getByRole('heading', { level: 2, name: flow.name })).toBeTruthy()
  })

  it('shows items left open and items open again in words, and that the list incomplete', async () => {
    const { answer, actions, user } = await atTrim()
    await user.click(screen.getByRole('button', { name: '“Leave it open”' }))
    await challenge('V one')
    expect(item('takeoff trim')).toContain('left open')
    for (const said of [
      'one two six',
      'one three two',
      'one three nine',
      'nine zero point four',
      'edition one, seven zero on board',
      'four point three up',
    ])
      await answer(said)
    const lists = screen.getByRole('region', { name: 'All lists' })
    await waitFor(() => expect(within(lists).getAllByRole('listitem')[0]?.textContent).toBe('load figurescomplete'))
    actions.draft(INPUTS.final)
    await actions.enterRevision()
    await challenge('Figures flow')
    await answer('flow complete')
    await waitFor(() => expect(item('takeoff trim')).toContain('open again'))
    expect(within(lists).getAllByRole('listitem')[0]?.textContent).toContain('no longer complete: zero fuel weight')
    expect(screen.getByText(/final figures, revision 2/)).toBeTruthy()
  })

  it('says what to look at, and nothing beside it', async () => {
    await atTrim()
    expect(screen.getByText('Look at the trim indicator and the trim wheel, then answer.')).toBeTruthy()
    expect(screen.queryByText(/Read it first/)).toBeNull()
    stage({ screen: 'run' })
    expect(screen.getByRole('heading', { level: 1, name: 'No run yet' })).toBeTruthy()
  })
})

describe('buttons', () => {
  it('do what their phrase does, and each names the phrase', async () => {
    const { user, log } = await atTrim()
    await user.click(screen.getByRole('button', { name: '“Stand by”' }))
    await challenge('Standing by')
    await user.click(screen.getByRole('button', { name: '“Continue”' }))
    await challenge('takeoff trim')
    await user.click(screen.getByText('Pass this item, with a reason'))
    await user.click(screen.getByRole('button', { name: /not fitted or say “pass, not fitted”/ }))
    // The trim is critical: affirm is asked for twice.
    await user.click(await screen.findByRole('button', { name: '“Affirm”' }))
    await challenge('Critical item. Confirm again?')
    await user.click(screen.getByRole('button', { name: '“Affirm”' }))
    await challenge('V one')
    expect(item('takeoff trim')).toContain('passed: not fitted')
    const commands = log.events.filter((event) => event.type === 'commanded')
    expect(commands.map(({ command, evidence }) => `${command} by ${evidence.by}`)).toEqual([
      ...['standBy by key', 'continue by key', 'pass by key', 'affirm by key', 'affirm by key'],
    ])
  })
})

describe('a pass that names no reason', () => {
  it('shows the reasons to choose from, and is left by disregard', async () => {
    const { user, answer } = await atTrim()
    await answer('pass')
    await challenge("Say the reason, not fitted, simulator fault, instructor's word, training.")
    await user.click(screen.getByRole('button', { name: '“Disregard”' }))
    await challenge('takeoff trim')
    await answer('pass')
    await user.click(await screen.findByRole('button', { name: '“Training”' }))
    await challenge('Pass takeoff trim, training. Confirm?')
    await answer('negative')
    await challenge('takeoff trim')
  })
})

describe('the ear', () => {
  const strip = () => screen.getByRole('region', { name: 'Microphone' })

  it.each([
    ['shut', 'Not listening: Otherseat speaks'],
    ['open', 'Listening'],
    ['hearing', 'Hearing you'],
    ['off', 'Microphone off: type or press'],
  ] as const)('%s is told as "%s"', async (state, words) => {
    const { ear } = await flying()
    ear.emit({ type: 'state', state })
    await waitFor(() => expect(within(strip()).getByText(words)).toBeTruthy())
  })

  it('that waits for the talk key says which, and is opened by its likeness on the screen', async () => {
    const talk = { type: 'key', code: 'F9', label: 'F9' } as const
    const { ear, actions, store } = await flying()
    actions.settings({ listening: 'push', switches: { talk, radio: null, confirm: null, freeze: null } })
    ear.emit({ type: 'state', state: 'shut' })
    await waitFor(() => expect(within(strip()).getByText('Hold F9 to talk')).toBeTruthy())
    const button = screen.getByRole('button', { name: 'Hold to talk or hold F9' })
    fireEvent.pointerDown(button)
    expect(store.getState().ear.gate).toBe('open')
    fireEvent.pointerUp(button)
    expect(store.getState().ear.gate).toBe('talk')
    actions.switched({ name: 'radio', isDown: true })
    await waitFor(() => expect(within(strip()).getByText('Not listening: radio key')).toBeTruthy())
  })

  it('shows a level only while it listens', async () => {
    const { ear } = await flying()
    ear.emit({ type: 'level', level: -30, noise: -60, clipping: false })
    ear.emit({ type: 'state', state: 'open' })
    expect(await screen.findByRole('img', { name: 'Microphone level -30 decibels' })).toBeTruthy()
    ear.emit({ type: 'state', state: 'shut' })
    await waitFor(() => expect(screen.queryByRole('img', { name: /Microphone level/ })).toBeNull())
  })

  it('shows how far the recogniser is loaded', async () => {
    const { ear } = await flying()
    ear.emit({ type: 'state', state: 'loading' })
    ear.emit({ type: 'loading', fraction: 0.42 })
    const bar = await screen.findByRole('progressbar', { name: 'Recogniser loaded' })
    await waitFor(() => expect(bar.getAttribute('aria-valuenow')).toBe('42'))
  })

  it('that fails says what to do, leaves typing, and can be tried again', async () => {
    const { ear, user, answer, store } = await flying()
    ear.emit({ type: 'failed', failure: { code: 'refused', message: 'The microphone was refused: allow it.' } })
    ear.emit({ type: 'state', state: 'failed' })
    expect((await screen.findByRole('alert')).textContent).toContain('The microphone was refused: allow it.')
    await answer('load figures list')
    await challenge('zero fuel weight')
    const opened = ear.vocabularies.length
    await user.click(screen.getByRole('button', { name: 'Try the microphone again' }))
    await waitFor(() => expect(ear.vocabularies.length).toBe(opened + 1))
    expect(store.getState().ear.failure).toBeUndefined()
  })

  it('that fails is put away by one touch, and told again when it fails anew', async () => {
    const { ear, user, store } = await flying()
    const fail = () => {
      ear.emit({ type: 'failed', failure: { code: 'refused', message: 'The microphone was refused: allow it.' } })
      ear.emit({ type: 'state', state: 'failed' })
    }
    fail()
    await screen.findByRole('alert')
    await user.click(screen.getByRole('button', { name: /^Put away/ }))
    await waitFor(() => expect(screen.queryByRole('alert')).toBeNull())
    expect(screen.getByRole('region', { name: 'Microphone' }).textContent).toContain('Not listening: type or press')
    fail()
    expect(screen.queryByRole('alert')).toBeNull()
    ear.emit({ type: 'state', state: 'open' })
    await waitFor(() => expect(store.getState().ear.putAway).toBe(''))
    fail()
    await screen.findByRole('alert')
  })
})

describe('the voice', () => {
  it('that cannot be heard leaves the challenge to be read, announced', async () => {
    const { store } = await atTrim()
    store.setState({ voice: { speaking: '', role: 'otherseat', failed: true } })
    await waitFor(() => expect(screen.getByRole('heading', { level: 1 }).getAttribute('aria-live')).toBe('assertive'))
    expect(screen.getByText(/voice cannot be heard/)).toBeTruthy()
  })
})
