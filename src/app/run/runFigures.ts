/**
 * The figures of a run as they come in: entered, read aloud in a cross-check, given by a station, or due at their time
 * because the departure was dealt. Each is computed when its turn comes, on the figures that are in force then.
 */

import { compute } from '../../kernel/figures/compute.ts'
import { namesIn } from '../../kernel/figures/condition.ts'
import type { Inputs } from '../../kernel/figures/model.ts'
import { changesBetween } from '../../kernel/figures/revise.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { asPrinted, blanksOf } from '../../kernel/papers/asPrinted.ts'
import { corrected } from '../../kernel/papers/corrected.ts'
import type { EventBody } from '../../kernel/run/core/events.ts'
import type { Replayed } from '../../kernel/run/core/readLog.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import type { Clock } from '../../ports.ts'
import { dealtBy } from './beginning.ts'
import type { Dispatch } from './dispatch.ts'
import {
  type From,
  type FromSheet,
  type Revision,
  revisedBy,
  revisionsAfter,
  withoutGiven,
  withoutTaken,
  withStated,
  withTaken,
} from './revision.ts'

/** How a revision came about, for whoever keeps a draft beside it. */
export interface Entering {
  /** As handed in; what stations give may have been kept out of it. */
  readonly wanted: Inputs
  /** It came by voice, laid over the figures in force. */
  readonly lay?: Lay
}
type Lay = (inputs: Inputs) => Inputs

export interface RunFigures {
  readonly revisions: () => readonly Revision[]
  /** Takes in what has happened; where it is a revision, says how it came about. */
  happened(step: Replayed): Entering | undefined
  /** A sheet, or a hand: these take the place of the figures in force, and of the situation. */
  enter(inputs: Inputs, from?: FromSheet): Promise<void>
  /** A station gave values. */
  recordFromStation(taken: { readonly turn: string; readonly values: Inputs['values'] }): void
  /** The final figures of a dealt departure come in at their time, wherever the run is then. */
  awaitFinal(dealt: number | undefined, startedAt: number): void
  /** Nothing more comes in on its own. */
  stop(): void
}

export interface RunFiguresParts {
  readonly pack: Pack
  readonly clock: Clock
  /** Of the run so far. */
  readonly revisions: readonly Revision[]
  readonly happen: Dispatch['happen']
}

export function createRunFigures({ pack, clock, happen, ...soFar }: RunFiguresParts): RunFigures {
  let { revisions } = soFar
  let entering: Entering | undefined
  let stop = () => {}

  /** `change`: undefined where the figures are not wanted any more. */
  function revise(change: (run: RunState) => Inputs | undefined, from: From = {}, lay?: Lay): Promise<void> {
    return happen((run) => {
      const wanted = change(run)
      if (!wanted) return undefined
      entering = { wanted, ...(lay && { lay }) }
      const isFromStation = from.takenDown !== undefined
      const entered = lay ? wanted : stillPrinted(run, wanted, from)
      const given = run.script && !isFromStation ? withoutGiven(pack, entered, run.inputs) : entered
      const again = isFromStation || from.sheet ? undefined : sentAgain(run, given)
      const inputs = again?.inputs ?? given
      const how = again ? { ...from, sheet: again.sheet } : from
      return [...situationChanges(run, inputs), revisedBy(pack, inputs, revisions.at(-1), how)]
    })
  }

  function stillPrinted({ sheets, situation, script }: RunState, inputs: Inputs, { sheet }: From): Inputs {
    const onTable = sheet ? [...sheets, { inputs: sheet }] : sheets
    return asPrinted(inputs, blanksOf(pack, onTable, { situation, hasStations: script !== undefined }))
  }

  /** A paper that a difference was settled against comes in once more. */
  function sentAgain({ sheets, inputs: inForce }: RunState, inputs: Inputs): ReturnType<typeof corrected> {
    const sheet = sheets.at(-1)?.inputs
    if (!sheet || !inputs.settled) return undefined
    return corrected(pack, { inputs, set: compute(pack.figures, inputs), before: inForce?.settled, sheet })
  }

  /** What came by voice changes the figures in force, in the situation of the run. */
  function layOver(lay: Lay, from: From): Promise<void> {
    return revise(({ inputs, situation }) => inputs && lay({ ...inputs, situation }), from, lay)
  }

  /** Figures that hang on a situation are computed anew in it, unless they came with it. */
  function resituate(): Promise<void> {
    const lay: Lay = (inputs) => inputs
    return revise(
      ({ inputs, situation }) => {
        if (!inputs) return undefined
        const wanted = { ...inputs, situation }
        const before = revisions.at(-1)
        return before && changesBetween(before.set, compute(pack.figures, wanted)).length > 0 ? wanted : undefined
      },
      {},
      lay,
    )
  }

  return {
    revisions: () => revisions,
    happened(step) {
      const { event } = step
      revisions = revisionsAfter(pack, revisions, step)
      if (event.type === 'stated') void layOver((inputs) => withStated(inputs, event), { crossChecked: event.figure })
      if (event.type === 'situationSet' && hangsOn(pack, event.name)) void resituate()
      return event.type === 'figuresRevised' ? entering : undefined
    },
    enter: (inputs, from) => revise(() => inputs, from),
    recordFromStation: ({ turn, values }) =>
      void layOver((inputs) => withTaken(pack, inputs, values), { takenDown: turn }),
    awaitFinal(number, startedAt) {
      const dealt = number === undefined ? undefined : dealtBy(pack, number)
      if (!dealt) return
      stop()
      const due = startedAt + dealt.finalAfterMinutes * 60_000
      // Where the pilot leaves the stand in another way than was dealt, late figures do not change that.
      const final = (run: RunState) => withoutTaken(pack, { ...dealt.final, situation: run.situation }, run)
      const come = () =>
        void revise((run) => (run.figureStatus === 'preliminary' ? final(run) : undefined), { sheet: dealt.final })
      stop = clock.after(Math.max(0, due - clock.now()), come)
    },
    stop: () => stop(),
  }
}

/** Whether some figure is computed otherwise in another situation of this name. */
function hangsOn({ figures: { declarations } }: Pack, situation: string): boolean {
  return Object.values(declarations).some(({ derived }) =>
    derived?.cases?.some(({ when }) => namesIn(when).includes(situation)),
  )
}

function situationChanges({ situation }: RunState, inputs: Inputs): EventBody[] {
  return Object.entries(inputs.situation ?? {})
    .filter(([name, value]) => situation[name] !== value)
    .map(([name, value]) => ({ type: 'situationSet', name, value, evidence: { by: 'key', text: '' } }))
}
