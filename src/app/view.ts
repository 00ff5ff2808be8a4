/** What the run screen shows, made from pack and state. No rule lives here; it only names things. */

import { sourceWords } from '../kernel/figures/settle.ts'
import type { Flow, Item, Line, Pack, Watch } from '../kernel/run/checklist.ts'
import { REASON_WORDS } from '../kernel/run/phrases.ts'
import { entriesOf, findItem, findLine, holds, listById } from '../kernel/run/place.ts'
import type { Floor, ItemStatus, LastAnswer, RunState, WatchState } from '../kernel/run/state.ts'
import { itemState, lacking, promptWords } from '../kernel/run/turn.ts'
import { nextCall, watchState } from '../kernel/run/watchTiming.ts'
import { buttonsOf } from './buttons.ts'
import { talkView, type ViewBriefing, type ViewExchange } from './exchangeView.ts'
import { overviewOf, type ViewList } from './overview.ts'

export interface ViewEntry {
  readonly id: string
  readonly type: 'item' | 'line'
  readonly label: string
  readonly status: ItemStatus | 'cleared'
  readonly current: boolean
  /** Closed by key, passed, or after the value was given: shown beside it in words. */
  readonly note?: string
}

export interface ViewStep {
  readonly id: string
  readonly text: string
  readonly done: boolean
  readonly caution?: string
}

/** A watch with its calls; clock times in ms since 1970, so that a screen can count down exactly. */
export interface ViewWatch {
  readonly status: WatchState['status']
  readonly beganAt?: number
  readonly calls: readonly {
    readonly label: string
    readonly state: 'called' | 'next' | 'ahead'
    readonly calledAt?: number
    /** By when it must be heard. */
    readonly dueAt?: number
  }[]
  readonly actions: readonly string[]
}

/** A button that does what a spoken phrase does. `press` is passed back as it is. */
export interface ViewButton {
  readonly label: string
  /** What to say instead of pressing. */
  readonly phrase: string
  readonly press: Press
}

export type Press =
  | { readonly type: 'command'; readonly command: string; readonly argument?: string }
  | { readonly type: 'crossCheck'; readonly figure: string; readonly source: string }
  | { readonly type: 'call'; readonly list: string }
  | { readonly type: 'cleared'; readonly clearance: string }
  | { readonly type: 'stepDone'; readonly step: string }
  | { readonly type: 'flowDone'; readonly flow: string }
  | { readonly type: 'watchBegin'; readonly watch: string }
  | { readonly type: 'watchCall'; readonly watch: string; readonly call: string }
  | { readonly type: 'watchAbnormal'; readonly watch: string; readonly abnormal: string }
  /** A word item confirmed by key: logged as not read back. */
  | { readonly type: 'confirmItem'; readonly item: string }
  /** A call or a read-back of words alone, by key: logged as just that. */
  | { readonly type: 'confirmTurn'; readonly turn: string; readonly part: 'call' | 'readBack' }
  | { readonly type: 'showWords'; readonly turn: string }
  | { readonly type: 'briefingDone'; readonly briefing: string }
  | { readonly type: 'situation'; readonly name: string; readonly value: string }

export interface RunView {
  readonly phase: string
  /** Large on the screen: the challenge, the line, the question, the flow or the list to call. */
  readonly headline: string
  readonly kind:
    | 'item'
    | 'line'
    | 'flow'
    | 'watch'
    | 'exchange'
    | 'briefing'
    | 'call'
    | 'question'
    | 'standBy'
    | 'end'
    | 'stopped'
  /** One sentence under it: what to do now. */
  readonly hint: string
  readonly look: readonly string[]
  readonly caution?: string
  readonly listName?: string
  readonly entries: readonly ViewEntry[]
  readonly steps: readonly ViewStep[]
  readonly lists: readonly ViewList[]
  /** Where a watch has the floor. */
  readonly watch?: ViewWatch
  /** Where an exchange or a briefing has it. */
  readonly exchange?: ViewExchange
  readonly briefing?: ViewBriefing
  readonly buttons: readonly ViewButton[]
  /** Number of the listening order; typing sends the one at its first key. */
  readonly order: number
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
  const watch = floor.at === 'watch' ? watchAt(pack, floor) : undefined
  const talk = talkView(pack, run)
  const caution = item?.caution ?? list?.caution ?? watch?.caution ?? talk?.caution ?? flowAt(pack, floor)?.caution
  return {
    phase: pack.phases[phaseOf(pack, floor)]?.name ?? '',
    ...headlineOf(pack, run),
    look: item?.look ?? [],
    ...(caution !== undefined && { caution }),
    ...(list && { listName: list.name }),
    entries: list ? entriesOf(list, run.situation).map((entry) => viewEntry(run, entry)) : [],
    steps: stepsOf(pack, run),
    lists: overviewOf(pack, run),
    ...(floor.at === 'watch' && watchView(pack, run, floor)),
    ...(talk?.exchange && { exchange: talk.exchange }),
    ...(talk?.briefing && { briefing: talk.briefing }),
    buttons: buttonsOf(pack, run),
    order: run.order,
    last: run.last,
    said: run.said,
    figures: run.figureStatus ? `${run.figureStatus} figures, revision ${run.revision}` : 'no figures yet',
  }
}

function phaseOf(pack: Pack, floor: Floor): number {
  if ('phase' in floor) return floor.phase
  if (floor.at === 'end') return pack.phases.length - 1
  return pack.phases.findIndex(({ activities }) => activities.some((activity) => activity.id === floor.list))
}

function flowAt(pack: Pack, floor: Floor): Flow | undefined {
  const activity = 'phase' in floor ? pack.phases[floor.phase]?.activities[floor.activity] : undefined
  return activity?.type === 'flow' ? activity : undefined
}

/** Flow steps of the phase that apply, ticked or not; a step whose figure changed is not done any more. */
function stepsOf(pack: Pack, run: RunState): ViewStep[] {
  const phase = pack.phases[phaseOf(pack, run.floor)]
  const flows = phase?.activities.filter((activity) => activity.type === 'flow') ?? []
  return flows.flatMap(({ steps }) =>
    steps
      .filter((step) => holds(step.when, run.situation))
      .map(({ id, text, caution }) => ({
        id,
        text,
        done: run.stepsDone.includes(id),
        ...(caution !== undefined && { caution }),
      })),
  )
}

function watchAt(pack: Pack, floor: Extract<Floor, { at: 'watch' }>): Watch | undefined {
  const activity = pack.phases[floor.phase]?.activities[floor.activity]
  return activity?.type === 'watch' ? activity : undefined
}

function watchView(
  pack: Pack,
  run: RunState,
  floor: Extract<Floor, { at: 'watch' }>,
): { watch: ViewWatch } | undefined {
  const watch = watchAt(pack, floor)
  if (!watch) return undefined
  const state = watchState(run, watch.id)
  const next = state.status === 'running' ? nextCall(watch, state) : undefined
  const calls = watch.calls.map((call): ViewWatch['calls'][number] => {
    const at = state.calls[call.id]
    if (at !== undefined) return { label: call.label, state: 'called', calledAt: run.startedAt + at }
    if (next?.call.id !== call.id) return { label: call.label, state: 'ahead' }
    const dueAt = call.within === undefined ? undefined : run.startedAt + next.since + call.within * 1_000
    return { label: call.label, state: 'next', ...(dueAt !== undefined && { dueAt }) }
  })
  const beganAt = state.status === 'ahead' ? undefined : run.startedAt + state.beganAt
  return { watch: { status: state.status, ...(beganAt !== undefined && { beganAt }), calls, actions: state.actions } }
}

function viewEntry(run: RunState, entry: Item | Line): ViewEntry {
  const { floor } = run
  if (entry.type === 'line') {
    const isCleared = run.cleared.includes(entry.clearance)
    const current = floor.at === 'line' && floor.line === entry.id
    return { id: entry.id, type: 'line', label: entry.label, status: isCleared ? 'cleared' : 'open', current }
  }
  const item = itemState(run, entry.id)
  const notes = [
    item.by === 'key' && item.status === 'done' ? 'by key, not read back' : '',
    item.status === 'passed' ? `passed: ${REASON_WORDS[item.reason ?? ''] ?? ''}` : '',
    item.given ? 'value given' : '',
  ].filter((note) => note)
  return {
    id: entry.id,
    type: 'item',
    label: entry.challenge,
    status: item.status,
    current: floor.at === 'item' && floor.item === entry.id,
    ...(notes.length > 0 && { note: notes.join(', ') }),
  }
}

function headlineOf(pack: Pack, run: RunState): Pick<RunView, 'headline' | 'kind' | 'hint'> {
  const { floor, question } = run
  if (run.status === 'stopped') {
    return {
      kind: 'stopped',
      headline: 'Stopped',
      hint: `${run.stoppedBecause ?? ''} The log is whole: save it, then reload the page.`,
    }
  }
  if (run.standingBy) return { kind: 'standBy', headline: 'Standing by', hint: 'Say "continue" when you are ready.' }
  if (question?.about === 'reading') {
    const hint = `Read what stands there as it stands, from the ${sourceWords(question.source)} and nothing else; or say "disregard".`
    return { kind: 'question', headline: promptWords(pack, run), hint }
  }
  if (question) return { kind: 'question', headline: promptWords(pack, run), hint: 'Affirm or negative.' }
  switch (floor.at) {
    case 'item': {
      const { item } = findItem(pack, floor.item)
      const missing = lacking(pack, run, item)
      if (missing.length > 0) {
        return {
          kind: 'item',
          headline: item.challenge,
          hint: `No figure yet for ${missing.join(', ')}: enter it on the figures page.`,
        }
      }
      const both = item.answers === 'both' ? ' Otherseat answers after you.' : ''
      return { kind: 'item', headline: item.challenge, hint: `Read it from the indicator, then answer.${both}` }
    }
    case 'line': {
      const line = findLine(listById(pack, floor.list), floor.line)
      return {
        kind: 'line',
        headline: `Waiting: ${line.label}`,
        hint: `Say "${line.say[0]}" when the clearance is in.`,
      }
    }
    case 'flow':
      return {
        kind: 'flow',
        headline: flowAt(pack, floor)?.name ?? '',
        hint: 'Do the flow, then say "done" or call the list.',
      }
    case 'watch': {
      const watch = watchAt(pack, floor)
      const { status, because } = run.watches[watch?.id ?? ''] ?? { status: 'ahead' }
      const hints = {
        ahead: `Say "${watch?.begins[0]}" as you begin.`,
        running: 'Call each as you see it.',
        stopped: `Stopped: ${because}. Say "from the top" to start again.`,
        done: '',
      }
      return { kind: 'watch', headline: watch?.name ?? '', hint: hints[status] }
    }
    case 'call': {
      const name = pack.phases[floor.phase]?.activities[floor.activity]?.name ?? ''
      return { kind: 'call', headline: name, hint: `Call for it: "${name}".` }
    }
    case 'exchange':
    case 'briefing': {
      const { headline = '', hint = '' } = talkView(pack, run) ?? {}
      return { kind: floor.at, headline, hint }
    }
    case 'end':
      return { kind: 'end', headline: 'All lists complete', hint: 'The account has what was said.' }
  }
}
