/** What stands large on the run screen, and what to do now in one sentence: one entry for each place of a run. */

import { capital } from '../../kernel/capital.ts'
import type { ComputedFigure } from '../../kernel/figures/model.ts'
import { shownAs } from '../../kernel/figures/shown.ts'
import { sourceChosen, sourceHere, sourceWords } from '../../kernel/figures/sources.ts'
import { ownOf } from '../../kernel/own.ts'
import type { Pack, Watch } from '../../kernel/pack/checklist.ts'
import { findItem, findLine, listById } from '../../kernel/pack/place.ts'
import { usualWording } from '../../kernel/response/sentence.ts'
import { listed } from '../../kernel/run/core/phrases.ts'
import {
  isFromMemory,
  isGivenByStation,
  isToldOfDifference,
  missingFigures,
  missingNames,
  unsettledIn,
} from '../../kernel/run/core/progress.ts'
import { promptWords } from '../../kernel/run/core/prompts.ts'
import type { AgainState, Floor, Question, RunState, WatchState } from '../../kernel/run/core/state.ts'
import { uncomputed } from '../../kernel/run/core/whyMissing.ts'
import { flowAt } from '../../kernel/run/list/flowSteps.ts'
import { isWithoutCue, partnerOf, pilotChallenges } from '../../kernel/run/partner/partner.ts'
import { canAnswer } from '../../kernel/run/partner/seat.ts'
import { watchAt, watchState } from '../../kernel/run/watch/watchTiming.ts'
import { talkView } from './exchangeView.ts'
import { uncomputedWords } from './uncomputedWords.ts'

interface Words {
  /** The challenge, the line, the question, the flow or the list to call. */
  readonly headline: string
  /** What to do now. */
  readonly hint: string
}

export interface Headline extends Words {
  readonly kind: Floor['at'] | 'question' | 'standBy' | 'stopped' | 'againOver'
}

export function headlineOf(pack: Pack, run: RunState): Headline {
  const { floor, question } = run
  if (run.status === 'stopped') return { kind: 'stopped', ...stopped(run) }
  if (run.again?.isWaiting) return { kind: 'againOver', ...againOver(run.again) }
  if (run.standingBy) return { kind: 'standBy', headline: 'Standing by', hint: 'Say "continue" when you are ready.' }
  if (question) return { kind: 'question', headline: promptWords(pack, run), hint: questionHint(question) }
  return { kind: floor.at, ...wordsAt(pack, run, floor) }
}

function stopped({ stoppedBecause = '' }: RunState): Words {
  const rest = 'Nothing is lost: go on with the run from the start screen, or save its log from the debrief.'
  return { headline: 'Stopped', hint: `${stoppedBecause} ${rest}` }
}

/** How it went beside the last time, where that is known. */
function againOver({ misses, lastMisses }: AgainState): Words {
  const count = (missed: number) => (missed === 0 ? 'nothing missed' : `${missed} missed`)
  const last = lastMisses === undefined ? '' : ` The last time: ${count(lastMisses)}.`
  return { headline: 'Drill over', hint: `This time: ${count(misses)}.${last} Say "continue" to go on from here.` }
}

function questionHint(question: Question): string {
  if (question.about === 'reading') {
    return `Read the value exactly as it stands, from the ${sourceWords(question.source)} only; or say "disregard".`
  }
  if (question.about === 'ownValue') return 'Work it out from the papers and say it; or say "disregard".'
  if (question.about === 'brakes') return 'Say "brakes set". Nothing goes on until you say "continue".'
  return question.about === 'passReason' ? 'Say one of these; or say "disregard".' : 'Affirm or negative.'
}

/** "Zero fuel weight differs: worked out here 24,360 kg, load sheet 24,180 kg": both values were logged as they differed. */
function differenceIn(pack: Pack, { inputs }: RunState, { name, label, sources = [] }: ComputedFigure): string {
  const settled = ownOf(inputs?.settled, name)
  if (settled && sources.some(({ source }) => source === settled.use) && settled.reason.trim() === '')
    return `${capital(label)}: ${sourceChosen(settled.use)} is chosen, and the reason is missing. Give it on the figures page.`
  const declaration = pack.figures.declarations[name]
  const told = sources.map(
    ({ source, value }) => `${sourceHere(source)} ${declaration ? shownAs(declaration, value) : value}`,
  )
  return `${capital(label)} differs: ${told.join(', ')}. Settle it on the figures page.`
}

type At = Floor['at']
type Wording<Place extends At> = (pack: Pack, run: RunState, floor: Extract<Floor, { at: Place }>) => Words

const AT: { readonly [Place in At]: Wording<Place> } = {
  item(pack, run, floor) {
    const { item } = findItem(pack, floor.item)
    if (isWithoutCue(run)) return { headline: 'Interrupted', hint: 'Deal with it, then go on where the list was.' }
    const headline = item.challenge
    const missing = missingFigures(pack, run, item)
    const unsettled = unsettledIn(pack, run, item)
    if (unsettled && isToldOfDifference(run, item.id)) return { headline, hint: differenceIn(pack, run, unsettled) }
    if (missing.length > 0 && !unsettled) {
      const isGiven = missingNames(pack, run, item).some((name) => isGivenByStation(pack, run, name))
      const [first = ''] = missingNames(pack, run, item)
      const root = uncomputed(pack, run, first)
      if (root) {
        const why = uncomputedWords(pack, run, root)
        return {
          headline,
          hint: `No figure for ${listed(missing)}: ${why}. Change what it rests on, or pass the item.`,
        }
      }
      const how = isGiven ? 'a station gives it. Leave it open until then' : 'enter it on the figures page'
      return { headline, hint: `No figure yet for ${listed(missing)}: ${how}.` }
    }
    if (isFromMemory(item, run)) return { headline: 'Memory items', hint: 'Say each item and how it is, from memory.' }
    if (pilotChallenges(run) && canAnswer(pack, run, item)) {
      const isAnswered = partnerOf(run).answered === item.id
      const now = isAnswered ? 'Say "checked" or the next challenge, or object' : 'Say the challenge'
      return { headline, hint: `${now}. Otherseat’s side is simulated.` }
    }
    const { look = [] } = item
    const where = look.length > 0 ? `Look at ${listed(look)}` : 'Read it first'
    const both = item.answers === 'both' ? ' Otherseat’s side is simulated.' : ''
    return { headline, hint: `${where}, then answer.${both}` }
  },
  line(pack, _run, floor) {
    const line = findLine(listById(pack, floor.list), floor.line)
    return { headline: `Waiting: ${line.label}`, hint: `Say "${usualWording(line.say)}" when the clearance is in.` }
  },
  flow: (pack, _run, floor) => ({
    headline: flowAt(pack, floor)?.name ?? '',
    hint: 'Do the flow and say "done", then call the list.',
  }),
  watch(pack, run, floor) {
    const watch = watchAt(pack, floor)
    const own = watchState(run, watch?.id ?? '')
    const { status, because, notBefore } = own
    const hints = {
      ahead: watch ? `Say "${usualWording(watch.begins)}" as you begin.` : '',
      running: watch ? runningHint(watch, own) : '',
      stopped: notBefore
        ? `Stopped: ${because}. Say "from the top" to start again.`
        : `Stopped: ${because}. The flight manual comes first; "from the top" sets the start up again.`,
      done: '',
    }
    return { headline: watch?.name ?? '', hint: hints[status] }
  },
  call(pack, _run, floor) {
    const name = pack.phases[floor.phase]?.activities[floor.activity]?.name ?? ''
    return { headline: name, hint: `Call for it: "${name}".` }
  },
  exchange: talked,
  briefing: talked,
  end: () => ({
    headline: 'All lists complete',
    hint: 'The procedures of this pack end here. Next: the debrief, which has all that was said.',
  }),
}

/** What is said aloud is to be read as well: in a class nobody may have heard it. */
function runningHint({ calls, stopWords }: Watch, own: WatchState): string {
  const owed = calls.find(({ id }) => id === own.pending?.call)
  const value = own.pending?.wasRead ? own.outside[owed?.id ?? '']?.at(-1)?.value : undefined
  if (value !== undefined)
    return `${value} is out of limits. ${capital(owed?.value?.stopWords ?? stopWords)}, or "recheck".`
  if (owed) return `Read it out: ${owed.value?.label ?? owed.label}.`
  const unheard = calls.find(({ id }) => own.unheard.includes(id) && own.calls[id] === undefined)
  return unheard ? `No ${unheard.label}. ${capital(stopWords)}, or call it.` : 'Call each as you see it.'
}

function wordsAt<Place extends At>(pack: Pack, run: RunState, floor: Extract<Floor, { at: Place }>): Words {
  const wording: Wording<Place> = AT[floor.at as Place]
  return wording(pack, run, floor)
}

function talked(pack: Pack, run: RunState): Words {
  const { headline = '', hint = '' } = talkView(pack, run) ?? {}
  return { headline, hint }
}
