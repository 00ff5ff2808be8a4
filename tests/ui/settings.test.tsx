import { screen, waitFor } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { atTrim, stage } from './stage.tsx'

const DEVICE = { name: 'device', label: 'Microphone', about: 'recognised on this device', hasSecondModel: true }
const BROWSER = { name: 'browser', label: "The browser's recognition", hasSecondModel: false }
const AWAY = {
  ...BROWSER,
  about: 'may send what you say to its maker',
  away: { note: 'The browser may send what you say to its maker.', reason: 'It recognises speech elsewhere.' },
}

describe('settings', () => {
  it.each([
    ['Standard digits as ICAO or FAA say them, and your call sign', { phraseology: 'standard' }],
    ['After five misses', { coachAfter: 5 }],
    ['Never', { coachAfter: 0 }],
    ['Typing and buttons only', { ear: 'typing' }],
    ['FAA "altimeter", "hold short"', { radio: 'faa' }],
    ['Once in a run a wrong value, or your first wrong read-back called correct', { wrongHearBacks: true }],
    ['Late catch you notice; Otherseat holds back until a list would be complete', { lateCatch: true }],
    ['You challenge Otherseat answers, its side simulated; you go on or object', { roles: 'pilotChallenges' }],
    ['Your colleague reads back you call, listen to both, and object', { readBacks: 'colleague' }],
    ['Errs you object; nobody says when, and the debrief tells all', { partnerErrs: true }],
    ['Without you know where the list was', { breaks: 'without' }],
    ['Not asked for', { ownValues: false }],
    ['Clear', { radioSound: false }],
    ['Dark', { theme: 'dark' }],
    ['Push to talk only while the talk key is held', { listening: 'push' }],
    ['Headset you may answer early; logged as such', { isHeadset: true }],
  ])('"%s" holds at once', async (name, settings) => {
    const { user, store } = stage({ screen: 'settings', settings: { ...DEFAULT_SETTINGS, welcomed: true } })
    await user.click(screen.getByRole('radio', { name }))
    expect(store.getState().settings).toMatchObject(settings)
    expect(screen.getByRole('radio', { name })).toHaveProperty('checked', true)
  })

  it('of stations are there while stations have voices', async () => {
    const { user, store } = stage({ screen: 'settings', settings: { ...DEFAULT_SETTINGS, welcomed: true } })
    await user.click(screen.getByRole('radio', { name: /^Off checklists only/ }))
    expect(store.getState().settings.stations).toBe(false)
    expect(screen.queryByRole('group', { name: 'Words on the radio' })).toBeNull()
    expect(screen.queryByRole('group', { name: 'The radio' })).toBeNull()
  })

  it('offers the voices of the browser and the one that comes with the app', async () => {
    const { user, store } = stage({ screen: 'settings', voices: ['Anna', 'Bea'] })
    await user.selectOptions(screen.getByRole('combobox', { name: 'Voice' }), 'Bea')
    expect(store.getState().settings.voice).toBe('Bea')
    await user.selectOptions(screen.getByRole('combobox', { name: 'Voice' }), 'The voice that comes with Otherseat')
    expect(store.getState().settings.voice).toBe('embedded')
  })

  it('offers the browser’s recognition where there is one; choosing one that listens elsewhere allows just that', async () => {
    const { user, store } = stage({ screen: 'settings', ears: [DEVICE] })
    const options = () => screen.queryAllByRole('radio', { name: /browser's recognition/ })
    expect(options()).toHaveLength(0)
    store.setState({ ears: [DEVICE, AWAY] })
    await user.click(await screen.findByRole('radio', { name: /may send what you say to its maker/ }))
    expect(store.getState().settings).toMatchObject({ ear: 'browser', soundMayLeave: true })
    expect(screen.getByText(/What you say may leave this device/)).toBeTruthy()
    await user.click(screen.getByRole('radio', { name: /recognised on this device/ }))
    expect(store.getState().settings).toMatchObject({ ear: 'device', soundMayLeave: false })
    store.setState({ ears: [DEVICE, { ...BROWSER, about: 'on this device' }] })
    await user.click(await screen.findByRole('radio', { name: "The browser's recognition on this device" }))
    expect(store.getState().settings).toMatchObject({ ear: 'browser', soundMayLeave: false })
  })

  it.each([
    ['number of its models', { secondModel: false }],
    ['microphone', { microphone: 'a' }],
  ])('have the ear opened anew in mid-run, at the same item, where the %s changes', async (_what, changed) => {
    const { actions, ear, store } = await atTrim()
    const opened = ear.vocabularies.length
    actions.settings({ theme: 'dark' })
    actions.settings(changed)
    await waitFor(() => expect(ear.vocabularies).toHaveLength(opened + 1))
    await waitFor(() => expect(ear.listening()).toBeDefined())
    expect(store.getState().run?.floor).toMatchObject({ at: 'item', item: 'loadFigures.trim' })
  })

  it('learns a key by its being pressed; a key that had another use loses that', async () => {
    const f9 = { type: 'key', code: 'F9', label: 'F9' } as const
    const { user, store } = stage(
      { screen: 'settings' },
      { switches: { learn: async () => f9, attach: () => () => undefined } },
    )
    await user.click(screen.getByRole('button', { name: 'Choose one for talk' }))
    await waitFor(() => expect(store.getState().settings.switches.talk).toEqual(f9))
    await user.click(screen.getByRole('button', { name: 'Choose one for radio' }))
    await waitFor(() => expect(store.getState().settings.switches).toMatchObject({ talk: null, radio: f9 }))
    await user.click(screen.getByRole('button', { name: 'None for radio' }))
    expect(store.getState().settings.switches.radio).toBeNull()
  })

  it('sets the theme of the whole page', async () => {
    const { user } = stage({ screen: 'settings' })
    await user.click(screen.getByRole('radio', { name: 'Light' }))
    await waitFor(() => expect(document.documentElement.dataset.theme).toBe('light'))
  })
})

describe('the keyboard', () => {
  it('reaches every screen, and a new screen begins at its heading', async () => {
    const { user } = stage()
    screen.getByRole('button', { name: 'Settings' }).focus()
    await user.keyboard('{Enter}')
    expect(document.activeElement).toBe(screen.getByRole('heading', { level: 1, name: 'Settings' }))
    expect(screen.getByRole('button', { name: 'Settings' }).getAttribute('aria-current')).toBe('page')
  })
})
