/** A kept run read to be told of, and not to be gone on with: as far as it is whole, on the pack that its log holds. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { type LogRead, readEvents, replay } from '../../kernel/run/core/readLog.ts'
import { ACCOUNT_VERSION, type RunAccount, type RunSummary, summarise } from '../../kernel/run/core/summary.ts'
import { type Debrief, debriefOf } from '../../kernel/run/debrief/debrief.ts'
import { packOf } from '../run/storedRun.ts'

export interface RunRead {
  readonly pack: Pack
  /** That could be replayed. */
  readonly events: readonly RunEvent[]
  /** Why there are no more of them; empty where there are none. */
  readonly wrong: string
}

export interface RunReader {
  /** `values` as a database gives them; what cannot be read at all says why. */
  read(values: readonly unknown[]): Promise<RunRead | { readonly why: string }>
  /** The run's line, with what became of it; undefined where there is no beginning of a run. */
  summaryOf(values: readonly unknown[]): Promise<RunSummary | undefined>
}

/** Most runs of a list are of one pack or two, and reading a pack takes longer than reading a log. */
const MOST_PACKS = 8

export function createRunReader(): RunReader {
  const packs = new Map<string, Awaited<ReturnType<typeof packOf>>>()

  async function known(first: RunEvent<'runStarted'>): ReturnType<typeof packOf> {
    // By its texts: what the log says of their digest is the log's word.
    const key = JSON.stringify(first.pack.texts)
    const there = packs.get(key)
    if (there) return there
    const pack = await packOf(first)
    if (packs.size >= MOST_PACKS) packs.clear()
    packs.set(key, pack)
    return pack
  }

  async function readWhole({ events, problem }: LogRead): Promise<RunRead | { readonly why: string }> {
    const [first] = events
    if (first?.type !== 'runStarted') return { why: problem?.message ?? 'its log is empty' }
    const pack = await known(first)
    if ('why' in pack) return pack
    const run = replay(pack, events)
    return { pack, events: run.events, wrong: run.problem?.message ?? problem?.message ?? '' }
  }

  const read = (values: readonly unknown[]) => readWhole(readEvents(values))

  return {
    read,
    async summaryOf(values) {
      const log = readEvents(values)
      const begun = log.events.reduce<RunSummary | undefined>(summarise, undefined)
      if (!begun) return undefined
      const run = await readWhole(log)
      const account =
        'why' in run
          ? { ...NOTHING, wrong: run.why }
          : { ...accountOf(debriefOf(run.pack, run.events)), ...(run.wrong !== '' && { wrong: run.wrong }) }
      const events = values.length
      return { ...begun, events, account: { ...account, v: ACCOUNT_VERSION, events } }
    },
  }
}

type Account = Omit<RunAccount, 'v' | 'events'>

const NOTHING: Account = {
  ...{ durationMs: 0, items: 0, closed: 0, lists: 0, completeLists: 0 },
  ...{ misses: 0, radioMisses: 0, briefingMisses: 0, startDeviations: 0, early: 0, letGo: 0 },
}

function accountOf({ durationMs, lists, totals }: Debrief): Account {
  const { items, closed, misses, radioMisses, briefingMisses, startDeviations, early, letGo } = totals
  const completeLists = lists.filter(({ complete }) => complete).length
  return {
    ...{ durationMs, items, closed, lists: lists.length, completeLists },
    ...{ misses, radioMisses, briefingMisses, startDeviations, early, letGo },
  }
}
