/** How the pilot comes on, worked out of the log; and the drill of what is due. */

import type { Inputs } from '../../kernel/figures/model.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { TextCache } from '../../ports.ts'
import type { ControllerParts, Drill, RunController } from '../run/controller.ts'
import { hasRunOn } from '../selectors.ts'
import { EMPTY_DRAFT } from '../store.ts'
import { watchDrills } from '../training/drillEnd.ts'
import { type Card, type DrillTold, drillTold } from '../training/training.ts'
import type { TrainingActions } from './actions.ts'

export interface TrainingActionParts extends ControllerParts {
  readonly workedOut: TextCache
}

/** `wake`: in a gesture, before anything may sound. */
export function trainingActions(
  parts: TrainingActionParts,
  controller: RunController,
  wake: () => void,
): TrainingActions {
  const { store, clock, log, workedOut } = parts
  /** What was chosen on the start screen before the drill. */
  let before: { readonly pack: Pack | undefined; readonly chosen: string | undefined } | undefined
  let isBeginning = false

  async function readProgress(): Promise<void> {
    const { workOut } = await import('../training/workedOut.ts')
    const { cardsForDrill, dueCards, nextDue } = await import('../training/deck.ts')
    const { deck, ...rest } = await workOut(log, workedOut)
    const { stations } = store.getState().settings
    const isAsked = ({ kind }: Card) => stations || kind !== 'readBack'
    const due = dueCards(deck, clock.now()).filter(isAsked)
    store.setState({
      training: {
        ...rest,
        deck,
        due,
        next: nextDue(Object.values(deck.cards).filter(isAsked), clock.now()),
        forDrill: cardsForDrill(due),
        refused: '',
      },
    })
  }

  async function begin(): Promise<void> {
    if (hasRunOn(store.getState()) || store.getState().unfinished) return
    await readProgress()
    const { training } = store.getState()
    const cards = training?.forDrill ?? []
    const [card] = cards
    if (!training || !card) return
    const runs = (await log.runs()).filter(({ packId, flown }) => packId === card.packId && !flown?.isDrill)
    const [last] = runs.toSorted((one, other) => other.startedAt - one.startedAt)
    const { drillRunOf } = await import('../training/drillRun.ts')
    const drill = await drillRunOf(log, last?.runId ?? '', cards, parts.newSeed())
    if ('why' in drill) return store.setState({ training: { ...training, refused: drill.why } })
    const { pack, inputs, items, hasReadings } = drill
    const settings = { flows: 'memory', lateCatch: false, ownValues: hasReadings } as const
    await fly(pack, inputs, { items, settings })
  }

  async function beginReadBacks(length: number | undefined): Promise<void> {
    if (hasRunOn(store.getState()) || store.getState().unfinished) return
    await readProgress()
    const { training, settings } = store.getState()
    const { dialRunOf } = await import('../training/dialRun.ts')
    const { pack, inputs, steppedOn } = await dialRunOf(
      training?.dials ?? [],
      { put: settings.dial, radio: settings.radio, length },
      parts.newSeed(),
    )
    const own = { lateCatch: false, ownValues: false }
    await fly(pack, inputs, { items: {}, settings: own, dial: { put: settings.dial, steppedOn } })
  }

  async function fly(pack: Pack, inputs: Inputs, drill: Drill): Promise<void> {
    before = { pack: store.getState().pack, chosen: store.getState().chosen }
    store.setState({
      ...{ pack, chosen: undefined, dealt: undefined, draft: inputs, past: [], sheets: [inputs], takenFrom: inputs },
      ...{ drilled: undefined, dialled: undefined, openPapers: [], hasPad: false },
    })
    const begun = controller.begin(pack, inputs, drill)
    store.setState({ screen: 'run', takenFrom: undefined })
    await begun
  }

  async function end(why: DrillTold['why']): Promise<void> {
    const session = controller.session()
    if (!session) return
    // The last words are said to their end.
    await session.settled()
    const { factsOf } = await import('../../kernel/training/factsOf.ts')
    const facts = factsOf(session.pack, session.events())
    const { dialTold } = await import('../training/dialRun.ts')
    const { runId } = session.state()
    const told = facts.dial
      ? { dialled: { ...dialTold(facts, why), runId } }
      : { drilled: { ...drillTold(session.pack, session.events()[0], facts.trials, why), runId } }
    await controller.end(session.state().runId)
    store.setState({
      ...{ screen: 'progress', ...told, pack: before?.pack, chosen: before?.chosen, run: undefined, revisions: [] },
      ...{
        draft: EMPTY_DRAFT,
        past: [],
        preview: undefined,
        sheets: [],
        openPapers: [],
        hasPad: false,
        unfinished: undefined,
      },
    })
    await readProgress()
  }

  /** In a gesture; one at a time. */
  async function once(work: () => Promise<void>): Promise<void> {
    if (isBeginning) return
    isBeginning = true
    wake()
    await work().finally(() => {
      isBeginning = false
    })
  }

  watchDrills({
    ...{ store, clock },
    call: (list) => void controller.session()?.happen({ type: 'listCalled', list, evidence: { by: 'key', text: '' } }),
    end: (why) => void end(why),
  })

  return {
    readProgress,
    beginDrill: () => once(begin),
    beginReadBacks: (length) => once(() => beginReadBacks(length)),
    async endDrill() {
      if (store.getState().run?.drill) await end('ended')
    },
  }
}
