/**
 * The run as a room sees it, on a projector or a tablet: the challenge, the answer word by word and what each word was taken
 * for; and while it is frozen, the value in force with its reasons and what answers close to it would have drawn.
 */

import type { ComponentChildren } from 'preact'
import { useEffect, useMemo, useRef } from 'preact/hooks'
import { freezeKey, nameOfBinding } from '../../../app/settings.ts'
import { demonstrationView } from '../../../app/view/demonstrationView.ts'
import type { RunView } from '../../../app/view/view.ts'
import type { Pack } from '../../../kernel/pack/checklist.ts'
import { wordsIn } from '../../../kernel/response/wordsOf.ts'
import type { RunState } from '../../../kernel/run/core/state.ts'
import { useActions, useApp } from '../../useApp.ts'
import { BriefingPanel } from '../run/BriefingPanel.tsx'
import { EarStrip } from '../run/EarStrip.tsx'
import { RunButtons } from '../run/RunButtons.tsx'
import { TypedAnswer } from '../run/TypedAnswer.tsx'
import { WatchClock, WatchPanel } from '../run/WatchPanel.tsx'
import { Answer } from './Answer.tsx'
import { DemonstrationBar } from './DemonstrationBar.tsx'
import { InForce } from './InForce.tsx'
import { NearAnswers } from './NearAnswers.tsx'

interface DemonstrationProps {
  readonly pack: Pack
  readonly run: RunState
  readonly view: RunView
  /** Of a run that is played, and flown by nobody: what stands in place of the answer's field, and what the room is to look at. */
  readonly played?: { readonly dock: ComponentChildren; readonly words: string }
}

/** Longer words than these get a smaller size. */
const LONG = 18

export function Demonstration({ pack, run, view, played }: DemonstrationProps) {
  const answered = useApp((state) => state.answered)
  const revisions = useApp((state) => state.revisions)
  const shown = useMemo(
    () => (answered ? demonstrationView(pack, answered, { run, revisions }) : undefined),
    [pack, answered, run, revisions],
  )
  const { frozen } = run
  const asked = frozen?.said
  // What comes next waits for the room too: it stays with the answer that it looks at.
  const isAtAnswer = frozen !== undefined && !asked && shown !== undefined && frozen.since === answered?.event.t
  const headline = isAtAnswer ? shown.challenge : view.headline
  const heading = useRef<HTMLHeadingElement>(null)
  const isFrozen = frozen !== undefined
  const isTold = isFrozen && !asked && shown !== undefined && (shown.inForce.length > 0 || shown.near.length > 0)
  // Out of the typing field, so that the key goes on.
  useEffect(() => {
    if (isFrozen) heading.current?.focus({ preventScroll: true })
  }, [isFrozen])
  useEffect(() => {
    document.addEventListener('click', letGo)
    return () => document.removeEventListener('click', letGo)
  }, [])
  return (
    <>
      <main class="demonstration">
        <div class="demonstration-now">
          <p class="soft">
            {view.phase}
            {view.begunAt !== undefined && <small> Begun at {view.begunAt}</small>}
          </p>
          <h1 class={`cap ${headline.length > LONG ? 'long' : ''}`} tabIndex={-1} ref={heading}>
            {headline}
          </h1>
          {view.watch && <WatchClock watch={view.watch} />}
          {!isFrozen && !played && <p class="soft">{view.hint}</p>}
          <Frozen isFrozen={isFrozen} isAsked={asked !== undefined} />
        </div>
        {played && played.words !== '' && (
          <p class="look-at" role="note">
            {played.words}
          </p>
        )}
        {asked ? (
          <section class="heard-large" aria-label="What was heard">
            <p class="soft">{asked.by === 'typed' ? 'Typed' : 'Heard'}</p>
            <p class="read-words" role="status">
              {wordsIn(asked.text).map((word, at) => (
                <span key={`${at} ${word}`}>{word}</span>
              ))}
            </p>
            <p class="ask">What would you say?</p>
          </section>
        ) : (
          <WhatWasSaid run={run} shown={shown} isAtAnswer={isAtAnswer} />
        )}
        {(view.watch || view.briefing || isTold) && (
          <aside class={`stack wide ${view.watch?.status === 'stopped' ? 'orders' : ''}`}>
            {view.watch && <WatchPanel watch={view.watch} />}
            {view.briefing && <BriefingPanel briefing={view.briefing} />}
            {isTold && (
              <section class="stack" aria-label="Behind the verdict">
                <InForce pack={pack} values={shown.inForce} />
                <NearAnswers near={shown.near} />
              </section>
            )}
          </aside>
        )}
        <DemonstrationBar run={run} isPlayed={played !== undefined} />
      </main>
      {played?.dock}
      {!isFrozen && !played && (
        <div class="dock">
          <RunButtons buttons={view.buttons} />
          <TypedAnswer listenId={view.listenId} />
          <EarStrip />
        </div>
      )}
    </>
  )
}

function WhatWasSaid({
  run,
  shown,
  isAtAnswer,
}: {
  readonly run: RunState
  readonly shown: ReturnType<typeof demonstrationView> | undefined
  readonly isAtAnswer: boolean
}) {
  const soFar = useApp((state) => state.ear.soFar)
  if (soFar) {
    return (
      <section class="heard-large" aria-label="What was heard">
        <p class="soft">Hearing</p>
        <p class="read-words far">
          {wordsIn(soFar).map((word, at) => (
            <span key={`${at} ${word}`}>{word}</span>
          ))}
        </p>
      </section>
    )
  }
  if (run.notUnderstood !== undefined && !isAtAnswer) {
    return (
      <section class="heard-large" aria-label="What was heard">
        <p class="soft">Not understood</p>
        <p class="read-words">“{run.notUnderstood}”</p>
      </section>
    )
  }
  if (!shown) return <p class="soft heard-large">What is said appears here, word by word.</p>
  return <Answer shown={shown} isTold={run.frozen !== undefined} />
}

function Frozen({ isFrozen, isAsked }: { readonly isFrozen: boolean; readonly isAsked: boolean }) {
  const key = useApp((state) => nameOfBinding(freezeKey(state.settings)))
  const actions = useActions()
  const label = isAsked ? 'Show the verdict' : isFrozen ? 'Go on' : 'Freeze'
  return (
    <p class="row">
      {isFrozen && <strong class="frozen">Frozen</strong>}
      <button type="button" class={isFrozen ? 'first' : ''} onClick={() => actions.press({ type: 'freeze' })}>
        {label} <small>{key}</small>
      </button>
    </p>
  )
}

/** A button that was clicked would take the key that goes on for its own. */
function letGo(event: MouseEvent): void {
  const on = document.activeElement
  if (event.detail > 0 && on instanceof HTMLElement && on.matches('button, summary, [type="checkbox"]')) on.blur()
}
