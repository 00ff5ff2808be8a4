/** What the run screen shows, made from pack and state. No rule lives here; it only names things. */

import { holds } from '../../kernel/figures/condition.ts'
import type { Item, Line, Note, Pack } from '../../kernel/pack/checklist.ts'
import { findItem, listById, placeToBegin, readingOrder } from '../../kernel/pack/place.ts'
import { passedWords } from '../../kernel/response/commands.ts'
import { acceptedAs } from '../../kernel/run/core/accepted.ts'
import { isFromMemory, itemState } from '../../kernel/run/core/progress.ts'
import type { Floor, ItemStatus, LastAnswer, RunState } from '../../kernel/run/core/state.ts'
import { flowAt } from '../../kernel/run/list/flowSteps.ts'
import { isWithoutCue } from '../../kernel/run/partner/partner.ts'
import { watchAt } from '../../kernel/run/watch/watchTiming.ts'
import { buttonsOf } from './buttons.ts'
import { talkView, type ViewBriefing, type ViewExchange } from './exchangeView.ts'
import { figuresWords } from './figuresWords.ts'
import { type Headline, headlineOf } from './headline.ts'
import { overviewOf, type ViewList } from './overview.ts'
import type { ViewButton } from './press.ts'
import {
  backView,
  clocksView,
  frozenView,
  type ViewBack,
  type ViewClock,
  type ViewWatch,
  watchView,
} from './timeView.ts'

export interface ViewEntry {
  readonly id: string
  readonly type: 'item' | 'line' | Note['type']
  readonly label: string
  readonly status: ItemStatus | 'cleared'
  readonly current: boolean
  /** In words: closed by key, passed, or closed after its value was given. */
  readonly note?: string
}

export interface ViewStep {
  readonly id: string
  /** Name of its flow: a phase may have several. */
  readonly flow: string
  readonly text: string
  readonly done: boolean
  readonly caution?: string
}

export interface RunView extends Headline {
  readonly phase: string
  /** Where the run was begun, if not at its beginning. */
  readonly begunAt?: string
  readonly caution?: string
  readonly listName?: string
  readonly entries: readonly ViewEntry[]
  /** Empty where the flow is flown from memory. */
  readonly steps: readonly ViewStep[]
  /** How many steps are hidden. */
  readonly hiddenSteps: number
  /** Interlocks that are waiting for time to pass. */
  readonly clocks: readonly ViewClock[]
  /** Everything stands still since then, in ms since 1970. */
  readonly frozenAt?: number
  /** The pilot has just come back to the run. */
  readonly back?: ViewBack
  readonly lists: readonly ViewList[]
  /** Where a watch has the floor. */
  readonly watch?: ViewWatch
  /** Where an exchange or a briefing has it. */
  readonly exchange?: ViewExchange
  readonly briefing?: ViewBriefing
  readonly buttons: readonly ViewButton[]
  /** Number of the listening turn; typing sends the one at its first key. */
  readonly listenId: number
  readonly last: LastAnswer | undefined
  readonly said: string
  readonly figures: string
}

/** Names the place of a run for the screen. Values are never among what it names. */
export function viewOf(pack: Pack, run: RunState): RunView {
  const { floor } = run
  const listId = 'list' in floor ? floor.list : undefined
  const list = listId === undefined ? undefined : listById(pack, listId)
  const item = floor.at === 'item' ? findItem(pack, floor.item).item : undefined
  const watch = watchAt(pack, floor)
  const talk = talkView(pack, run)
  const steps = stepsOf(pack, run)
  const isFromMemory = run.settings.flows === 'memory'
  const caution = item?.caution ?? list?.caution ?? watch?.caution ?? talk?.caution ?? flowAt(pack, floor)?.caution
  return {
    phase: `${run.again ? 'That moment again: ' : ''}${pack.phases[phaseOf(pack, floor)]?.name ?? ''}`,
    ...(run.begunAt && { begunAt: begunAtWords(pack, run.begunAt) }),
    ...headlineOf(pack, run),
    ...(caution !== undefined && { caution }),
    ...(list && { listName: list.name }),
    entries: list ? readingOrder(list, run).map((entry, index) => viewEntry(run, entry, index)) : [],
    steps: isFromMemory ? [] : steps,
    hiddenSteps: isFromMemory ? steps.length : 0,
    clocks: clocksView(pack, run),
    ...frozenView(run),
    ...backView(run),
    lists: overviewOf(pack, run),
    ...watchView(pack, run),
    ...(talk?.exchange && { exchange: talk.exchange }),
    ...(talk?.briefing && { briefing: talk.briefing }),
    buttons: buttonsOf(pack, run),
    listenId: run.listenId,
    last: run.last,
    said: run.said,
    figures: run.figureStatus ? figuresWords(run.figureStatus, acceptedAs(run, run.revision)) : 'no figures yet',
  }
}

export function phaseOf(pack: Pack, floor: Floor): number {
  if ('phase' in floor) return floor.phase
  if (floor.at === 'end') return pack.phases.length - 1
  return pack.phases.findIndex(({ activities }) => activities.some((activity) => activity.id === floor.list))
}

/** Flow steps of the phase that apply, ticked or not; a step whose figure changed is not done any more. */
function stepsOf(pack: Pack, run: RunState): ViewStep[] {
  const phase = pack.phases[phaseOf(pack, run.floor)]
  const flows = phase?.activities.filter((activity) => activity.type === 'flow') ?? []
  return flows.flatMap(({ name: flow, steps }) =>
    steps
      .filter((step) => holds(step.when, run))
      .map(({ id, text, caution }) => ({
        id,
        flow,
        text,
        done: run.stepsDone.includes(id) && !run.stepsAgain.includes(id),
        ...(caution !== undefined && { caution }),
      })),
  )
}

/** `index`: its place among all of them, which a note is told by. */
function viewEntry(run: RunState, entry: Item | Line | Note, index: number): ViewEntry {
  const { floor } = run
  if ('text' in entry)
    return { id: `note ${index}`, type: entry.type, label: entry.text, status: 'open', current: false }
  if (entry.type === 'line') {
    const isCleared = run.cleared.includes(entry.clearance)
    const current = floor.at === 'line' && floor.line === entry.id
    return { id: entry.id, type: 'line', label: entry.label, status: isCleared ? 'cleared' : 'open', current }
  }
  const item = itemState(run, entry.id)
  const notes = [
    item.by === 'key' && item.status === 'done' ? 'by key, not read back' : '',
    item.status === 'passed' ? passedWords(item.reason) : '',
    entry.optional && item.status === 'open' ? 'may be skipped by "not applicable"' : '',
    item.revealed ? 'value given' : '',
  ].filter((note) => note)
  return {
    id: entry.id,
    type: 'item',
    label: isFromMemory(entry, run) ? 'memory item' : entry.challenge,
    status: item.status,
    current: floor.at === 'item' && floor.item === entry.id && !isWithoutCue(run),
    ...(notes.length > 0 && { note: notes.join(', ') }),
  }
}

function begunAtWords(pack: Pack, { activity, isCopied }: NonNullable<RunState['begunAt']>): string {
  const place = placeToBegin(pack, activity)
  return isCopied ? `${place}; what stations gave before is on the scratch pad` : place
}
