/** The whole app on a stage: real screens, actions and kernel with the demo pack; ear, voice, log, clock and lock are fakes. */

import { readFile } from 'node:fs/promises'
import { cleanup, configure, render, screen, waitFor } from '@testing-library/preact'
import userEvent from '@testing-library/user-event'
import { afterEach, expect } from 'vitest'
import { lazyActions } from '../../src/app/actions/lazyActions.ts'
import { type ActionParts, makeActions } from '../../src/app/actions/makeActions.ts'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { type AppState, createAppStore } from '../../src/app/store.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import { readInputs } from '../../src/packs/inputs.ts'
import { App } from '../../src/ui/App.tsx'
import { loadAllScreens } from '../../src/ui/screens.tsx'
import { fakeActionParts } from '../fakes/actionParts.ts'
import { createFakeEar } from '../fakes/ear.ts'
import { createFakeLog } from '../fakes/log.ts'
import { createFakeVoice } from '../fakes/voice.ts'

afterEach(cleanup)
// A loaded machine is slow: waiting ends when what is awaited is there, never because time is short.
// Looking up computed styles for every role is most of the time, and these screens hide nothing by style.
configure({ asyncUtilTimeout: 30_000, defaultHidden: true })

// Screens are there when a test asks for them.
await loadAllScreens()

const { pack, problems } = await readPackDir('checklists/marram')
if (!pack) throw new Error(JSON.stringify(problems))
export const demo = pack

export const SHEETS = {
  preliminary: await readFile('checklists/marram/inputs/preliminary.yaml', 'utf8'),
  final: await readFile('checklists/marram/inputs/final.yaml', 'utf8'),
}

const FAULTY = await readFile('checklists/marram/demonstrations/faulty.yaml', 'utf8')

function inputsOf(text: string) {
  const read = readInputs(text, 'sheet.yaml', demo)
  if (!read.inputs) throw new Error(JSON.stringify(read.problems))
  return read.inputs
}

export const INPUTS = { preliminary: inputsOf(SHEETS.preliminary), final: inputsOf(SHEETS.final) }

/**
 * `initial` is laid over a store of somebody who has been here before and has chosen the demo pack, without voices
 * outside the crew. The code of the actions has loaded with `coded`, where there is one.
 */
export function stage(initial: Partial<AppState> = {}, own: Partial<ActionParts> = {}, coded?: Promise<void>) {
  const clock = createVirtualClock()
  const ear = createFakeEar(clock.now)
  const voice = createFakeVoice()
  const log = createFakeLog()
  const { id, name, aircraft } = demo
  const summary = { id, name, aircraft }
  const store = createAppStore({
    pack,
    packs: [summary],
    settings: { ...DEFAULT_SETTINGS, welcomed: true, stations: false, ownValues: false },
    ...initial,
  })
  const parts: ActionParts = fakeActionParts({
    ...{ store, clock, log, ear, voice },
    packFiles: {
      list: async () => [summary],
      load: async () => ({ texts: demo.texts, sha256: demo.sha256 }),
      demonstrations: async () => ({ faulty: FAULTY }),
      examples: async () => SHEETS,
    },
    ...own,
  })
  const actions = makeActions(parts)
  const user = userEvent.setup()
  render(<App store={store} actions={coded ? lazyActions(coded.then(() => actions)) : actions} />)
  return { pack: demo, store, actions, user, clock, ear, voice, log }
}

/** With the preliminary figures, or these, entered and the run on the screen. */
export async function flying(initial: Partial<AppState> = {}, inputs = INPUTS.preliminary) {
  const on = stage(initial)
  on.actions.draft(inputs)
  await on.actions.enterRevision()
  await screen.findByRole('heading', { level: 1, name: 'Figures flow' })
  const answer = async (text: string) => {
    const before = on.log.events.length
    await on.user.type(screen.getByRole('textbox', { name: 'Answer or phrase, typed' }), `${text}{Enter}`)
    await waitFor(() => expect(on.log.events.length).toBeGreaterThan(before))
  }
  return { ...on, answer }
}

/** At the trim item, the zero fuel weight being answered. */
export async function atTrim(initial: Partial<AppState> = {}) {
  const flight = await flying(initial)
  await flight.answer('load figures list')
  await screen.findByRole('heading', { level: 1, name: 'zero fuel weight' })
  await flight.answer('two four three six zero')
  await screen.findByRole('heading', { level: 1, name: 'takeoff trim' })
  return flight
}

/** All that stands on the page, fields included. */
export function allText(): string {
  const fields = [...document.querySelectorAll<HTMLInputElement>('input, textarea, select')].map(({ value }) => value)
  return [document.body.textContent, ...fields].join('\n')
}
