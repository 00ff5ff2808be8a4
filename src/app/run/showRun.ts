/** Keeps the store in step with a run and with the ear: what they report is what the screens show. */

import type { Inputs } from '../../kernel/figures/model.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { Ear } from '../../ports.ts'
import { previewOf } from '../figures/preview.ts'
import { draftAfter, laidUnder } from '../figures/undo.ts'
import type { AppState, Store } from '../store.ts'
import { answerAfter, lastAnswerIn } from './lastAnswer.ts'
import type { RunSession, SessionEvent } from './session.ts'

/** From now on, until it is undone. */
export function showRun(store: Store, session: RunSession): () => void {
  const answered = lastAnswerIn(session.pack, session.events())
  store.setState({ run: session.state(), revisions: session.revisions(), answered })
  return session.subscribe((event) => store.setState((state) => shownAfter(session, state, event)))
}

function shownAfter(session: RunSession, state: AppState, event: SessionEvent): Partial<AppState> {
  switch (event.type) {
    case 'happened':
      return {
        run: event.state,
        answered: answerAfter(session.pack, state.answered, event),
        revisions: event.revisions,
        ear: { ...state.ear, soFar: '' },
        ...draftAfterEvent(session, state, event),
      }
    case 'speaking': {
      const { text, role, failed, onRadio } = event
      return { voice: { speaking: text, role, failed, ...(onRadio && { onRadio }) } }
    }
    case 'storage':
      return { storage: event.storage }
  }
}

type Happened = Extract<SessionEvent, { type: 'happened' }>
type Draft = Pick<AppState, 'draft' | 'past' | 'preview'>

/** What comes in by voice, by a station or in its time joins what somebody is typing. */
function draftAfterEvent(
  { pack }: RunSession,
  state: AppState,
  { event, entering, state: run }: Happened,
): Partial<Draft> {
  if (event.type === 'situationSet') return situated(state, event)
  if (event.type === 'sheetCame') return { preview: previewOf(pack, state.draft, { ...state, run }) }
  if (event.type !== 'figuresRevised' || !entering) return {}
  const { draft, past } = draftAfter(state, event.inputs, entering)
  return { draft, past, preview: previewOf(pack, draft, { ...state, run }) }
}

/** By voice, key or click: the figures being typed must not set it back. */
function situated({ draft, past }: AppState, { name, value }: RunEvent<'situationSet'>) {
  const lay = (inputs: Inputs) => ({ ...inputs, situation: { ...inputs.situation, [name]: value } })
  return { draft: lay(draft), past: laidUnder(past, lay) }
}

/** The ear's own state, in a run as in a sound check. */
export function showEar(store: Store, ear: Ear): () => void {
  const show = (change: Partial<AppState['ear']>) => store.setState(({ ear }) => ({ ear: { ...ear, ...change } }))
  return ear.subscribe((event) => {
    switch (event.type) {
      case 'state':
        return show({ state: event.state, ...(event.state !== 'failed' && { failure: undefined }) })
      case 'loading':
        return show({ loading: event.fraction })
      case 'secondModel':
        return show({ secondModel: event.state })
      case 'level':
        return show({ level: event.level, noise: event.noise, clipping: event.clipping })
      case 'speechBegan':
        return show({ soFar: '' })
      case 'soFar':
        return show({ soFar: event.text })
      case 'failed': {
        const { failure } = event
        return show({ failure, ...(failure.code === 'service' && { note: failure.message }) })
      }
      case 'sound':
      case 'heard':
      case 'back':
        return undefined
    }
  })
}
