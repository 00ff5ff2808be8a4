/** The computed values: those that are read back first, then the workings. Each can say why. */

import type { ComputedView } from '../../../app/figures/computedView.ts'
import type { DraftView } from '../../../app/figures/draftView.ts'
import type { Pack } from '../../../kernel/pack/checklist.ts'
import { listed } from '../../../kernel/run/core/phrases.ts'
import { Mark } from '../shell/Mark.tsx'
import { FigureWhy } from './FigureWhy.tsx'
import { HiddenValues } from './HiddenValues.tsx'

export function ComputedValues({ pack, view }: { readonly pack: Pack; readonly view: DraftView }) {
  const read = view.computed.filter((figure) => figure.read)
  const workings = view.computed.filter((figure) => !figure.read)
  const told = workings.filter(({ hidden }) => !hidden)
  const entered = enteredAndHidden(pack, view)
  const untilAccepted = untilAcceptedWords(view)
  return (
    <section class="stack" aria-labelledby="computed">
      <h2 id="computed">Computed values</h2>
      <Values figures={read.filter(({ hidden }) => hidden !== 'own')} pack={pack} label="Values that are read back" />
      {untilAccepted ? (
        <p class="soft">{untilAccepted}</p>
      ) : (
        <HiddenValues kind="own" figures={[...read.filter(({ hidden }) => hidden === 'own'), ...entered]} />
      )}
      {told.length > 0 && (
        <details>
          <summary>Workings ({told.length})</summary>
          <Values figures={told} pack={pack} label="Workings" />
        </details>
      )}
      {!untilAccepted && <HiddenValues kind="near" figures={workings.filter(({ hidden }) => hidden)} />}
    </section>
  )
}

/** What is hidden before there is a run, in which it could be asked for. */
function untilAcceptedWords({ isDrawn, yours }: DraftView): string | undefined {
  if (isDrawn) return 'Hidden, as in the run: yours to work out. Accept the figures, then read each back.'
  return yours.length > 0
    ? `Hidden: ${listed(yours)}. Work it out from the papers; you are asked for yours.`
    : undefined
}

/** Entered figures that are hidden can be asked for like computed ones. */
function enteredAndHidden(pack: Pack, view: DraftView): ComputedView[] {
  return Object.values(pack.figures.declarations).flatMap(({ name, label, input }): ComputedView[] => {
    if (!input || view.hidden.get(name) !== 'own') return []
    const blank = { unit: '', shown: undefined, changed: false, preliminary: false, read: true }
    return [{ ...blank, name, label, hidden: 'own', why: [] }]
  })
}

interface ValuesProps {
  readonly figures: readonly ComputedView[]
  readonly pack: Pack
  readonly label: string
}

function Values({ figures, pack, label }: ValuesProps) {
  if (figures.length === 0) return null
  // Said once for all of them where that is how it is.
  const isMixed = figures.some(({ preliminary }) => !preliminary)
  return (
    <>
      {!isMixed && <p class="soft">All of them rest on preliminary figures.</p>}
      <ul class="values" aria-label={label}>
        {figures.map((figure) => (
          <li key={figure.name}>
            {figure.why.length > 0 ? (
              <details>
                <summary class="head-line">
                  <Row figure={figure} isMixed={isMixed} />
                </summary>
                <FigureWhy pack={pack} why={figure.why} />
              </details>
            ) : (
              <div class="head-line">
                <Row figure={figure} isMixed={isMixed} />
              </div>
            )}
          </li>
        ))}
      </ul>
    </>
  )
}

function Row({ figure, isMixed }: { readonly figure: ComputedView; readonly isMixed: boolean }) {
  const { label, preliminary, why } = figure
  return (
    <>
      <span>
        <span class="cap">{label}</span>
        {why.length > 0 && <span class="why-word small">why</span>}
        {isMixed && preliminary && <span class="soft small"> preliminary</span>}
      </span>
      <ShownValue figure={figure} />
    </>
  )
}

function ShownValue({ figure }: { readonly figure: ComputedView }) {
  return (
    <span class={figure.shown === undefined ? 'soft' : 'shown'}>
      {figure.changed && (
        <>
          <Mark name="arrow" /> <span class="small soft">changes to </span>
        </>
      )}
      {figure.shown ?? 'not known yet'}
    </span>
  )
}
