/** What the ear has, word by word: words so far while the pilot speaks, then the answer with its verdict and parts. */

import type { ViewExchange } from '../../../app/view/exchangeView.ts'
import { isOnlyNamed, judgementShown, partsShown, type ShownPart } from '../../../app/view/partsShown.ts'
import type { Pack } from '../../../kernel/pack/checklist.ts'
import type { RunState } from '../../../kernel/run/core/state.ts'
import { useApp } from '../../useApp.ts'
import { markedWords } from './markedWords.ts'
import { Verdict } from './Verdict.tsx'

/** A transmission of more words than these is shown smaller, so that what comes below stays in view. */
const MANY = 7

interface HeardProps {
  readonly pack: Pack
  readonly run: RunState
  readonly exchange: ViewExchange | undefined
}

export function Heard({ pack, run, exchange }: HeardProps) {
  const soFar = useApp((state) => state.ear.soFar)
  const { last, notUnderstood } = run
  const parts = partsShown(pack, run)
  // The parts of a read-back stand above it already.
  const hasParts = last?.of === 'readBack' && exchange?.pending !== undefined
  const words = last ? markedWords(last.text, parts) : []
  return (
    <section class="heard" aria-label="What was heard">
      {soFar && (
        <p class="words far">
          <span class="hidden-label">Words so far:</span>
          {soFar.split(/\s+/).map((word, place) => (
            <span key={`${place} ${word}`}>{word}</span>
          ))}
        </p>
      )}
      {!soFar && !last && notUnderstood === undefined && <p class="soft">What you say appears here, word by word.</p>}
      <div role="status" class="stack">
        {!soFar && notUnderstood !== undefined && (
          <p class="unmade">
            <strong>Not understood:</strong> “{notUnderstood}”
          </p>
        )}
        {!soFar && last && notUnderstood === undefined && (
          <>
            <p class="soft cap">
              {last.challenge}: {last.by === 'typed' ? 'typed' : last.by === 'key' ? 'by key' : 'heard'}
            </p>
            <p class={words.length > MANY ? 'words many' : 'words'}>
              {words.map(({ word, state }, place) => (
                <span key={`${place} ${word}`} class={state}>
                  {word}
                </span>
              ))}
            </p>
            <div class="row">
              {last.isRefused ? (
                <p>Right, but not yet.</p>
              ) : (
                <Verdict judgement={judgementShown(run, last)} isOnlyNamed={isOnlyNamed(pack, last)} />
              )}
              {!hasParts && <PartList parts={parts} />}
            </div>
          </>
        )}
      </div>
    </section>
  )
}

const LACKS = { direction: 'direction missing', digits: 'digits missing', decimals: 'decimals missing' } as const
const STATES = { ok: 'right', wrong: 'wrong', missing: 'missing', again: 'say it again' } as const

function PartList({ parts: all }: { readonly parts: readonly ShownPart[] }) {
  const parts = worstOfEach(all.filter(({ label }) => label !== ''))
  if (parts.length === 0) return null
  return (
    <ul class="partlist" aria-label="Parts of the answer">
      {parts.map(({ label, state, lacks }, place) => (
        <li key={`${place} ${label}`}>
          <span class="soft cap">{label}</span> <strong>{lacks ? LACKS[lacks] : STATES[state]}</strong>
        </li>
      ))}
    </ul>
  )
}

const ORDER = ['wrong', 'missing', 'again', 'ok'] as const

/** Several parts may be one element of a transmission: it is as right as the worst of them. */
function worstOfEach(parts: readonly ShownPart[]): ShownPart[] {
  return parts.filter((part, place) => {
    const same = parts.filter(({ label }) => label === part.label)
    const worst = ORDER.find((state) => same.some((other) => other.state === state))
    return parts.findIndex(({ label, state }) => label === part.label && state === worst) === place
  })
}
