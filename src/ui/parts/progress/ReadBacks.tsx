/** Read-backs alone, at the pilot's edge: how they are put, how the last block went, and the edge day by day. */

import { useMemo, useState } from 'preact/hooks'
import { hasRunOn } from '../../../app/selectors.ts'
import { edgesByDay } from '../../../app/training/dialDays.ts'
import type { DialTold } from '../../../app/training/training.ts'
import type { Dial } from '../../../kernel/run/core/events.ts'
import { BLOCK, type Edge, edgeOf, LONGEST, SHORTEST, trialsAt } from '../../../kernel/training/edge.ts'
import { useActions, useApp } from '../../useApp.ts'
import { Choices } from '../settings/Choices.tsx'
import { DrillOver } from './DrillOver.tsx'

const PACES = [
  { value: '80', label: '80', about: 'slow and clear' },
  // Not more than this: ICAO Annex 10, volume II, 5.2.1.5.3 (from memory).
  { value: '100', label: '100', about: 'the most that the standard wants' },
  { value: '120', label: '120', about: 'a busy frequency' },
  { value: '140', label: '140', about: 'rushed' },
] as const
const NOISES = [
  { value: 'none', label: 'None' },
  { value: 'light', label: 'Light' },
  { value: 'heavy', label: 'Heavy' },
] as const
const BESIDES = [
  { name: 'likeCallSigns', label: 'Others with a call sign like yours', about: 'answer only what is for you' },
  { name: 'steppedOn', label: 'Transmissions stepped on', about: 'ask for what nobody could hear: "say again runway"' },
  { name: 'standBy', label: '"Stand by" first' },
  { name: 'handOvers', label: 'Hand-overs', about: 'call the next station' },
  { name: 'amendments', label: 'Amended clearances' },
] as const satisfies readonly { name: keyof Dial; label: string; about?: string }[]
const AT_EDGE = 'edge'

export function ReadBacks() {
  const training = useApp((state) => state.training)
  const dialled = useApp((state) => state.dialled)
  const dial = useApp((state) => state.settings.dial)
  const isOn = useApp(({ run }) => run?.status === 'running' && run.dial !== undefined)
  const isBusy = useApp((state) => hasRunOn(state) || state.unfinished !== undefined)
  const [length, setLength] = useState<string>(AT_EDGE)
  const actions = useActions()
  const set = (change: Partial<Dial>) => actions.settings({ dial: { ...dial, ...change } })
  const edge = useMemo(() => edgeOf(trialsAt(training?.dials ?? [], dial)), [training, dial])
  return (
    <section class="card stack" aria-labelledby="read-backs-alone">
      <h2 id="read-backs-alone">Read-backs at your edge</h2>
      {dialled && <DrillOver told={toldOf(dialled)} runId={dialled.runId} />}
      <p>
        {BLOCK} made-up transmissions, to be read back at once; their elements are not named before you have tried.
        Their length goes by your edge: the number of elements of which you read back half right the first time.
      </p>
      <p>{edgeWords(edge)}</p>
      <details>
        <summary>Pace, noise and traffic</summary>
        <div class="stack">
          <Choices
            legend="Words a minute"
            options={PACES}
            value={String(dial.wordsAMinute) as (typeof PACES)[number]['value']}
            choose={(value) => set({ wordsAMinute: Number(value) })}
          />
          <Choices legend="Noise" options={NOISES} value={dial.noise} choose={(noise) => set({ noise })} />
          <fieldset class="section stack">
            <legend class="cap">On the frequency</legend>
            <div>
              {BESIDES.map(({ name, label, ...rest }) => (
                <label key={name} class="flag">
                  <input
                    type="checkbox"
                    checked={dial[name]}
                    onChange={(event) => set({ [name]: event.currentTarget.checked })}
                  />
                  <span>
                    {label} {'about' in rest && <span class="soft small">{rest.about}</span>}
                  </span>
                </label>
              ))}
            </div>
          </fieldset>
          <div class="field">
            <label for="dial-length">Elements</label>
            <select id="dial-length" value={length} onChange={(event) => setLength(event.currentTarget.value)}>
              <option value={AT_EDGE}>around your edge</option>
              {LENGTHS.map((one) => (
                <option key={one} value={one}>
                  {one} each
                </option>
              ))}
            </select>
          </div>
          <p class="soft">
            Each way of putting them has an edge of its own. Pace and noise are those of the app's own voice; a voice of
            the browser takes the pace alone.
          </p>
        </div>
      </details>
      <Days dial={dial} />
      {isOn && (
        <div class="row">
          <button type="button" class="first" onClick={() => actions.show('run')}>
            Back to the read-backs
          </button>
          <button type="button" onClick={() => void actions.endDrill()}>
            End the read-backs
          </button>
        </div>
      )}
      {isOn ? null : isBusy ? (
        <p class="soft">A run is under way: end it before you begin read-backs.</p>
      ) : (
        <div>
          <button
            type="button"
            class="first"
            onClick={() => void actions.beginReadBacks(length === AT_EDGE ? undefined : Number(length))}
          >
            Begin six read-backs
          </button>
        </div>
      )}
    </section>
  )
}

const LENGTHS = Array.from({ length: LONGEST - SHORTEST + 1 }, (_, at) => SHORTEST + at)

const one = (elements: number) => elements.toFixed(1)
const between = ({ low, high }: Edge) => `probably between ${one(low)} and ${one(high)}`

function edgeWords(edge: Edge): string {
  if (edge.n === 0)
    return 'With this pace, noise and traffic you have read back nothing yet; the first block has four to six elements.'
  if (edge.n < BLOCK)
    return `Read back so far, with this pace, noise and traffic: ${edge.n}. Too few to tell your edge.`
  return `Your edge with this pace, noise and traffic: ${one(edge.value)} elements, ${between(edge)}, from ${edge.n} read-backs.`
}

function toldOf({ asked, right, why }: DialTold): string {
  const end = { done: 'That was the block', timeUp: 'Five minutes are up', ended: 'You ended the block' }[why]
  if (asked === 0) return `${end}. Nothing was read back.`
  return `${end}: ${right} of ${asked} right the first time.`
}

function Days({ dial }: { readonly dial: Dial }) {
  const training = useApp((state) => state.training)
  const days = useMemo(() => edgesByDay(training?.dials ?? [], dial), [training, dial])
  if (days.length === 0) return null
  return (
    <table>
      <caption>Your edge by day</caption>
      <thead>
        <tr>
          <th scope="col">Day</th>
          <th scope="col">Read-backs</th>
          <th scope="col">Edge, elements (95 % interval)</th>
        </tr>
      </thead>
      <tbody>
        {days.map(({ day, edge }) => (
          <tr key={day}>
            <th scope="row">{day}</th>
            <td>{edge.n}</td>
            <td>
              {one(edge.value)} ({one(edge.low)} to {one(edge.high)})
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
