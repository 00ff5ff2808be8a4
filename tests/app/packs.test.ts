/** One's own packs as the app keeps them: brought in, edited, taken away and back, flown, in one tab and in two. */

import { readFile } from 'node:fs/promises'
import { describe, expect, it } from 'vitest'
import { makeActions } from '../../src/app/actions/makeActions.ts'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { createAppStore } from '../../src/app/store.ts'
import { readBundle } from '../../src/packs/files/bundle.ts'
import type { PackShelf } from '../../src/ports.ts'
import { fakeActionParts } from '../fakes/actionParts.ts'
import { createFakeLog } from '../fakes/log.ts'
import { createFakeShelf } from '../fakes/packShelf.ts'
import { offeredOf, SMALL_PACK } from '../fakes/smallPack.ts'
import { demoPack, idle } from './rig.ts'

const demo = await demoPack()
const FINAL = await readFile('checklists/marram/inputs/final.yaml', 'utf8')
const OFFERED = offeredOf(SMALL_PACK)
const withText = (path: string, text: string) => offeredOf({ ...SMALL_PACK, [path]: text })
let keys = 0

/** A tab with the demo pack as the one that came with the app. */
function tab(shelf: PackShelf = createFakeShelf(), log = createFakeLog()) {
  const clock = createVirtualClock()
  const store = createAppStore()
  const { id, name, aircraft } = demo
  const parts = fakeActionParts({
    ...{ store, clock, log },
    packFiles: {
      list: async () => [{ id, name, aircraft }],
      load: async () => ({ texts: demo.texts, sha256: demo.sha256 }),
      examples: async () => ({ final: FINAL }),
      demonstrations: async () => ({}),
    },
    packShelf: shelf,
    newPackKey: () => `own ${++keys}`,
  })
  const actions = makeActions(parts)
  const state = store.getState
  const own = () => (state().shelf.entries ?? []).filter(({ isOwn }) => isOwn)
  /** The only one. */
  const only = () => {
    const [entry, second] = own()
    if (!entry || second) throw new Error(`there are ${own().length}`)
    return entry
  }
  const kept = async () => (await shelf.all()).map(({ files }) => files)
  /** Types, and lets the moment go by after which it is saved. */
  const write = async (text: string) => {
    actions.changeFile(text)
    clock.advance(1_000)
    await actions.saveFile()
  }
  const enter = async (values: Readonly<Record<string, string | number>>) => {
    actions.draft({ status: 'final', values, loads: {} })
    await actions.enterRevision()
  }
  return { actions, state, store, own, only, kept, write, enter, clock, log, shelf }
}

const FIGURES = { fuel: 24, runway: '09' }

describe('a pack that comes in', () => {
  it('is listed with what it is, and can be flown', async () => {
    const { actions, only, state, kept } = tab()
    await actions.importPack(OFFERED)
    expect(only()).toMatchObject({
      name: 'Wren',
      version: '1.0.0',
      lists: 1,
      pack: expect.anything(),
      problems: [],
      flownAt: undefined,
    })
    expect(await kept()).toEqual([SMALL_PACK])
    expect(state().packs?.map(({ name }) => name)).toEqual(['Wren', demo.name])
    await actions.flyPack(only().key)
    expect(state()).toMatchObject({
      screen: 'figures',
      pack: { id: 'wren' },
      examples: { today: SMALL_PACK['inputs/today.yaml'] },
    })
  })

  it('with mistakes in it is kept with its problems, and not flown', async () => {
    const { actions, only, state } = tab()
    await actions.importPack(
      withText('procedures.yaml', (SMALL_PACK['procedures.yaml'] ?? '').replace('<fuel>', '<feul>')),
    )
    expect(only()).toMatchObject({
      pack: undefined,
      problems: [
        { message: expect.stringMatching(/did you mean "fuel"/), place: { file: 'procedures.yaml', line: 10 } },
      ],
    })
    await actions.flyPack(only().key)
    expect(state()).toMatchObject({ screen: 'start', pack: undefined, problems: [{ code: 'figure.unknown' }] })
  })

  it('with a mistake in an example sheet alone is flown all the same', async () => {
    const { actions, only } = tab()
    await actions.importPack(withText('inputs/today.yaml', 'status: final\nvalues: {feul: 24}\n'))
    expect(only()).toMatchObject({
      pack: expect.anything(),
      problems: [{ place: { file: 'inputs/today.yaml', line: 2 } }],
    })
  })

  it('is refused as a whole, and says why', async () => {
    const { actions, own, state, kept } = tab()
    await actions.importPack(offeredOf({ ...SMALL_PACK, '../x': 'x' }))
    expect(state().shelf.refused).toMatch(/leads out of its folder/)
    await actions.pastePack('Dear pilot,')
    expect(state().shelf.refused).toMatch(/no file of a pack/)
    expect([own(), await kept()]).toEqual([[], []])
    await actions.pastePack(SMALL_PACK['figures.yaml'] ?? '')
    expect(state().shelf.refused).toBe('')
    expect(await kept()).toEqual([{ 'figures.yaml': SMALL_PACK['figures.yaml'] }])
  })

  it('goes out as it came in, to the byte', async () => {
    const { actions, only } = tab()
    const files = { ...SMALL_PACK, 'tables.yaml': '\ufefftables: {}\r\n' }
    await actions.importPack(offeredOf(files))
    const { name, bytes } = await actions.exportPack(only().key)
    expect(name).toBe('wren.zip')
    expect(await readBundle(offeredOf({ [name]: bytes }))).toEqual({ files, label: 'wren', told: [] })
  })
})

describe('a pack with an id that is there', () => {
  const newer = withText('pack.yaml', (SMALL_PACK['pack.yaml'] ?? '').replace('1.0.0', '2.0.0'))
  async function asked() {
    const on = tab()
    await on.actions.importPack(OFFERED)
    await on.actions.importPack(newer)
    expect(on.state().shelf.asked).toMatchObject({ name: 'Wren', there: 'Wren' })
    expect(on.only().version).toBe('1.0.0')
    return on
  }

  it('takes its place, and that can be taken back', async () => {
    const { actions, only, state } = await asked()
    await actions.answerImport('replace')
    expect(only().version).toBe('2.0.0')
    expect(state().shelf).toMatchObject({ asked: undefined, undoable: 'Wren was replaced.' })
    await actions.undoPacks()
    expect(only().version).toBe('1.0.0')
    expect(state().shelf.undoable).toBe('')
  })

  it('lies beside it, or is not imported', async () => {
    const { actions, own } = await asked()
    await actions.answerImport('neither')
    expect(own()).toHaveLength(1)
    await actions.importPack(newer)
    await actions.answerImport('both')
    expect(
      own()
        .map(({ version }) => version)
        .toSorted(),
    ).toEqual(['1.0.0', '2.0.0'])
  })

  it('that came with the app lies beside that one', async () => {
    const { actions, only, state } = tab()
    await actions.importPack(offeredOf(demo.texts))
    expect(state().shelf.asked).toBeUndefined()
    await actions.flyPack(only().key)
    expect(state().chosen).toBe(only().key)
  })
})

describe('a pack of one’s own', () => {
  it('begins as a copy of one that came with the app, sheets and all', async () => {
    const { actions, only, kept } = tab()
    await actions.copyPack(demo.id)
    expect(only()).toMatchObject({ id: 'marram-2', name: `${demo.name} (copy)`, pack: expect.anything() })
    const [files = {}] = await kept()
    expect(files['inputs/final.yaml']).toBe(FINAL)
    expect({ ...files, 'pack.yaml': '' }).toMatchObject({ ...demo.texts, 'pack.yaml': '' })
  })

  it('is renamed, deleted, and brought back as it was', async () => {
    const { actions, only, own, state, kept } = tab()
    await actions.importPack(OFFERED)
    await actions.renamePack(only().key, 'Home wren')
    const before = await kept()
    await actions.deletePack(only().key)
    expect([own(), await kept(), state().shelf.undoable]).toEqual([[], [], 'Home wren was deleted.'])
    await actions.undoPacks()
    expect([only().name, await kept()]).toEqual(['Home wren', before])
  })

  it('that is deleted by a double click can be brought back all the same', async () => {
    const { actions, only, state } = tab()
    await actions.importPack(OFFERED)
    const { key } = only()
    await Promise.all([actions.deletePack(key), actions.deletePack(key)])
    expect(state().shelf.undoable).toBe('Wren was deleted.')
    await actions.undoPacks()
    expect(only().name).toBe('Wren')
  })

  it('without a figure to enter is flown all the same', async () => {
    const { actions, only, state } = tab()
    const constant = 'figures:\n  fuel: {label: fuel, kind: decimal, decimals: 0, constant: 24}\n'
    const list =
      '      - list: one\n        name: one\n        entries:\n          - {item: fuel, challenge: fuel, response: "<fuel>"}\n'
    await actions.importPack(
      offeredOf({
        'pack.yaml': SMALL_PACK['pack.yaml'] ?? '',
        'figures.yaml': constant,
        'procedures.yaml': `phases:\n  - phase: start\n    name: Start\n    activities:\n${list}`,
      }),
    )
    await actions.flyPack(only().key)
    await actions.enterRevision()
    expect(state()).toMatchObject({ screen: 'run', run: { status: 'running' } })
  })

  it('is put aside where it was chosen and has changed since, unless figures were typed for it', async () => {
    const { actions, only, state } = tab()
    await actions.importPack(OFFERED)
    const choose = async () => {
      await actions.flyPack(only().key)
      actions.show('packs')
    }
    await choose()
    await actions.renamePack(only().key, 'Home wren')
    expect([state().pack, state().chosen]).toEqual([undefined, undefined])
    await choose()
    actions.draft({ status: 'final', values: FIGURES, loads: {} })
    await actions.renamePack(only().key, 'Other wren')
    expect([state().pack?.name, state().draft.values]).toEqual(['Home wren', FIGURES])
  })

  it('says when it was last flown', async () => {
    const { actions, only, enter, clock } = tab()
    await actions.importPack(OFFERED)
    await actions.flyPack(only().key)
    await enter(FIGURES)
    await actions.readPacks()
    expect(only().flownAt).toBe(clock.now())
  })
})

describe('a file that is edited', () => {
  async function editing(path = 'procedures.yaml', files = OFFERED) {
    const shelf = createFakeShelf()
    const on = tab(shelf)
    await on.actions.importPack(files)
    await on.actions.editFile(on.only().key, path)
    return { ...on, shelf, text: () => on.state().shelf.editing?.text ?? '' }
  }
  const wrong = (text: string) => text.replace('<fuel>', '<feul>')

  it('is saved a moment after the last key, and checked', async () => {
    const { actions, only, text, clock, kept, state } = await editing()
    const changed = wrong(text())
    actions.changeFile(changed)
    expect(state().shelf.editing).toMatchObject({ text: changed, isSaved: false })
    expect((await kept())[0]?.['procedures.yaml']).toBe(SMALL_PACK['procedures.yaml'])
    clock.advance(1_000)
    await actions.saveFile()
    expect((await kept())[0]?.['procedures.yaml']).toBe(changed)
    expect(only()).toMatchObject({ pack: undefined, problems: [{ place: { line: 10 } }] })
    expect(state().shelf.editing?.isSaved).toBe(true)
  })

  it('keeps its line ends, and where it is emptied is no part of the pack', async () => {
    const windows = (SMALL_PACK['procedures.yaml'] ?? '').replace(/\n/g, '\r\n')
    const { write, text, kept } = await editing('procedures.yaml', withText('procedures.yaml', windows))
    expect(text()).not.toContain('\r')
    await write(text().replace('One list', 'Only one list'))
    expect((await kept())[0]?.['procedures.yaml']).toBe(windows.replace('One list', 'Only one list'))
    await write('')
    expect(Object.keys((await kept())[0] ?? {})).not.toContain('procedures.yaml')
  })

  it('is saved before another is opened, and when it is closed', async () => {
    const { actions, only, text, kept, state } = await editing()
    actions.changeFile(wrong(text()))
    await actions.editFile(only().key, 'tables.yaml')
    expect((await kept())[0]?.['procedures.yaml']).toContain('<feul>')
    expect(state().shelf.editing).toMatchObject({ path: 'tables.yaml', text: '' })
    actions.changeFile('tables: {}\n')
    await actions.closeFile()
    expect((await kept())[0]?.['tables.yaml']).toBe('tables: {}\n')
    expect(state().shelf.editing).toBeUndefined()
  })

  it('shows what another tab makes of it', async () => {
    const { only, text, shelf } = await editing()
    const other = tab(shelf.tab())
    await other.actions.editFile(only().key, 'procedures.yaml')
    await other.write('phases: []\n')
    await idle()
    expect(text()).toBe('phases: []\n')
  })

  it('is not written over another tab’s, nor by it: the person says which it is to be', async () => {
    const { actions, only, text, shelf, state, kept } = await editing()
    const other = tab(shelf.tab())
    const clash = async () => {
      await other.actions.editFile(only().key, 'procedures.yaml')
      actions.changeFile('# mine\n')
      await other.write('# theirs\n')
      await actions.saveFile()
      expect(state().shelf.editing).toMatchObject({ text: '# mine\n', isSaved: false, elsewhere: 'changed' })
      expect((await kept())[0]?.['procedures.yaml']).toBe('# theirs\n')
    }
    await clash()
    // Neither another file nor the list takes it away unsaved.
    await actions.editFile(only().key, 'pack.yaml')
    await actions.closeFile()
    expect(text()).toBe('# mine\n')
    await actions.settleFile('mine')
    expect((await kept())[0]?.['procedures.yaml']).toBe('# mine\n')
    await other.actions.editFile(only().key, 'procedures.yaml')
    await other.write('phases: []\n')
    await idle()
    await clash()
    await actions.settleFile('theirs')
    expect([text(), state().shelf.editing?.isSaved]).toEqual(['# theirs\n', true])
  })

  it('of a pack that another tab has deleted is kept, if wanted', async () => {
    const { actions, only, shelf, state, kept } = await editing()
    const other = tab(shelf.tab())
    actions.changeFile('# mine\n')
    await other.actions.deletePack(only().key)
    await idle()
    expect(state().shelf.editing?.elsewhere).toBe('deleted')
    await actions.settleFile('mine')
    expect(await kept()).toEqual([{ ...SMALL_PACK, 'procedures.yaml': '# mine\n' }])
    // What the other tab takes back lies beside it.
    await other.actions.undoPacks()
    expect(await kept()).toHaveLength(2)
  })
})

describe('where nothing can be stored', () => {
  it('that is said once, and the pack is edited and flown in this visit', async () => {
    const shelf = createFakeShelf()
    shelf.refuse('The browser has no room left for your packs.')
    const { actions, only, own, state, write, kept } = tab(shelf)
    await actions.importPack(OFFERED)
    expect(state().shelf.unkept).toBe('The browser has no room left for your packs.')
    await actions.editFile(only().key, 'pack.yaml')
    await write((SMALL_PACK['pack.yaml'] ?? '').replace('1.0.0', '1.1.0'))
    await actions.flyPack(only().key)
    expect(state()).toMatchObject({ screen: 'figures', pack: { version: '1.1.0' } })
    expect(await kept()).toEqual([])
    shelf.refuse('')
    await actions.renamePack(only().key, 'Kept wren')
    expect([state().shelf.unkept, (await kept()).length]).toEqual(['', 1])
    await actions.deletePack(only().key)
    expect(own()).toEqual([])
  })
})

describe('a run', () => {
  it('keeps its pack to its end, though it was changed and deleted meanwhile, also after a reload', async () => {
    const [shelf, log] = [createFakeShelf(), createFakeLog()]
    const before = tab(shelf, log)
    await before.actions.importPack(OFFERED)
    const { key } = before.only()
    await before.actions.flyPack(key)
    const flown = before.state().pack
    await before.enter(FIGURES)
    await before.actions.editFile(key, 'procedures.yaml')
    await before.write('phases: []\n')
    await before.actions.flyPack(key)
    expect(before.state().pack).toBe(flown)
    await before.actions.deletePack(key)
    before.actions.press({ type: 'command', command: 'standBy' })
    await idle()
    expect(before.state().run?.status).toBe('running')

    const after = tab(shelf, log)
    await after.actions.resumeRun('run')
    expect(after.state()).toMatchObject({ screen: 'run', run: { status: 'running' } })
    expect(after.state().pack).toEqual(flown)
    expect(log.events[0]).toMatchObject({ pack: { id: 'wren', sha256: flown?.sha256, texts: flown?.texts } })
    expect(flown?.texts).toEqual(Object.fromEntries(Object.entries(SMALL_PACK).filter(([path]) => !path.includes('/'))))
  })

  it('has the sheets of its edition after a reload, where that is there still', async () => {
    const [shelf, log] = [createFakeShelf(), createFakeLog()]
    const before = tab(shelf, log)
    await before.actions.importPack(OFFERED)
    await before.actions.flyPack(before.only().key)
    await before.enter(FIGURES)
    const after = tab(shelf, log)
    await after.actions.resumeRun('run')
    expect(after.state().examples).toEqual({ today: SMALL_PACK['inputs/today.yaml'] })
  })
})
