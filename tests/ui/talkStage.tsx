/** The run screen with an invented departure's talk: real kernel and hearing, presses and typing go straight to the run. */

import { render, screen } from '@testing-library/preact'
import userEvent from '@testing-library/user-event'
import type { Actions } from '../../src/app/actions/actions.ts'
import { createAppStore } from '../../src/app/store.ts'
import { keyPress } from '../../src/kernel/interpret/keyPress.ts'
import type { Script } from '../../src/kernel/run/core/events.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { App } from '../../src/ui/App.tsx'
import { type Begins, SAID, TALK, talkRun } from '../kernel/run/talkFixture.ts'
import './stage.tsx'

/** Flown to the ground crew, or by the first of them to what comes before. */
export const GROUND = [
  'request clearance',
  'cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one',
  'departing runway two seven left',
  'level five thousand',
  'rejected takeoff',
  'briefing complete',
  'before push',
  'four two seven one',
]

/** Flown to a place by what the pilot says. */
export function talking(texts: readonly string[], script: Script = SAID, begins: Begins = {}) {
  const run = talkRun(script, TALK, begins)
  for (const text of texts) run.hear(text)
  const store = createAppStore({ pack: TALK, run: run.state, screen: 'run' })
  store.setState({ settings: { ...store.getState().settings, welcomed: true } })
  const show = () => store.setState({ run: run.state })
  const actions = {
    show: (name) => store.setState({ screen: name }),
    press(what) {
      run.happen(keyPress(TALK, run.state, what, 0))
      show()
    },
    typing() {},
    type(text) {
      run.hear(text)
      show()
    },
    endReplay() {},
    marksOf: () => [],
    gradesOf: () => [],
    async showDebrief() {
      store.setState({ debrief: debriefOf(TALK, run.events), screen: 'debrief' })
    },
  } as Partial<Actions> as Actions
  const user = userEvent.setup()
  render(<App store={store} actions={actions} />)
  const answer = (text: string) =>
    user.type(screen.getByRole('textbox', { name: 'Answer or phrase, typed' }), `${text}{Enter}`)
  return { run, store, user, answer }
}
