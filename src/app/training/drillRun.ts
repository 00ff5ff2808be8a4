/** From due cards to a run: the pack cut down to them, and figures of a departure that nobody has seen. */

import type { Inputs } from '../../kernel/figures/model.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { listsOf } from '../../kernel/pack/place.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { readEvents } from '../../kernel/run/core/readLog.ts'
import { scriptedWith } from '../../kernel/run/talk/said.ts'
import { scriptFor } from '../../kernel/run/talk/script.ts'
import type { RunLog } from '../../ports.ts'
import { dealtBy } from '../run/beginning.ts'
import type { Card } from './training.ts'

export interface DrillRun {
  readonly pack: Pack
  readonly inputs: Inputs
  readonly items: Readonly<Record<string, string>>
  readonly hasReadings: boolean
}

/** Departures are drawn from so many, as on the start screen. */
const DEPARTURES = 10_000

/** `runId`: a whole run of the cards' pack, whose edition is drilled. Where that is not possible, one line says why. */
export async function drillRunOf(
  log: Pick<RunLog, 'read'>,
  runId: string,
  cards: readonly Card[],
  seed: number,
): Promise<DrillRun | { readonly why: string }> {
  const { events } = readEvents(await log.read(runId))
  const [first] = events
  if (first?.type !== 'runStarted') return { why: 'The log of the last run of this pack cannot be read.' }
  const { readPack } = await import('../../packs/read.ts')
  const { drillTexts } = await import('../../packs/drillTexts.ts')
  const { packSha256 } = await import('../../packs/digest.ts')
  const { pack: whole } = readPack(first.pack.texts, first.pack.sha256)
  const figures = whole && figuresOf(whole, events, seed)
  if (!whole || !figures) return { why: 'The pack of the last run cannot be read, or has no figures.' }
  const ids = (kind: Card['kind']) => cards.filter((card) => card.kind === kind).map(({ id }) => id)
  const items = [...new Set([...ids('item'), ...ids('reading').flatMap((figure) => itemSaying(whole, figure) ?? [])])]
  const drill = drillTexts(whole.texts, { items, turns: ids('readBack'), flows: ids('flow') })
  const { pack, problems } = readPack(drill.texts, await packSha256(drill.texts))
  if (!pack) return { why: `No drill can be made of this pack: ${problems[0]?.message ?? 'it is empty'}.` }
  const given = scriptedWith(scriptFor(whole, figures, seed), figures.values)
  const entered = drill.entered.flatMap((name) => (given[name] === undefined ? [] : [[name, given[name]] as const]))
  const inputs: Inputs = {
    ...figures,
    ...{ status: 'final', label: 'figures of the drill' },
    values: { ...figures.values, ...Object.fromEntries(entered) },
  }
  return { pack, inputs, items: drill.items, hasReadings: ids('reading').length > 0 }
}

/** Of a departure that is drawn; where the pack has no rules for that, those of the run. */
function figuresOf(pack: Pack, events: readonly RunEvent[], seed: number): Inputs | undefined {
  const last = events.findLast((event): event is RunEvent<'figuresRevised'> => event.type === 'figuresRevised')
  return dealtBy(pack, seed % DEPARTURES)?.preliminary ?? last?.inputs
}

/** What was worked out is then read from the indicator. */
function itemSaying(pack: Pack, figure: string): string | undefined {
  const items = listsOf(pack).flatMap(({ entries }) => entries.filter((entry) => entry.type === 'item'))
  return items.find(({ responses }) => responses.some(({ response }) => response.figures.includes(figure)))?.id
}
