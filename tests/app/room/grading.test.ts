/** What an instructor makes of a run in a room: marks, grades and voice notes, on the desk, in the file, and nowhere else. */

import { strFromU8, unzipSync } from 'fflate'
import { describe, expect, it, vi } from 'vitest'
import { createVirtualClock } from '../../../src/app/rehearsal/virtualClock.ts'
import { noteNumber } from '../../../src/app/room/notesState.ts'
import { roomActions } from '../../../src/app/room/roomActions.ts'
import { share } from '../../../src/app/room/sharing.ts'
import { samplesIn } from '../../../src/app/sound/wav.ts'
import { createAppStore } from '../../../src/app/store.ts'
import type { NoteRecorder, RoomServer } from '../../../src/ports.ts'
import type { RoomGrade } from '../../../src/room/entries.ts'
import type { Ticket } from '../../../src/room/http.ts'
import { createFakeRoom } from '../../fakes/roomDocuments.ts'
import { createFakeRecorder, createFakeSoundPlayer, createFakeSoundShelf } from '../../fakes/soundShelf.ts'
import { rig } from '../rig.ts'

const TICKET: Ticket = {
  ...{ room: 'r', code: 'AAAAAA', role: 'instructor', seat: 'i', name: 'Rook', token: 't', codeUntil: 0, until: 0 },
}

/** An instructor at the desk of a run that has just come to its first list. */
async function desk(recorder: NoteRecorder = createFakeRecorder()) {
  const room = createFakeRoom()
  const flight = await rig()
  share({ ...flight, documents: room.documents(), seat: 'a', session: () => flight.run, marked: () => {} })
  room.entries('seats').add('a', JSON.stringify({ name: 'Wren', joinedAt: 0 }))
  await flight.hear('load figures list', { by: 'typed' })
  const store = createAppStore()
  const clock = createVirtualClock()
  const [noteShelf, soundPlayer] = [createFakeSoundShelf(), createFakeSoundPlayer()]
  const close = vi.fn(async () => ({ closed: true }) as const)
  let ids = 0
  const actions = roomActions({
    ...{ store, clock, noteShelf, soundPlayer, session: () => undefined, newId: () => `id${++ids}` },
    noteRecorder: async () => recorder,
    roomServer: async () =>
      ({ join: async () => TICKET, close, link: () => room.documents() }) as unknown as RoomServer,
    roomKept: {
      ...{ ticket: () => undefined, keepTicket() {} },
      ...{ marks: () => [], keepMarks() {}, grades: () => [], keepGrades() {} },
    },
  })
  await actions.joinRoom({ code: 'AAAAAA', role: 'instructor', name: 'Rook' })
  await vi.waitFor(() => expect(store.getState().room?.watched[0]?.store.getState().run?.floor.at).toBe('item'))
  const state = () => store.getState()
  const sent = () => [...room.entries('desk').all().keys()].map((key) => room.entries('desk').all().get(key) ?? '')
  const saved = async (withNotes: boolean) => {
    const file = await actions.saveMarkedRun(withNotes)
    const files = Object.entries(unzipSync(file?.content as Uint8Array))
    return new Map(files.map(([path, bytes]) => [path.replace(/^[^/]*\//, ''), bytes] as const))
  }
  const end = async () => {
    await flight.run.happen({ type: 'ended' })
    await vi.waitFor(() => expect(store.getState().room?.watched[0]?.store.getState().run?.status).toBe('ended'))
  }
  return { end, actions, state, clock, room, sent, saved, noteShelf, soundPlayer, close }
}

const GIVEN = { competency: 'COM', grade: 2, seen: ['Reads back all elements of a clearance'], notSeen: [] } as const

describe('a grade', () => {
  it('goes to the desk with the words of its step, and into the saved run as a table and for another instructor', async () => {
    const { actions, state, saved, end } = await desk()
    actions.gradeSeen({ ...GRADE_PART, ...GIVEN })
    const [grade] = state().room?.grades ?? []
    expect(grade).toMatchObject({
      ...{
        by: 'Rook',
        runId: 'run',
        seat: 'a',
        competency: 'COM',
        name: 'Communication',
        grade: 2,
        part: 'Before start',
      },
      step: 'below standard: it held with help or luck',
    } satisfies Partial<RoomGrade>)
    const files = await saved(false)
    expect(strFromU8(files.get('grades.csv') ?? new Uint8Array())).toMatch(/"COM","Communication","Before start",2,/)
    const sheet = JSON.parse(strFromU8(files.get('grades.json') ?? new Uint8Array()))
    expect(sheet).toMatchObject({ form: 'otherseat-grades', v: 1, runId: 'run', by: 'Rook' })
    expect(sheet.grades).toHaveLength(1)
    // The run goes on, and so may the grading.
    expect(sheet.finishedAt).toBeUndefined()
    await end()
    const over = JSON.parse(strFromU8((await saved(false)).get('grades.json') ?? new Uint8Array()))
    expect(over.finishedAt).toBeDefined()
  })

  it('of a competency that the list does not have is none', async () => {
    const { actions, state } = await desk()
    actions.gradeSeen({ ...GRADE_PART, ...GIVEN, competency: 'XXX' })
    expect(state().room?.grades).toEqual([])
  })
})

const GRADE_PART = { part: 'Before start' }

describe('a voice note', () => {
  it('is begun and ended by one key, marks the moment, and is heard again', async () => {
    const { actions, state, soundPlayer } = await desk()
    await actions.recordNote()
    expect(state().notes.recording?.since).toBeDefined()
    await actions.recordNote()
    const [mark] = state().room?.marks ?? []
    expect(mark?.words).toBe('to talk about')
    expect(state().notes.there.size).toBe(1)
    expect(state().notes.size).toEqual({ bytes: 6, runs: 1 })
    if (mark) void actions.playNote(mark)
    await vi.waitFor(() => expect(soundPlayer.played.map((samples) => [...samples])).toEqual([[1, 2, 3]]))
    soundPlayer.end()
  })

  it('may be put on a mark that is there', async () => {
    const { actions, state, noteShelf } = await desk()
    actions.markMoment('late')
    const [mark] = state().room?.marks ?? []
    await actions.recordNote(mark)
    await actions.recordNote()
    expect(state().room?.marks).toHaveLength(1)
    expect([...(noteShelf.kept.get('run')?.keys() ?? [])]).toEqual([noteNumber(mark ?? { given: '' })])
  })

  it('ends by itself after half a minute, and holds no more', async () => {
    const { actions, state, clock, noteShelf } = await desk(createFakeRecorder(new Int16Array(40 * 16_000)))
    await actions.recordNote()
    clock.advance(29_999)
    expect(state().notes.recording).toBeDefined()
    clock.advance(1)
    await vi.waitFor(() => expect(state().notes.there.size).toBe(1))
    expect([...(noteShelf.kept.get('run')?.values() ?? [])][0]).toHaveLength(30 * 16_000)
  })

  it('goes over no link, and into the file only where that is wanted', async () => {
    const { actions, clock, sent, saved, state } = await desk()
    await actions.recordNote()
    await actions.recordNote()
    clock.advance(1)
    actions.markMoment('late')
    for (const text of sent()) expect(Object.keys(JSON.parse(text))).not.toContain('note')
    expect(sent()).toHaveLength(2)
    expect([...(await saved(false)).keys()]).toEqual(['log.jsonl', 'marks.csv'])
    const files = await saved(true)
    expect([...files.keys()]).toEqual(['log.jsonl', 'marks.csv', 'notes/01.wav'])
    expect([...(samplesIn(files.get('notes/01.wav') ?? new Uint8Array()) ?? [])]).toEqual([1, 2, 3])
    expect(strFromU8(files.get('marks.csv') ?? new Uint8Array()).match(/notes\/01\.wav/g)).toHaveLength(1)
    expect(state().notes.wrong).toBe('')
  })

  it('says why where there is no microphone, and what is lost with it', async () => {
    const refused = await desk(createFakeRecorder(undefined, 'The microphone is not allowed.'))
    await refused.actions.recordNote()
    expect(refused.state().notes).toMatchObject({ recording: undefined, wrong: 'The microphone is not allowed.' })
    const recorder = createFakeRecorder()
    const lost = await desk(recorder)
    await lost.actions.recordNote()
    recorder.lose('The microphone is gone.')
    await vi.waitFor(() => expect(lost.state().notes.there.size).toBe(1))
    expect(lost.state().notes).toMatchObject({ recording: undefined, wrong: 'The microphone is gone.' })
    const empty = await desk(createFakeRecorder(new Int16Array()))
    await empty.actions.recordNote()
    await empty.actions.recordNote()
    expect(empty.state().notes.wrong).toMatch(/Nothing was recorded/)
  })

  it('says why it is not kept', async () => {
    const { actions, state, noteShelf } = await desk()
    noteShelf.refuse('The browser has no room left.')
    await actions.recordNote()
    await actions.recordNote()
    expect(state().notes.there.size).toBe(0)
    expect(state().notes.wrong).toMatch(/no room left/)
  })

  it('is deleted with the room, and with all others at once', async () => {
    const { actions, clock, noteShelf, close } = await desk()
    await noteShelf.put('another', new Map([[1, Int16Array.of(1)]]))
    await actions.recordNote()
    await actions.recordNote()
    clock.advance(1)
    await actions.recordNote()
    await actions.closeRoom()
    expect(close).toHaveBeenCalled()
    expect([...noteShelf.kept.keys()]).toEqual(['another'])
    await actions.deleteNotes()
    expect(noteShelf.kept.size).toBe(0)
  })
})
