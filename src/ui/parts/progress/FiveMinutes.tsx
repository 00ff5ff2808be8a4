/** What is due today, the drill of it, and how the last one went. */

import { hasRunOn } from '../../../app/selectors.ts'
import { counted } from '../../../app/training/charts.ts'
import { type Card, type CardKind, countOf, type DrillTold, type NextDue } from '../../../app/training/training.ts'
import { useActions, useApp } from '../../useApp.ts'
import { EndRun } from '../shell/EndRun.tsx'
import { DrillOver } from './DrillOver.tsx'

const NAMES: Readonly<Record<CardKind, string>> = {
  item: 'item',
  readBack: 'read-back',
  flow: 'flow',
  reading: 'card reading',
}

export function FiveMinutes() {
  const training = useApp((state) => state.training)
  const drilled = useApp((state) => state.drilled)
  const isRunOn = useApp(hasRunOn)
  const isDrill = useApp(({ run }) => run?.status === 'running' && run.drill === true && !run.dial)
  const isUnfinished = useApp((state) => state.unfinished !== undefined)
  const actions = useActions()
  const readOn = () => {
    actions.show('progress')
    return actions.readProgress()
  }
  return (
    <section class="card stack" aria-labelledby="five-minutes">
      <h2 id="five-minutes">Five minutes today</h2>
      {drilled && <DrillOver told={toldOf(drilled)} runId={drilled.runId} />}
      {training?.refused && <p role="alert">{training.refused}</p>}
      {training && <p>{isDrill ? 'The drill is on.' : dueWords(training.due, training.forDrill)}</p>}
      {training?.next && <p class="soft">{nextWords(training.next)}</p>}
      {isDrill && (
        <div class="row">
          <button type="button" class="first" onClick={() => actions.show('run')}>
            Back to the drill
          </button>
          <button type="button" onClick={() => void actions.endDrill()}>
            End the drill
          </button>
        </div>
      )}
      {!isDrill && (isRunOn || isUnfinished) && (
        <>
          <p class="soft">A run is under way: end it before you begin a drill.</p>
          <div class="row">
            <EndRun onEnded={readOn} />
          </div>
        </>
      )}
      {!isDrill && !isRunOn && !isUnfinished && (training?.forDrill.length ?? 0) > 0 && (
        <div>
          <button type="button" class="first" onClick={() => void actions.beginDrill()}>
            Begin the drill
          </button>
        </div>
      )}
    </section>
  )
}

function listedKinds(cards: readonly Card[]): string {
  const kinds = (Object.keys(NAMES) as CardKind[]).flatMap((kind) => {
    const count = countOf(cards, kind)
    return count === 0 ? [] : [counted(count, NAMES[kind])]
  })
  return kinds.length < 2 ? kinds.join('') : `${kinds.slice(0, -1).join(', ')} and ${kinds.at(-1)}`
}

function dueWords(due: readonly Card[], forDrill: readonly Card[]): string {
  if (due.length === 0) {
    return 'Nothing is due. What you have answered comes up again when you are about to forget it; fly a run to add to it.'
  }
  const rest =
    forDrill.length < due.length ? ` Five minutes hold ${forDrill.length} of them, the least sure first.` : ''
  return `Due: ${listedKinds(due)}.${rest} The figures are of a departure you have not seen; its papers are on the table.`
}

function nextWords({ at, count }: NextDue): string {
  const due = new Date(at)
  const isToday = due.toDateString() === new Date().toDateString()
  const when = isToday
    ? `today at ${due.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' })}`
    : `on ${due.toLocaleDateString('en-GB', { weekday: 'long', day: 'numeric', month: 'long' })}`
  return `Comes up next ${when}: ${count}.`
}

function toldOf({ asked, right, missed, why }: DrillTold): string {
  const end = { done: 'That was all of it', timeUp: 'Five minutes are up', ended: 'You ended the drill' }[why]
  if (asked === 0) return `${end}. Nothing was answered.`
  const again = missed.length === 0 ? 'Nothing to repeat tomorrow.' : `Once more tomorrow: ${missed.join(', ')}.`
  return `${end}: ${right} of ${asked} right the first time. ${again}`
}
