/** Runs played to a room: what came with the packs, two voices, the places at which it stops, and what stands there. */

import { readdirSync, readFileSync } from 'node:fs'
import { basename } from 'node:path'
import { describe, expect, it } from 'vitest'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import type { Prepared } from '../../src/app/stage/prepared.ts'
import { scripted } from '../../src/app/stage/scripted.ts'
import { createStage } from '../../src/app/stage/stage.ts'
import type { StageChoices } from '../../src/app/stage/stageState.ts'
import { demonstrationView } from '../../src/app/view/demonstrationView.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import { showProblem } from '../../src/kernel/problemLine.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { createFakeVoice } from '../fakes/voice.ts'
import { idle } from './rig.ts'

const yamlIn = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder).map((file) => [basename(file, '.yaml'), readFileSync(`${folder}/${file}`, 'utf8')]),
  )

const packs = Object.fromEntries(
  await Promise.all(
    ['marram', 'pair'].map(async (name) => {
      const { pack } = await readPackDir(`checklists/${name}`)
      if (!pack) throw new Error(`${name} cannot be read`)
      const at = `checklists/${name}`
      return [name, { pack, sheets: yamlIn(`${at}/inputs`), shown: yamlIn(`${at}/demonstrations`) }] as const
    }),
  ),
)

async function flown(packName: string, name: string): Promise<Prepared> {
  const { pack, sheets, shown } = packs[packName] ?? {}
  if (!pack || !sheets || !shown) throw new Error(packName)
  const prepared = await scripted(pack, name, shown[name] ?? '', sheets)
  if ('problems' in prepared) throw new Error(prepared.problems.map(showProblem).join('\n'))
  return prepared
}

const ALL = Object.entries(packs).flatMap(([pack, { shown }]) =>
  Object.keys(shown).map((name) => [pack, name] as const),
)

/** Of the run: what was missed, by lists, radio and starts. */
const missesOf = ({ pack, events }: Prepared) => {
  const { misses, radioMisses, startDeviations } = debriefOf(pack, events).totals
  return { misses, radioMisses, startDeviations }
}

describe('what came with a pack', () => {
  it.each(ALL)('%s: %s fits it, and stops where it says what to look at', async (pack, name) => {
    const { title, events, stops } = await flown(pack, name)
    expect(title).not.toBe('')
    expect(stops.length).toBeGreaterThanOrEqual(2)
    const last = events.at(-1)?.seq ?? 0
    for (const { seq, words } of stops) expect([words !== '', seq > 0, seq <= last]).toEqual([true, true, true])
  })

  it('is a clean run and a faulty one of the same departure', async () => {
    expect(missesOf(await flown('marram', 'clean'))).toMatchObject({ misses: 0, radioMisses: 0 })
    // The old trim, no value, digits the wrong way round, the old edition.
    expect(missesOf(await flown('marram', 'faulty'))).toMatchObject({ misses: 4 })
  })

  it('says where a line does not fit the pack', async () => {
    const { pack, sheets } = packs.marram ?? {}
    if (!pack || !sheets) throw new Error('no pack')
    const told = async (text: string) => {
      const read = await scripted(pack, 'own', text, sheets)
      return 'problems' in read ? read.problems.map(showProblem) : []
    }
    expect(await told('title: T\ninputs: preliminary\nanswers: |\n  done\n  @figures none\n')).toEqual([
      'own.yaml:2:1: @figures none: there is no such file',
    ])
    expect(await told('title: T\nanswers: done\n')).toEqual([expect.stringMatching(/^own\.yaml:1:1: .*inputs/)])
    expect(await told('title: T\ninputs: mine\nanswers: done\n')).toEqual([expect.stringMatching(/inputs\/mine\.yaml/)])
  })
})

async function onStage(choices: Partial<StageChoices> = {}, options: Parameters<typeof createFakeVoice>[0] = {}) {
  const prepared = await flown('marram', 'faulty')
  const clock = createVirtualClock()
  const voice = createFakeVoice(options)
  let told = 0
  const stage = createStage({
    ...{ prepared, clock, voice, settings: DEFAULT_SETTINGS },
    choices: { stops: 'never', asksRoom: false, ...choices },
    changed: () => {
      told += 1
    },
  })
  /** Until it stands, or for so long. */
  const on = async (most = 400) => {
    for (let turn = 0; turn < most && (turn === 0 || !stage.store.getState().run?.frozen); turn += 1) {
      await idle()
      clock.advance(1_000)
    }
  }
  const goOn = async () => {
    stage.freeze()
    await on()
  }
  const heard = () => stage.store.getState().answered?.event.evidence?.text
  const said = () => voice.said.map(({ role, text }) => `${role}: ${text}`)
  return { stage, prepared, voice, clock, on, goOn, heard, said, told: () => told }
}

describe('a run on the stage', () => {
  it('stands at its beginning, is played by two voices, and stops at what is marked with its words', async () => {
    const { stage, goOn, said, heard } = await onStage()
    expect(stage.store.getState().run?.frozen).toBeDefined()
    expect(said()).toEqual([])
    await goOn()
    expect(stage.state().words).toBe('The final load sheet comes in, in the middle of the list.')
    expect(said()).toContain('pilot: one three two')
    expect(said().at(-1)).toMatch(/^otherseat: Load sheet, takeoff data/)
    await goOn()
    expect(stage.state().words).toMatch(/^The trim of the sheet before/)
    expect(heard()).toBe('four point three up')
    // What it brings is said when it goes on.
    expect(said().at(-1)).toBe('pilot: four point three up')
    await goOn()
    expect(said()).toContain('otherseat: I heard four point three up.')
  })

  it('shows the verdict with its reasons as of a run that is shown while it is flown', async () => {
    const { stage, prepared, goOn } = await onStage()
    await goOn()
    await goOn()
    const { run, answered, revisions } = stage.store.getState()
    if (!run || !answered) throw new Error('nothing is shown')
    const shown = demonstrationView(prepared.pack, answered, { run, revisions })
    expect(shown.judgement.verdict).toBe('negative')
    expect(shown.inForce[0]).toMatchObject({ value: '3.1 up' })
    expect(run.frozen?.since).toBe(answered.event.t)
  })

  it('stops at every answer, or at those that were missed, where that is wanted', async () => {
    const answers = await onStage({ stops: 'answers' })
    await answers.goOn()
    expect(answers.heard()).toBe('two four three six zero')
    const misses = await onStage({ stops: 'misses' })
    const heard: unknown[] = []
    for (let stop = 0; stop < 5; stop += 1) {
      await misses.goOn()
      heard.push(misses.heard())
    }
    // New figures leave no answer to look at.
    expect(heard).toEqual([
      undefined,
      'four point three up',
      'checked',
      'one four three',
      'edition one, seven zero on board',
    ])
  })

  it('asks the room: the words stand alone, and the verdict comes when it goes on', async () => {
    const { stage, goOn, heard } = await onStage({ asksRoom: true })
    await goOn()
    const run = () => stage.store.getState().run
    expect(run()?.frozen?.said).toMatchObject({ text: 'two four three six zero', by: 'voice' })
    expect(heard()).toBeUndefined()
    await goOn()
    expect(heard()).toBe('two four three six zero')
    expect(run()?.frozen?.said?.text).toBe('four point three up')
  })

  it('is stopped in the middle of a word by the key, and says that again', async () => {
    const { stage, voice, said, on, told } = await onStage({}, { holds: true })
    stage.freeze()
    await on(3)
    expect(said()).toEqual(['otherseat: Figures flow.'])
    const before = told()
    stage.freeze()
    expect(told()).toBeGreaterThan(before)
    expect(voice.speaking()).toBeUndefined()
    expect(stage.store.getState().run?.frozen).toBeDefined()
    stage.freeze()
    await on(3)
    expect(said()).toEqual(['otherseat: Figures flow.', 'otherseat: Figures flow.'])
  })

  it('goes from stop to stop and back without a word, and from its end to its beginning', async () => {
    const { stage, said, goOn, heard } = await onStage()
    expect(stage.state()).toMatchObject({ hasBack: false, hasOn: true, isOver: false })
    stage.on()
    stage.on()
    expect([heard(), said()]).toEqual(['four point three up', []])
    stage.on()
    expect(heard()).toBe('checked')
    stage.back()
    expect(heard()).toBe('four point three up')
    for (let stop = 0; stop < 3; stop += 1) stage.on()
    expect(stage.state()).toMatchObject({ hasBack: true, hasOn: false })
    await goOn()
    expect(stage.state().isOver).toBe(true)
    await goOn()
    expect(stage.state().words).toMatch(/^The final load sheet/)
  })

  it('gives the room time to read where no voice speaks, and closes in the middle', async () => {
    const { stage, clock, said } = await onStage({}, { outcome: 'failed' })
    stage.freeze()
    await idle()
    expect(said()).toEqual(['otherseat: Figures flow.'])
    clock.advance(600)
    await idle()
    expect(said()).toHaveLength(1)
    stage.close()
    clock.advance(60_000)
    await idle()
    expect(said()).toHaveLength(1)
  })
})
