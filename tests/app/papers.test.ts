/** Papers on the table during a run: in with a call, read without a mark, put away, and told afterwards. */

import { describe, expect, it } from 'vitest'
import { papersView } from '../../src/app/papers/papersView.ts'
import { dealtBy } from '../../src/app/run/beginning.ts'
import { fromSheet } from '../../src/app/run/revision.ts'
import { createSession } from '../../src/app/run/session.ts'
import { newRun } from '../../src/app/run/storedRun.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { debriefLines } from '../../src/cli/debriefText.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'
import { keyPress } from '../../src/kernel/interpret/keyPress.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { TALK, TO_ALTIMETERS, TO_AWAY, TO_CLEARANCE, TO_CREW } from './demoAnswers.ts'
import { demoInputs, rig } from './rig.ts'

type Flight = Awaited<ReturnType<typeof rig>>
const table = ({ pack, store, state }: Flight) => papersView(pack, { ...store.getState(), run: state() })
const pile = (flight: Flight) => table(flight).pile.map(({ id }) => id)
const cards = ['trimCard', 'speedCard', 'startCard', 'checklist']

async function laid(name: 'preliminary' | 'final', flight: Flight) {
  await flight.run.lay(await demoInputs(flight.pack, name))
  await flight.settled()
}

async function handled(flight: Flight, edition: string, how: 'lookedAt' | 'putAway' | 'takenOut') {
  await flight.run.happen((run) => keyPress(flight.pack, run, { type: 'paper', edition, how }, 0))
  await flight.settled()
}

describe('papers that come in', () => {
  it('the first lie there without a word', async () => {
    const flight = await rig()
    const before = flight.voice.said.length
    await laid('preliminary', flight)
    expect(pile(flight)).toEqual(['loadSheet.1', 'takeoffData.1', 'departureSlip.1', ...cards])
    expect(flight.voice.said).toHaveLength(before)
  })

  it('later ones are called by name, never by what stands on them; the figures in force stay', async () => {
    const flight = await rig()
    await laid('preliminary', flight)
    await flight.hear('load figures list', { by: 'typed' })
    await laid('final', flight)
    expect(flight.said()).toBe('Load sheet, takeoff data and departure slip, new editions. Zero fuel weight?')
    expect(flight.state().revision).toBe(1)
    const { pack } = flight
    const sheet = await demoInputs(pack, 'final')
    const data = (loadSheetEdition: number): Inputs => ({
      ...sheet,
      values: { ...sheet.values, loadSheetEdition },
      stated: { loadSheet: { takeoffCg: 25 } },
    })
    await flight.run.lay({ ...data(3), status: 'amended' })
    await flight.settled()
    expect(flight.said()).toMatch(/^Load sheet and takeoff data, new editions\./)
    await flight.run.lay({ ...data(4), status: 'final' })
    await flight.settled()
    expect(flight.said()).toBe('Load sheet, edition 4. Zero fuel weight?')
    await flight.run.lay({ ...data(4), status: 'final' })
    await flight.settled()
    expect(flight.said()).toBe('Load sheet, edition 4. Zero fuel weight?')
  })

  it('with figures: the papers are called, then what is open again', async () => {
    const flight = await rig()
    const [preliminary, final] = [await demoInputs(flight.pack, 'preliminary'), await demoInputs(flight.pack, 'final')]
    await flight.run.lay(preliminary)
    for (const text of ['load figures list', 'two four three six zero']) await flight.hear(text, { by: 'typed' })
    await flight.run.enter(final, fromSheet(final, [preliminary]))
    await flight.settled()
    expect(flight.voice.said.at(-1)?.text).toMatch(
      /^Load sheet, takeoff data and departure slip, new editions\. Final figures are in\. .*Recheck zero fuel weight\./,
    )
    const { revisions } = debriefOf(flight.pack, flight.log.events)
    expect(revisions.map(({ takenOver }) => takenOver)).toEqual([false, true])
  })

  it('that were wrong come in again once the difference is settled, with the next number, which is read back', async () => {
    const flight = await rig()
    const preliminary = await demoInputs(flight.pack, 'preliminary')
    const final = await demoInputs(flight.pack, 'final')
    const { loadSheet, takeoffData } = final.stated ?? {}
    const wrong = { ...final, stated: { ...final.stated, loadSheet: { ...loadSheet, zeroFuelWeight: 24_360 } } }
    await flight.run.lay(preliminary)
    await flight.run.enter(wrong, fromSheet(wrong, [preliminary]))
    await flight.settled()
    const reason = 'added up again'
    const settled: Inputs = { ...wrong, settled: { zeroFuelWeight: { use: 'computed', reason } } }
    await flight.run.enter(settled)
    await flight.settled()
    expect(flight.voice.said.at(-1)?.text).toMatch(/^Load sheet, edition 3\./)
    const [newest] = table(flight).pile
    expect(newest).toMatchObject({ id: 'loadSheet.3', which: 'edition 3' })
    expect(newest?.lines.flatMap(({ label, text, changed }) => (changed ? `${label} ${text}` : []))).toEqual([
      'zero fuel weight 24,620 kg',
    ])
    expect(flight.state().inputs?.values.loadSheetEdition).toBe(3)
    // Settled on the sheet, nobody sends it again; nor for another reason in words.
    const sheets = flight.state().sheets.length
    const ofSheet = { ...settled.settled, zeroFuelWeight: { use: 'loadSheet', reason } }
    await flight.run.enter({ ...settled, settled: ofSheet })
    await flight.settled()
    expect(flight.state().sheets).toHaveLength(sheets)
    expect(takeoffData).toBeDefined()
  })

  it('in an engine start are there at once; their call waits until that is over', async () => {
    const flight = await rig({ talk: TALK })
    const answers = [...TO_CLEARANCE, ...TO_ALTIMETERS, ...TO_CREW, ...TO_AWAY]
    await laid('preliminary', flight)
    for (const text of answers.slice(0, answers.indexOf('starting the right engine') + 1)) {
      await flight.hear(text, { by: 'typed' })
    }
    const tones = flight.voice.tones.length
    await laid('final', flight)
    expect(pile(flight)).toContain('loadSheet.2')
    expect(flight.voice.tones.slice(tones)).toEqual(['attention'])
    expect(flight.state().wordsAfterWatch).toEqual(['Load sheet, takeoff data and departure slip, new editions.'])
  })

  it('of a drawn departure come in with its late figures', async () => {
    const { pack, clock, ear, voice, log } = await rig()
    const dealt = dealtBy(pack, 7)
    if (!dealt) throw new Error('nothing was drawn')
    const run = createSession({ clock, log, ear, voice, settings: () => DEFAULT_SETTINGS }, newRun(pack, 'drawn'))
    const { preliminary, finalAfterMinutes } = dealt
    const settings = { phraseology: 'plain', coachAfter: 0 } as const
    await run.begin({ inputs: preliminary, from: { sheet: preliminary }, settings, dealt: 7 })
    await run.settled()
    expect(run.state().sheets).toEqual([{ inputs: preliminary, t: 0 }])
    await clock.pass(finalAfterMinutes * 60_000 + 1, run.settled)
    expect(run.state().sheets.map(({ inputs }) => inputs)).toEqual([preliminary, dealt.final])
    expect(run.state().sheets[1]?.t).toBe(finalAfterMinutes * 60_000)
  })

  it('taken over from a sheet that is on the table already bring no edition', async () => {
    const { pack } = await rig()
    const [preliminary, final] = [await demoInputs(pack, 'preliminary'), await demoInputs(pack, 'final')]
    expect(fromSheet(undefined, [final])).toEqual({})
    expect(fromSheet(final, [preliminary, final])).toEqual({ takenOver: true })
    expect(fromSheet(final, [preliminary])).toEqual({ takenOver: true, sheet: final })
  })
})

describe('papers that are read', () => {
  it('leave no mark on any item, and stand in the debrief with how often', async () => {
    const flight = await rig()
    await laid('preliminary', flight)
    await flight.hear('load figures list', { by: 'typed' })
    const { listenId } = flight.state()
    for (let at = 0; at < 2; at++) await handled(flight, 'loadSheet.1', 'lookedAt')
    await handled(flight, 'trimCard', 'lookedAt')
    expect(flight.state().listenId).toBe(listenId)
    const debrief = debriefOf(flight.pack, flight.log.events)
    expect(debrief.totals.given).toBe(0)
    expect(debrief.papers.filter(({ looks }) => looks > 0)).toEqual([
      { title: 'load sheet', edition: 1, t: 0, looks: 2 },
      { title: 'trim card', edition: undefined, t: undefined, looks: 1 },
    ])
    expect(debriefLines(debrief)).toContain('0:00 load sheet, edition 1: opened 2 times')
  })

  it('stay on the pile until they are put away, and can be taken out again', async () => {
    const flight = await rig()
    await laid('preliminary', flight)
    await laid('final', flight)
    expect(pile(flight)).toContain('loadSheet.1')
    await handled(flight, 'loadSheet.1', 'putAway')
    expect(pile(flight)).not.toContain('loadSheet.1')
    expect(table(flight).away.map(({ id }) => id)).toEqual(['loadSheet.1'])
    expect(debriefOf(flight.pack, flight.log.events).papers[1]).toMatchObject({ edition: 1, putAwayAt: 0 })
    await handled(flight, 'loadSheet.1', 'takenOut')
    expect(pile(flight)).toContain('loadSheet.1')
    expect(debriefOf(flight.pack, flight.log.events).papers[1]).not.toHaveProperty('putAwayAt')
  })

  it('and notes are as they were after a reload', async () => {
    const flight = await rig()
    await laid('preliminary', flight)
    const pad = { text: 'squawk 4271', strokes: [[1, 2, 30, 40]] }
    await flight.run.happen((run) => keyPress(flight.pack, run, { type: 'pad', ...pad }, 0))
    await flight.settled()
    const again = await rig({ events: flight.log.events })
    expect(again.state().pad).toEqual(pad)
    expect(pile(again)).toEqual(pile(flight))
    expect(debriefLines(debriefOf(flight.pack, flight.log.events))).toContain('squawk 4271')
  })
})
