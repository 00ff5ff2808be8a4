/** The wordings through a whole run, as `rehearse` flies it: each in a small pack with its item or exchange, and one more thing behind it. */

import { rehearseFile } from '../../../src/app/rehearsal/rehearsal.ts'
import type { Inputs } from '../../../src/kernel/figures/model.ts'
import type { FigureDeclaration } from '../../../src/kernel/figures/pack.ts'
import type { Item, Pack } from '../../../src/kernel/pack/checklist.ts'
import type { Element, Exchange, ExchangeTurn } from '../../../src/kernel/pack/exchange.ts'
import { parseTemplate } from '../../../src/kernel/pack/template.ts'
import { type Response, responseFrom } from '../../../src/kernel/response/response.ts'
import type { RunEvent } from '../../../src/kernel/run/core/events.ts'
import { fold } from '../../../src/kernel/run/core/step.ts'
import type { WordedItem } from './items.ts'
import { figuresOf, itemOf, type Wording } from './wordings.ts'

export interface Flown {
  /** Of the run; `none` where the words were taken for nobody's. */
  readonly verdict: string
  /** The item or the turn is closed, and the run is at what comes next. */
  readonly isClosed: boolean
}

const both = <T>(one: T) => ({ icao: one, faa: one })
const ITEM = 'words.asked'
const TURN = 'talk.asked'
const LIST = 'wording list'

const item = (id: string, challenge: string, response: Response, states?: Item['states']): Item => ({
  ...{ type: 'item', id, challenge, responses: [{ response }], answers: 'pilot', restsOn: [], critical: false },
  ...(states && states.length > 0 && { states }),
})

/** Items stand in a list; what is said to a station is a turn: a read-back of what it says, or the pilot's own call. */
function activityOf({ kind, challenge = '', response, states = [], elements }: WordedItem): Item | Exchange {
  if (response !== undefined && (kind === 'value' || kind === 'words'))
    return item(ITEM, challenge, responseFrom(response), states)
  const role = kind === 'ground' ? 'groundCrew' : kind === 'information' ? 'broadcast' : 'controller'
  const asked: ExchangeTurn = {
    ...{ id: TURN, label: 'asked', sets: [], elements: (elements ?? []).map(elementOf) },
    ...(response !== undefined && { calls: responseFrom(response) }),
    ...(states.length > 0 && { states }),
  }
  const next = { id: 'talk.next', label: 'next', sets: [], elements: [], calls: responseFrom('next one ready') }
  return {
    ...{ type: 'exchange', id: 'talk', name: 'talk', order: 'fixed' },
    ...{ station: { role, name: 'Heron Hill' }, turns: [asked, next] },
  }
}

function elementOf([id, text]: readonly [string, string]): Element {
  const readBack = responseFrom(text)
  const says = parseTemplate(`${id} ${readBack.figures.map((name) => `<${name}>`).join(' ')}`)
  return { id, label: id, alsoCalled: [], says: both(says), readBack: both(readBack) }
}

function packOf(wording: Wording): { readonly pack: Pack; readonly inputs: Inputs; readonly isItem: boolean } {
  const worded = itemOf(wording)
  const figures = Object.entries(figuresOf(wording))
  const declarations = figures.map(([name, { value: _, accept, ...spec }]): FigureDeclaration => {
    return { name, label: name, alsoCalled: [], input: true, spec, ...(accept && { accept }) } as FigureDeclaration
  })
  const asked = activityOf(worded)
  const last = item('words.last', 'last item', responseFrom('finished'))
  const list = { type: 'list', id: 'words', name: LIST, alsoCalled: [], needsFinal: false } as const
  const pack: Pack = {
    ...{ id: 'worded', version: '1', sha256: 'none', texts: {}, name: 'Worded', aircraft: 'none', operator: 'none' },
    ...{ caution: 'For tests only.', papers: [], situations: [] },
    figures: { declarations: Object.fromEntries(declarations.map((one) => [one.name, one])), stations: [] },
    phases: [
      {
        ...{ id: 'only', name: 'Only' },
        activities: [
          ...(asked.type === 'exchange' ? [asked] : []),
          { ...list, entries: asked.type === 'item' ? [asked, last] : [last] },
        ],
      },
    ],
  }
  const values = Object.fromEntries(figures.map(([name, { value }]) => [name, value]))
  return { pack, inputs: { status: 'final', values, loads: {} }, isItem: asked.type === 'item' }
}

const packs = new Map<string, ReturnType<typeof packOf>>()

/** Flown from a file of answers with this one in it. */
export async function flyWording(wording: Wording): Promise<Flown> {
  const made = packs.get(wording.item) ?? packOf(wording)
  packs.set(wording.item, made)
  const { pack, inputs, isItem } = made
  const events: RunEvent[] = []
  await rehearseFile({
    ...{ pack, inputs, file: 'wording.txt', voices: 1 },
    answers: isItem ? `${LIST}\n${wording.text}` : wording.text,
    log: { append: async (event) => void events.push(event) },
  })
  const isSaid = (event: RunEvent) => 'evidence' in event && event.evidence.text === wording.text
  const said = events.find(isSaid)
  const verdict =
    said?.type === 'answered' || said?.type === 'transmitted'
      ? said.judgement.verdict
      : said?.type === 'commanded' || said?.type === 'listCalled'
        ? 'command'
        : 'none'
  const state = fold(pack, 'rehearsal', events)
  return { verdict, isClosed: isItem ? state.items[ITEM]?.status === 'done' : state.turns[TURN]?.status === 'done' }
}
