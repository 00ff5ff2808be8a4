/** The sound of what was said, as a person meets it: the setting, what it takes, and hearing it again in the debrief. */

import { screen, waitFor, within } from '@testing-library/preact'
import { beforeAll, describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { asRun, keptIn, spokenRun } from '../app/runs/flownRuns.ts'
import { createFakeLog } from '../fakes/log.ts'
import { createFakeSoundPlayer, createFakeSoundShelf } from '../fakes/soundShelf.ts'
import { flying, INPUTS, stage } from './stage.tsx'

const KEEPS = { ...DEFAULT_SETTINGS, welcomed: true, stations: false, ownValues: false, keepsSound: true }

let flown: readonly RunEvent[]
beforeAll(async () => {
  flown = await spokenRun()
})

const seqOf = (text: string) => flown.find((event) => 'evidence' in event && event.evidence.text === text)?.seq ?? -1
const WRONG = 'four point eight up'
const RIGHT = 'four point three up'

/** The debrief of a run that is over, of which these words were kept. */
async function debriefed(texts: readonly string[], mayPlay = true) {
  const [log, soundShelf, soundPlayer] = [createFakeLog(), createFakeSoundShelf(), createFakeSoundPlayer(mayPlay)]
  await keptIn(log, asRun(flown, 'january', 5))
  await soundShelf.put('january', new Map(texts.map((text) => [seqOf(text), Int16Array.of(seqOf(text))])))
  const on = stage({ screen: 'runs' }, { log, soundShelf, soundPlayer })
  await on.actions.openRun('january')
  await screen.findByRole('heading', { level: 1, name: 'Not all lists are complete' })
  return { ...on, log, soundShelf, soundPlayer }
}

const buttons = (text: string) => screen.queryAllByRole('button', { name: `Hear it: “${text}”` })

describe('in the debrief', () => {
  it('what was kept is heard where it stands: among the things to take away, and at its try', async () => {
    const { user, soundPlayer } = await debriefed([WRONG, RIGHT])
    await waitFor(() => expect([buttons(WRONG).length, buttons(RIGHT).length]).toEqual([2, 1]))
    const first = screen.getByRole('region', { name: 'To take away' })
    await user.click(within(first).getByRole('button', { name: `Hear it: “${WRONG}”` }))
    const played = () => soundPlayer.played.map((samples) => [...samples])
    expect(played()).toEqual([[seqOf(WRONG)]])
    const list = screen.getByRole('region', { name: 'List load figures' })
    await user.click(within(list).getByRole('button', { name: `Hear it: “${RIGHT}”` }))
    expect(played().at(-1)).toEqual([seqOf(RIGHT)])
  })

  it('is stopped by the same button, and by its end', async () => {
    const { user, soundPlayer, store } = await debriefed([RIGHT])
    await user.click((await screen.findAllByRole('button', { name: /^Hear it/ }))[0] as HTMLElement)
    await user.click(await screen.findByRole('button', { name: `Stop: “${RIGHT}”` }))
    expect(store.getState().sounds.playing).toBeUndefined()
    await user.click(await screen.findByRole('button', { name: `Hear it: “${RIGHT}”` }))
    await screen.findByRole('button', { name: /^Stop/ })
    soundPlayer.end()
    await screen.findByRole('button', { name: `Hear it: “${RIGHT}”` })
    expect(soundPlayer.played).toHaveLength(2)
  })

  it('stops what is heard where another is asked for, a replay begins, or the screen is left', async () => {
    const { user, actions, store } = await debriefed([WRONG, RIGHT])
    await waitFor(() => expect(buttons(RIGHT)).toHaveLength(1))
    void actions.hearSound(seqOf(WRONG))
    await waitFor(() => expect(store.getState().sounds.playing).toBe(seqOf(WRONG)))
    await user.click(buttons(RIGHT)[0] as HTMLElement)
    expect(store.getState().sounds.playing).toBe(seqOf(RIGHT))
    await actions.replay()
    expect(store.getState().sounds.playing).toBeUndefined()
    void actions.hearSound(seqOf(RIGHT))
    await waitFor(() => expect(store.getState().sounds.playing).toBe(seqOf(RIGHT)))
    expect(store.getState().replay?.isPlaying).toBe(false)
    actions.show('start')
    await waitFor(() => expect(store.getState().sounds.playing).toBeUndefined())
  })

  it('offers nothing where nothing was kept', async () => {
    await debriefed([])
    expect(screen.queryByRole('button', { name: /^Hear it/ })).toBeNull()
  })

  it('says so where the browser lets nothing sound, and where the sound is gone', async () => {
    const refused = await debriefed([RIGHT], false)
    await refused.user.click(await screen.findByRole('button', { name: `Hear it: “${RIGHT}”` }))
    await screen.findByText('The browser does not let this page play sound.')
    refused.soundShelf.kept.clear()
    await refused.user.click(screen.getByRole('button', { name: `Hear it: “${RIGHT}”` }))
    await screen.findByText('This sound is not there any more.')
  })

  it('of a run that is on plays nothing, which the ear would hear', async () => {
    const flight = await flying({ settings: KEEPS })
    flight.ear.sounds(Int16Array.of(1, 2))
    flight.ear.hear('load figures list')
    await screen.findByRole('heading', { level: 1, name: 'zero fuel weight' })
    flight.clock.advance(5_000)
    flight.ear.sounds(Int16Array.of(3, 4))
    flight.ear.hear('two four three six one')
    await waitFor(() => expect(flight.log.events.at(-1)?.type).toBe('answered'))
    await flight.user.click(screen.getByRole('button', { name: 'Debrief' }))
    await screen.findByText('“two four three six one”')
    const seq = flight.log.events.at(-1)?.seq ?? -1
    await waitFor(() => expect(flight.store.getState().sounds.there.get(seq)).toBe(seq))
    // Shown anew, with what has been looked up.
    flight.actions.show('settings')
    await screen.findByRole('heading', { level: 1, name: 'Settings' })
    flight.actions.show('debrief')
    await screen.findByText('“two four three six one”')
    expect(screen.queryByRole('button', { name: /^Hear it/ })).toBeNull()
    void flight.actions.hearSound(seq)
    await flight.user.click(screen.getByRole('button', { name: 'End the run' }))
    await flight.user.click(screen.getByRole('button', { name: 'End it now' }))
    expect((await screen.findAllByRole('button', { name: /^Hear it: “two four three six one”/ })).length).toBe(2)
    expect(flight.store.getState().sounds.playing).toBeUndefined()
  })
})

describe('a run that is deleted', () => {
  it('takes its sound with it, and brings it back', async () => {
    const { user, actions, soundShelf } = await debriefed([WRONG, RIGHT])
    actions.show('runs')
    const before = structuredClone(soundShelf.kept.get('january'))
    await user.click(await screen.findByRole('button', { name: /^Delete .*5 Jan 2026/ }))
    await waitFor(() => expect(soundShelf.kept.has('january')).toBe(false))
    await user.click(await screen.findByRole('button', { name: 'Undo' }))
    await waitFor(() => expect(soundShelf.kept.get('january')).toEqual(before))
  })

  it('comes back without the sound where all sound was deleted meanwhile', async () => {
    const { user, actions, log, soundShelf } = await debriefed([WRONG])
    await actions.deleteRun('january')
    await actions.deleteSounds()
    actions.show('runs')
    await user.click(await screen.findByRole('button', { name: 'Undo' }))
    await waitFor(async () => expect(await log.read('january')).not.toEqual([]))
    expect(soundShelf.kept.size).toBe(0)
  })

  it('says so where its sound could not be deleted', async () => {
    const { actions, soundShelf } = await debriefed([WRONG])
    soundShelf.refuse('The disk is broken.')
    actions.show('runs')
    await actions.deleteRun('january')
    await screen.findByText('The sound of the deleted run is still there: The disk is broken.')
  })
})

describe('in the settings', () => {
  it('is off until it is chosen, and says what is kept', async () => {
    const soundShelf = createFakeSoundShelf()
    for (const run of ['a', 'b', 'c']) await soundShelf.put(run, new Map([[1, new Int16Array(2_000_000)]]))
    const { user, store } = stage({ screen: 'settings', settings: { ...KEEPS, keepsSound: false } }, { soundShelf })
    const choice = screen.getByRole('group', { name: 'Keep the sound of what you say' })
    expect(within(choice).getByRole('radio', { name: 'Not kept' })).toHaveProperty('checked', true)
    await user.click(within(choice).getByRole('radio', { name: 'Kept on this device, with the run' }))
    expect(store.getState().settings.keepsSound).toBe(true)
    await screen.findByText('12 MB in 3 runs')
  })

  it('deletes all of it once that was asked, and the runs stay', async () => {
    const { user, actions, soundShelf, log } = await debriefed([WRONG, RIGHT])
    actions.show('settings')
    await screen.findByText('1 kB in 1 run')
    await user.click(screen.getByRole('button', { name: 'Delete all kept sound' }))
    await waitFor(() => expect(document.activeElement?.textContent).toBe('Keep it'))
    await user.click(screen.getByRole('button', { name: 'Keep it' }))
    expect(soundShelf.kept.size).toBe(1)
    await user.click(screen.getByRole('button', { name: 'Delete all kept sound' }))
    await user.click(screen.getByRole('button', { name: 'Delete it now' }))
    await waitFor(() => expect(screen.queryByText('1 kB in 1 run')).toBeNull())
    expect(soundShelf.kept.size).toBe(0)
    expect(await log.read('january')).not.toEqual([])
    await actions.openRun('january')
    await screen.findByRole('heading', { level: 1, name: 'Not all lists are complete' })
    expect(screen.queryByRole('button', { name: /^Hear it/ })).toBeNull()
  })

  it('says where the ear that is chosen has no sound to give', async () => {
    const [device, browser] = [
      { name: 'device', label: 'Microphone', about: '', hasSecondModel: true, givesSound: true as const },
      { name: 'browser', label: 'The browser', about: '', hasSecondModel: false },
    ]
    const { store } = stage({ screen: 'settings', ears: [device, browser], settings: KEEPS })
    expect(screen.queryByText(/gives no sound to keep/)).toBeNull()
    for (const ear of ['browser', 'typing']) {
      store.setState({ settings: { ...KEEPS, ear } })
      await screen.findByText(/gives no sound to keep/)
    }
  })

  it('says that it could not be deleted', async () => {
    const { user, actions, soundShelf } = await debriefed([WRONG])
    actions.show('settings')
    await user.click(await screen.findByRole('button', { name: 'Delete all kept sound' }))
    soundShelf.refuse('The disk is broken.')
    await user.click(screen.getByRole('button', { name: 'Delete it now' }))
    await screen.findByText(/The disk is broken\./)
    expect(soundShelf.kept.size).toBe(1)
  })
})

describe('in a run', () => {
  it('a sound that cannot be kept is told in a line that can be put away, and the run goes on', async () => {
    const soundShelf = createFakeSoundShelf()
    soundShelf.refuse('The disk is full.')
    const { ear, user, actions, log } = stage({ settings: KEEPS }, { soundShelf })
    actions.draft(INPUTS.preliminary)
    await actions.enterRevision()
    await screen.findByRole('heading', { level: 1, name: 'Figures flow' })
    ear.sounds(Int16Array.of(1))
    ear.hear('load figures list')
    await screen.findByRole('heading', { level: 1, name: 'zero fuel weight' })
    await screen.findByText(/The sound of what you say is not kept: The disk is full\./)
    expect(log.events.some(({ type }) => type === 'stopped')).toBe(false)
    await user.click(screen.getByRole('button', { name: /^Put away/ }))
    await waitFor(() => expect(screen.queryByText(/The disk is full/)).toBeNull())
  })
})

describe('saving the run', () => {
  it('hands out its sound, and says so where that cannot be read', async () => {
    const { actions, soundShelf, store } = await debriefed([WRONG])
    const whole = await actions.saveRun('january', 'zip')
    expect(new TextDecoder('latin1').decode(whole?.content as Uint8Array)).toContain(
      `/sound/${String(seqOf(WRONG)).padStart(5, '0')}.wav`,
    )
    soundShelf.refuse('The disk is broken.')
    const silent = await actions.saveRun('january', 'zip')
    expect(new TextDecoder('latin1').decode(silent?.content as Uint8Array)).not.toContain('.wav')
    expect(store.getState().runs.wrong).toEqual(['The sound of the run could not be read; the file has the rest.'])
  })
})
