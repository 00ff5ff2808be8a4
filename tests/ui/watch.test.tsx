import { cleanup, render, screen } from '@testing-library/preact'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Actions } from '../../src/app/actions/actions.ts'
import { createAppStore } from '../../src/app/store.ts'
import type { ViewWatch } from '../../src/app/view/timeView.ts'
import type { DebriefCall } from '../../src/kernel/run/debrief/debriefWatch.ts'
import { App } from '../../src/ui/App.tsx'
import { WatchSection } from '../../src/ui/parts/debrief/WatchSection.tsx'
import { WatchPanel } from '../../src/ui/parts/run/WatchPanel.tsx'
import { beforeEngine, began, STARTING } from '../kernel/run/startFixture.ts'
import './stage.tsx'

type Call = ViewWatch['calls'][number]
const call = (label: string, more: Partial<Call>): Call => ({
  ...{ label, state: 'ahead', isLate: false, isEarly: false, outside: [] },
  ...more,
})
const lines = () => screen.getAllByRole('listitem').map((line) => line.textContent?.trim())

beforeEach(() => void vi.useFakeTimers({ now: 100_000, toFake: ['Date'] }))
afterEach(() => {
  vi.useRealTimers()
  cleanup()
})

describe('the calls of a start on the screen', () => {
  it('have what is overdue, too early, out of limits, and the values as they are named', () => {
    const watch: ViewWatch = {
      status: 'running',
      beganAt: 60_000,
      actions: [],
      calls: [
        call('rotation', { state: 'called', calledAt: 60_400, isEarly: true }),
        call('fuel on', { state: 'called', calledAt: 75_000, value: 'speed 24', outside: ['14'] }),
        call('light up', { state: 'next', dueAt: 99_999 }),
        call('oil pressure', { state: 'next', dueAt: 105_000 }),
        call('stable', {}),
      ],
    }
    render(<WatchPanel watch={watch} />)
    expect(lines()).toEqual([
      'rotationcalled at 0:00, sooner than it can be seen',
      'fuel onspeed 24, called at 0:15, out of limits: 14',
      'light upoverdue',
      'oil pressurenext, within 5 s',
      'stableahead',
    ])
  })
})

describe('the clock of a start', () => {
  it('stands in one block with the challenge, which stays in sight beside a paper', async () => {
    const { state } = beforeEngine().happen(began(3_000))
    const store = createAppStore({ pack: STARTING, run: { ...state, startedAt: 40_000 }, screen: 'run' })
    store.setState({ settings: { ...store.getState().settings, welcomed: true } })
    render(<App store={store} actions={{} as Actions} />)
    const clock = await screen.findByRole('timer')
    expect(clock.textContent).toBe('0:57')
    expect(clock.closest('.now')).toBe(screen.getByRole('heading', { level: 1 }).closest('.now'))
    expect(screen.getAllByRole('timer')).toHaveLength(1)
  })
})

const OUTSIDE = [
  { value: 14, afterMs: 20_000 },
  { value: 18, afterMs: 22_000 },
]

describe('the calls of a start in the debrief', () => {
  it('have each deviation in words', () => {
    const calls: readonly DebriefCall[] = [
      { label: 'rotation', afterMs: 2_500, earlyAfterMs: 400, outside: [], late: false, unheard: false },
      { label: 'fuel on', afterMs: 27_000, value: 24, outside: OUTSIDE, late: true, unheard: true },
      { label: 'peak temperature', afterMs: 40_000, value: 685, outside: [], late: false, unheard: false },
      { label: 'stable', outside: [], late: false, unheard: false },
    ]
    render(
      <WatchSection watch={{ id: 'right', name: 'right engine start', attempt: 1, t: 0, status: 'running', calls }} />,
    )
    expect(lines()).toEqual([
      'rotationafter 2.5 scalled after 0.4 s, sooner than it can be seen',
      'fuel onafter 27.0 s, 24out of limits: 14 after 20.0 s, 18 after 22.0 s; late; no call at its limit',
      'peak temperatureafter 40.0 s, 685',
      'stablenot heard',
    ])
  })
})
