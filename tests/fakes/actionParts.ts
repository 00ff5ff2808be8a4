/** What actions need besides store, log, voice and packs: an ear that hears nothing by itself, and a browser that grants all. */

import type { ActionParts } from '../../src/app/actions/makeActions.ts'
import { createFakeCache } from './cache.ts'
import { createFakeEar } from './ear.ts'
import { createFakeGradeShelf } from './gradeShelf.ts'
import { createFakeShelf } from './packShelf.ts'
import { fakeStarts } from './packStarts.ts'
import { createFakeRecorder, createFakeSoundPlayer, createFakeSoundShelf } from './soundShelf.ts'
import { createFakeVoice } from './voice.ts'

type Named = 'store' | 'clock' | 'log' | 'packFiles'

/** The first run is "run", the next "run 2"; packs are "own 1", "own 2". `own` goes before the fakes. */
export function fakeActionParts<Own extends Partial<ActionParts>>(own: Own & Pick<ActionParts, Named>) {
  let runs = 0
  let keys = 0
  let openHere: string | undefined
  return {
    ear: createFakeEar(own.clock.now),
    voice: createFakeVoice(),
    packShelf: createFakeShelf(),
    packStarts: fakeStarts,
    siteStorage: { room: async () => undefined, isKept: async () => undefined, keep: async () => undefined },
    soundShelf: createFakeSoundShelf(),
    soundPlayer: createFakeSoundPlayer(),
    stops: createFakeCache(),
    workedOut: createFakeCache(),
    newPackKey: () => `own ${++keys}`,
    lock: { hold: async () => true, isHeld: async () => false, release() {} },
    newRunId: () => (++runs === 1 ? 'run' : `run ${runs}`),
    newSeed: () => 7,
    saveSettings() {},
    openHere: {
      get: () => openHere,
      set(runId: string | undefined) {
        openHere = runId
      },
    },
    wakeSound: async () => {},
    switches: { learn: async () => undefined, attach: () => () => undefined },
    useMediaKeys() {},
    edition: { takeNewer: async () => true },
    roomServer: async () => {
      throw new Error('no room was asked for')
    },
    roomKept: {
      ticket: () => undefined,
      keepTicket() {},
      marks: () => [],
      keepMarks() {},
      grades: () => [],
      keepGrades() {},
    },
    noteShelf: createFakeSoundShelf(),
    noteRecorder: async () => createFakeRecorder(),
    gradeShelf: createFakeGradeShelf(),
    soundDevices: async () => ({ microphones: [], outputs: [] }),
    ...own,
  } satisfies ActionParts
}
