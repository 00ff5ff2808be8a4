/** A pilot who knows the right answers, and hears as well as the test wants: whole departures with a partner who errs. */

import { createVirtualClock } from '../../../src/app/rehearsal/virtualClock.ts'
import { createSession } from '../../../src/app/run/session.ts'
import { newRun } from '../../../src/app/run/storedRun.ts'
import { DEFAULT_SETTINGS } from '../../../src/app/settings.ts'
import { viewOf } from '../../../src/app/view/view.ts'
import { readPackDir } from '../../../src/cli/packDir.ts'
import type { Inputs } from '../../../src/kernel/figures/model.ts'
import type { Item, Pack } from '../../../src/kernel/pack/checklist.ts'
import { figuresFor, findItem, judgedFor, responseOf, saidFigures } from '../../../src/kernel/pack/place.ts'
import { GAP, sayResponse } from '../../../src/kernel/response/sentence.ts'
import type { RunSettings } from '../../../src/kernel/run/core/events.ts'
import type { RunState } from '../../../src/kernel/run/core/state.ts'
import { debriefOf } from '../../../src/kernel/run/debrief/debrief.ts'
import type { Chance } from '../../../src/kernel/run/partner/model.ts'
import { partnerOf, pilotChallenges } from '../../../src/kernel/run/partner/partner.ts'
import { createFakeEar } from '../../fakes/ear.ts'
import { createFakeLog } from '../../fakes/log.ts'
import { createFakeVoice } from '../../fakes/voice.ts'
import { GAUGES } from '../paperPilot.ts'
import { inputsFrom } from '../rig.ts'

export async function packOf(name: string): Promise<Pack> {
  const { pack, problems } = await readPackDir(`checklists/${name}`)
  if (!pack) throw new Error(JSON.stringify(problems))
  return pack
}

export const finalInputs = (pack: Pack, name: string): Promise<Inputs> =>
  inputsFrom(pack, `checklists/${name}/inputs/final.yaml`)

/** What the pilot says to a chance that has just come; nothing where it is let go. */
export type Listener = (chance: Chance, state: RunState, pack: Pack) => string | undefined

/** Hears every fault, and objects to nothing else. */
export const ideal: Listener = (chance, state, pack) => {
  const { fault } = chance
  if (!fault || chance.objection) return undefined
  const words = (id: string) => findItem(pack, id).item.challenge
  switch (fault.kind) {
    case 'wrongValue':
    case 'oldEdition':
      return `negative, ${rightAnswer(pack, state, findItem(pack, fault.about).item)}`
    case 'valueless':
      return 'check that'
    case 'skipped':
      return `you skipped ${words(fault.about)}`
    case 'completeEarly':
      return 'not complete'
    case 'otherCallSign':
      return 'that was not for us'
    case 'readBack':
    case 'misread':
    case 'leftOut':
      return 'check that'
  }
}
export const deaf: Listener = () => undefined

/** In the list's own words. */
export function rightAnswer(pack: Pack, state: RunState, item: Item): string {
  const names = saidFigures(item, state)
  const read = Object.entries(judgedFor(pack, state.values, names)).flatMap(([name, one]) =>
    'read' in one ? [[name, middle(one.read)] as const] : [],
  )
  const figures = figuresFor(pack, { ...state.values, ...Object.fromEntries(read) }, names)
  return sayResponse(responseOf(item, state), figures, 'plain')
}

const middle = ({ min, max }: { readonly min?: number; readonly max?: number }) =>
  min !== undefined && max !== undefined ? Math.round((min + max) / 2) : (min ?? max ?? 0)

export interface Flown {
  readonly name: string
  readonly settings: Partial<RunSettings>
  readonly listener?: Listener
  /** Told what happened after each thing that the pilot says. */
  readonly watch?: (state: RunState) => void
}

const quotedIn = (hint: string) => /"([^"]+)"/.exec(hint)?.[1] ?? ''

/** The departure on its final sheet, without stations, to the end. */
export async function flyCrew({ name, settings, listener = ideal }: Flown) {
  const pack = await packOf(name)
  const inputs = await finalInputs(pack, name)
  const clock = createVirtualClock()
  const [ear, voice, log] = [createFakeEar(clock.now), createFakeVoice(), createFakeLog()]
  const run = createSession({ clock, log, ear, voice, settings: () => DEFAULT_SETTINGS }, newRun(pack, 'crew'))
  await run.begin({ inputs, from: { sheet: inputs }, settings: { phraseology: 'plain', coachAfter: 0, ...settings } })
  await run.settled()
  const say = async (text: string) => {
    ear.hear(text, { by: 'typed' })
    await run.settled()
  }
  let heard = 0
  for (let turn = 0; turn < 600; turn++) {
    const state = run.state()
    const chances = partnerOf(state).chances
    const objection = chances
      .slice(heard)
      .map((one) => listener(one, state, pack))
      .find((text) => text)
    heard = chances.length
    if (objection) {
      await say(objection)
      continue
    }
    if (partnerOf(state).breaks.some(({ overAt, place }) => overAt === undefined && place === undefined)) {
      await say('stand by')
      continue
    }
    if (state.floor.at === 'end') break
    await act()
  }

  async function act(): Promise<void> {
    const state = run.state()
    const { kind, hint, headline, buttons, watch } = viewOf(pack, state)
    const { seq } = state
    if (kind === 'flow') await say('done')
    else if (kind === 'call' || kind === 'line') await say(quotedIn(hint))
    else if (kind === 'question') await say('affirm')
    else if (kind === 'watch') {
      const phrase = (watch?.status === 'running' ? buttons[0]?.phrase : quotedIn(hint)) ?? ''
      const [first = ''] = phrase.split(' ')
      const idle =
        name === 'marram'
          ? '58'
          : run.state().floor.at === 'watch' && /Power/.test(JSON.stringify(run.state().watches))
            ? '650'
            : '920'
      await say(phrase.replace(GAP, GAUGES[first] ?? idle))
      if (watch?.status !== 'running') await clock.pass(15_000, run.settled)
    } else if (kind === 'item' && state.floor.at === 'item') {
      const { item } = findItem(pack, state.floor.item)
      const { answered } = partnerOf(state)
      if (!pilotChallenges(state) || state.last?.item === item.id) await say(rightAnswer(pack, state, item))
      else if (answered === item.id) await say('checked')
      else await say(item.challenge)
      if (
        pilotChallenges(run.state()) &&
        partnerOf(run.state()).answered === undefined &&
        run.state().floor.at === 'item'
      )
        await answerOwn(item)
    } else throw new Error(`nobody knows what to do at ${kind}: ${headline}`)
    // It had to wait for its time.
    if (viewOf(pack, run.state()).headline === headline && run.state().seq > seq) await clock.pass(30_000, run.settled)
  }

  /** What Otherseat's seat cannot answer is the pilot's. */
  async function answerOwn(item: Item): Promise<void> {
    const { floor } = run.state()
    if (floor.at === 'item' && floor.item === item.id) await say(rightAnswer(pack, run.state(), item))
  }

  await run.happen({ type: 'ended' })
  await run.settled()
  return { pack, run, log, voice, debrief: debriefOf(pack, log.events) }
}
