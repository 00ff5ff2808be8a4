/** An exchange: who speaks, what must be read back and how far that is, and where the order is the pilot's all turns. */

import { type ElementShown, ROLE_WORDS, type ViewExchange, type ViewTurn } from '../../../app/view/exchangeView.ts'
import { useActions } from '../../useApp.ts'
import { Mark, type MarkName } from '../shell/Mark.tsx'

const ELEMENTS: Readonly<Record<ElementShown, { readonly text: string; readonly mark: MarkName }>> = {
  relayed: { text: '', mark: 'ring' },
  ahead: { text: 'to be read back', mark: 'ring' },
  right: { text: 'right', mark: 'full' },
  wrong: { text: 'wrong', mark: 'unequal' },
  missing: { text: 'missing', mark: 'half' },
  again: { text: 'say it again', mark: 'half' },
  short: { text: 'digits missing', mark: 'half' },
}
const TURNS: Readonly<Record<ViewTurn['state'], MarkName>> = {
  done: 'full',
  now: 'waves',
  call: 'arrow',
  waits: 'ring',
}

export function ExchangePanel({ exchange }: { readonly exchange: ViewExchange }) {
  const { station, role, isRelayed, pending, turns, refusal } = exchange
  return (
    <section class="stack" aria-label="Exchange">
      <p class="station">
        <Mark name="waves" /> <strong>{station}</strong>
        {role !== 'otherseat' && <span class="soft">{ROLE_WORDS[role]}</span>}
      </p>
      {isRelayed && <p class="soft">Your colleague reads back. You may object at any time.</p>}
      {refusal && (
        <p class="notice" role="status">
          <strong>Not yet</strong> {refusal}
        </p>
      )}
      {turns.length > 0 && <Turns turns={turns} />}
      {pending && <Pending pending={pending} />}
    </section>
  )
}

function Turns({ turns }: { readonly turns: readonly ViewTurn[] }) {
  return (
    <ol class="values" aria-label="What is to be exchanged">
      {turns.map(({ id, label, state, note }) => (
        <li key={id} class="head-line" aria-current={state === 'now' ? 'step' : undefined}>
          <span>
            <Mark name={TURNS[state]} /> <span class="cap">{label}</span>
          </span>
          <span class="soft">{state === 'waits' ? `waits: ${note}` : note}</span>
        </li>
      ))}
    </ol>
  )
}

function Pending({ pending }: { readonly pending: NonNullable<ViewExchange['pending']> }) {
  const actions = useActions()
  const { turn, elements, words, correction } = pending
  return (
    <>
      {elements.length > 0 && (
        <ul class="elements" aria-label="To be read back">
          {elements.map(({ label, state }) => (
            <li key={label}>
              <Mark name={ELEMENTS[state].mark} /> <span class="cap">{label}</span>{' '}
              <span class="soft">{ELEMENTS[state].text}</span>
            </li>
          ))}
        </ul>
      )}
      {correction !== undefined && (
        <blockquote class="station-words" aria-label="Corrected">
          {correction}
        </blockquote>
      )}
      {words === undefined ? (
        <div>
          <button type="button" onClick={() => actions.press({ type: 'showWords', turn })}>
            Show the words <small>marks the exchange</small>
          </button>
        </div>
      ) : (
        <blockquote class="station-words">{words}</blockquote>
      )}
    </>
  )
}
