/** What an instructor has happen in the run, at once or once it comes to a place; and what became of it. */

import { useMemo, useState } from 'preact/hooks'
import type { Actions } from '../../../app/actions/actions.ts'
import { placesAhead } from '../../../app/room/deskView.ts'
import { newEdition, paperValues } from '../../../app/room/newEdition.ts'
import type { RoomState } from '../../../app/store.ts'
import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import { type Injection, injectionWords } from '../../../kernel/run/core/injections.ts'
import { groundCrewOf } from '../../../kernel/run/core/stopping.ts'
import { runningWatch } from '../../../kernel/run/watch/watchTiming.ts'
import type { Order } from '../../../room/entries.ts'
import { useApp } from '../../useApp.ts'

interface DeskProps {
  readonly room: RoomState
  readonly actions: Actions
}

const DEAF_S = [10, 20, 40] as const

export function Desk({ room, actions }: DeskProps) {
  const pack = useApp((state) => state.pack)
  const run = useApp((state) => state.run)
  const [at, setAt] = useState('')
  const [seconds, setSeconds] = useState<number>(20)
  const places = useMemo(() => (pack && run ? placesAhead(pack, run) : []), [pack, run])
  if (!pack || !run || run.status !== 'running') return null
  const isNow = !places.some(({ id, items }) => id === at || items.some((item) => item.id === at))
  const give = (what: Injection) => actions.giveOrder(what, isNow ? undefined : at)
  const isWith = (is: boolean, words: string) => (isNow && !is ? words : '')
  const notStop = isWith(groundCrewOf(pack, run) !== undefined, 'nobody is on the line now')
  const notCabin = isWith(run.floor.at === 'item', 'only at an item')
  const notSlip = run.script ? '' : 'no stations in this run'
  return (
    <section class="stack" aria-labelledby="desk">
      <h2 id="desk">Have something happen</h2>
      <p class="soft small">The trainee sees and hears nothing of it before it acts.</p>
      <label>
        When
        <select value={isNow ? '' : at} onChange={({ currentTarget }) => setAt(currentTarget.value)}>
          <option value="">now</option>
          {places.map(({ id, name, items }) =>
            items.length === 0 ? (
              <option key={id} value={id}>
                at {name}
              </option>
            ) : (
              <optgroup key={id} label={name}>
                {items.map((item) => (
                  <option key={item.id} value={item.id}>
                    at {item.name}
                  </option>
                ))}
              </optgroup>
            ),
          )}
        </select>
      </label>
      <div class="row">
        <Happening label="“Stop” from the ground crew" not={notStop} act={() => give({ kind: 'stop' })} />
        <Happening label="The cabin calls" not={notCabin} act={() => give({ kind: 'cabin' })} />
        <Happening
          label="A wrong word of the controller"
          not={notSlip}
          act={() => give({ kind: 'slip', seed: Math.floor(Math.random() * 2 ** 31) })}
        />
      </div>
      <div class="row">
        <Happening
          label={`The ear hears nothing for ${seconds} s`}
          not=""
          act={() => give({ kind: 'deaf', seconds })}
        />
        <label class="row narrow-field">
          <span class="hidden-label">For how long</span>
          <select value={seconds} onChange={({ currentTarget }) => setSeconds(Number(currentTarget.value))}>
            {DEAF_S.map((one) => (
              <option key={one} value={one}>
                {one} s
              </option>
            ))}
          </select>
        </label>
      </div>
      <div class="row">
        <Happening
          label="A fault of the other seat"
          not=""
          act={() => give({ kind: 'partner', seed: Math.floor(Math.random() * 2 ** 31) })}
        />
        <GaugesShow give={give} isNow={isNow} />
      </div>
      <PaperAnew give={give} />
      <Orders room={room} actions={actions} />
    </section>
  )
}

/** Abnormal calls of the start that runs: its gauges show one on the trainee's screen, and the trainee has to call it. */
function GaugesShow({ give, isNow }: { readonly give: (what: Injection) => void; readonly isNow: boolean }) {
  const pack = useApp((state) => state.pack)
  const run = useApp((state) => state.run)
  const watch = pack && run ? runningWatch(pack, run) : undefined
  if (!watch || !isNow) return null
  return (
    <label>
      The gauges of {watch.name} show
      <select
        value=""
        onChange={({ currentTarget }) => {
          const abnormal = watch.abnormal.find(({ id }) => id === currentTarget.value)
          if (abnormal) give({ kind: 'start', abnormal: abnormal.id, words: abnormal.label })
        }}
      >
        <option value="">choose</option>
        {watch.abnormal.map(({ id, label }) => (
          <option key={id} value={id}>
            {label}
          </option>
        ))}
      </select>
    </label>
  )
}

interface HappeningProps {
  readonly label: string
  /** Why it cannot happen; empty where it can. */
  readonly not: string
  readonly act: () => void
}

function Happening({ label, not, act }: HappeningProps) {
  return (
    <button type="button" disabled={not !== ''} onClick={act}>
      {label}
      {not !== '' && <small>{not}</small>}
    </button>
  )
}

function PaperAnew({ give }: { readonly give: (what: Injection) => void }) {
  const pack = useApp((state) => state.pack)
  const run = useApp((state) => state.run)
  const [key, setKey] = useState('')
  const [typed, setTyped] = useState('')
  const [wrong, setWrong] = useState('')
  const values = useMemo(() => (pack && run ? paperValues(pack, run) : []), [pack, run])
  if (!pack || !run || values.length === 0) return null
  const papers = [...new Set(values.map(({ paper }) => paper))]
  const chosen = values.find((one) => one.key === key)
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault()
        const made = newEdition(pack, run, key, typed)
        setWrong('wrong' in made ? made.wrong : '')
        if ('wrong' in made) return
        give({ kind: 'paper', ...made })
        setTyped('')
      }}
    >
      <h3>A paper comes anew</h3>
      <label>
        What changes on it
        <select value={key} onChange={({ currentTarget }) => setKey(currentTarget.value)}>
          <option value="">choose</option>
          {papers.map((paper) => (
            <optgroup key={paper} label={paper}>
              {values
                .filter((one) => one.paper === paper)
                .map((one) => (
                  <option key={one.key} value={one.key}>
                    {one.label}: {one.text}
                  </option>
                ))}
            </optgroup>
          ))}
        </select>
      </label>
      {chosen?.options && (
        <label>
          In place of {chosen.text}
          <select value={typed} onChange={({ currentTarget }) => setTyped(currentTarget.value)}>
            <option value="">choose</option>
            {chosen.options.map((one) => (
              <option key={one} value={one}>
                {one}
              </option>
            ))}
          </select>
        </label>
      )}
      {chosen && !chosen.options && (
        <label>
          In place of {chosen.text}
          <input value={typed} autoComplete="off" onInput={({ currentTarget }) => setTyped(currentTarget.value)} />
        </label>
      )}
      {wrong && <p role="alert">{wrong}</p>}
      <p class="soft small">Nothing else on the papers changes with it.</p>
      <div>
        <button type="submit" disabled={!chosen || typed === ''}>
          Issue it
        </button>
      </div>
    </form>
  )
}

/** Those that wait first, then what became of the others, the newest first. */
function Orders({ room, actions }: DeskProps) {
  const run = useApp((state) => state.run)
  const pack = useApp((state) => state.pack)
  const orders = room.orders.filter(({ runId }) => runId === run?.runId)
  if (!pack || !run || orders.length === 0) return null
  const happened = new Map(run.injected?.map((one) => [one.order, one]))
  const stateOf = ({ id, at }: Order): string => {
    const one = happened.get(id)
    if (one) return one.isTaken ? `happened at ${clockTime(one.t)}` : `could not happen at ${clockTime(one.t)}`
    if (room.withdrawn.has(id)) return 'withdrawn'
    return room.given.has(id) || at === undefined ? 'on its way' : `waits for ${nameOf(at)}`
  }
  const nameOf = (id: string) =>
    placesAhead(pack, run)
      .flatMap((one) => [one, ...one.items])
      .find((one) => one.id === id)?.name ?? 'its place'
  const waits = (one: Order) => stateOf(one).startsWith('waits')
  return (
    <ol class="values" aria-label="What was ordered">
      {orders
        .toReversed()
        .sort((a, b) => Number(waits(b)) - Number(waits(a)))
        .map((one) => (
          <li key={one.id}>
            {injectionWords(one.what)}: <strong>{stateOf(one)}</strong>{' '}
            {waits(one) && (
              <button type="button" class="plain" onClick={() => actions.withdrawOrder(one.id)}>
                Withdraw
              </button>
            )}
          </li>
        ))}
    </ol>
  )
}
