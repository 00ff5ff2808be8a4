/** The item at the cursor: what is right, what it refuses, and an answer to be tried. */

import { useState } from 'preact/hooks'
import {
  type BesideCase,
  casesBeside,
  type Example,
  type Tried,
  type TypedValues,
  tryAnswer,
} from '../../../../app/view/packBeside.ts'
import type { Item, Pack } from '../../../../kernel/pack/checklist.ts'
import { Verdict } from '../../run/Verdict.tsx'

interface ItemBesideProps {
  readonly pack: Pack
  readonly item: Item
  readonly example: Example
}

export function ItemBeside({ pack, item, example }: ItemBesideProps) {
  const [typed, setTyped] = useState<TypedValues>({})
  const [chosen, choose] = useState(0)
  const cases = casesBeside(pack, item, example, typed)
  const place = Math.min(chosen, cases.length - 1)
  const shown = cases[place]
  if (!shown) return null
  return (
    <section class="stack" aria-labelledby="beside-item">
      <h2 id="beside-item" class="cap">
        {item.challenge}
      </h2>
      {cases.length > 1 && (
        <div class="field">
          <label for="beside-case">Answered</label>
          <select id="beside-case" value={place} onChange={(event) => choose(Number(event.currentTarget.value))}>
            {cases.map(({ when }, index) => (
              <option key={when} value={index}>
                {when === '' ? 'in any other situation' : `with ${when}`}
              </option>
            ))}
          </select>
        </div>
      )}
      <Values example={example} shown={shown} typed={typed} onTyped={setTyped} />
      <TryIt attempt={(said) => tryAnswer(pack, item, place, example, typed, said)} />
      {shown.right.length > 0 && (
        <div>
          <h3 id="beside-right">Right, among others</h3>
          <ul aria-labelledby="beside-right">
            {shown.right.map((said) => (
              <li key={said}>“{said}”</li>
            ))}
          </ul>
        </div>
      )}
      {shown.refused.length > 0 && (
        <div>
          <h3 id="beside-refused">Not taken</h3>
          <ul aria-labelledby="beside-refused">
            {shown.refused.map(({ said, why }) => (
              <li key={said}>
                “{said}” <span class="soft small">{why}</span>
              </li>
            ))}
          </ul>
        </div>
      )}
    </section>
  )
}

interface ValuesProps {
  readonly example: Example
  readonly shown: BesideCase
  readonly typed: TypedValues
  readonly onTyped: (typed: TypedValues) => void
}

/** Values of the example sheet; where it gives none, a field for one to try with. */
function Values({ example, shown, typed, onTyped }: ValuesProps) {
  const known = shown.figures.filter(({ isTyped }) => !isTyped)
  const asked = shown.figures.filter(({ isTyped }) => isTyped)
  return (
    <>
      {known.length > 0 && (
        <p class="small soft">
          With {known.map(({ label, value }) => `${label} ${value}`).join(', ')}
          {example.sheet && `, by ${example.sheet}`}.
        </p>
      )}
      {asked.map(({ name, label }) => (
        <div class="field" key={name}>
          <label for={`beside-${name}`}>A value of {label} to try with</label>
          <input
            id={`beside-${name}`}
            autocomplete="off"
            value={typed[name] ?? ''}
            onInput={(event) => onTyped({ ...typed, [name]: event.currentTarget.value })}
          />
        </div>
      ))}
    </>
  )
}

function TryIt({ attempt }: { readonly attempt: (said: string) => Tried | undefined }) {
  const [text, setText] = useState('')
  const said = text.trim()
  const tried = said === '' ? undefined : attempt(said)
  return (
    <div class="stack">
      <div class="field">
        <label for="beside-try">Try an answer</label>
        <input
          id="beside-try"
          autocomplete="off"
          value={text}
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </div>
      <div role="status" class="stack">
        {tried && (
          <>
            <Verdict judgement={tried.judgement} />
            {tried.parts.length > 0 && (
              <ul class="small" aria-label="As it was read">
                {tried.parts.map(({ name, heard, read }) => (
                  <li key={`${name} ${heard}`}>
                    {name}: “{heard}”{read && read !== heard && `, read as ${read}`}
                  </li>
                ))}
              </ul>
            )}
            <p class="small">{tried.why}</p>
          </>
        )}
        {said !== '' && !tried && <p class="small">Give the item a value first: without one nothing is right.</p>}
      </div>
    </div>
  )
}
