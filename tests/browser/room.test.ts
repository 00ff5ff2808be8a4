/** A trainee's page and an instructor's, with a real server between them: cut off, killed and reloaded, both end up the same. */

import { readFile } from 'node:fs/promises'
import { unzipSync } from 'fflate'
import type { WebSocketRoute } from 'playwright-core'
import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import { goOnFlown } from './flown.ts'
import { openPage, type TestPage } from './page.ts'
import { type Pilot, pilotAt } from './pilot.ts'
import { type RoomProcess, startRoom } from './roomProcess.ts'
import { until } from './until.ts'

const PATIENCE_MS = 30_000

let server: RoomProcess
let trainee: TestPage
let instructor: TestPage
let pilot: Pilot
/** Cuts the trainee's link, and lets it be made again. */
let link: { cut(): Promise<void>; mend(): void }

beforeAll(async () => {
  server = await startRoom(inject('site'))
  trainee = await openPage({ address: server.address, microphone: 'refused' })
  link = await cuttable(trainee)
  pilot = pilotAt(trainee)
  await goOnFlown(trainee, ['load figures list'], {})
})
afterAll(async () => {
  await trainee.close()
  await instructor?.close()
  await server.close()
})

async function cuttable({ context }: TestPage) {
  let isCut = false
  const open = new Set<WebSocketRoute>()
  await context.routeWebSocket(/\/room\/link/, (socket) => {
    if (isCut) {
      void socket.close()
      return
    }
    open.add(socket)
    socket.connectToServer()
  })
  return {
    async cut() {
      isCut = true
      for (const socket of open) await socket.close()
      open.clear()
    },
    mend() {
      isCut = false
    },
  }
}

/** What the instructor's page has of the run, as it would save it. */
async function seen(): Promise<{ events: Record<string, unknown>[]; marks: string }> {
  const waiting = instructor.page.waitForEvent('download')
  await instructor.page.getByRole('button', { name: 'Save the run with its marks' }).click()
  const files = unzipSync(await readFile(await (await waiting).path()))
  const text = (ending: string) => {
    const name = Object.keys(files).find((one) => one.endsWith(ending)) ?? ''
    return new TextDecoder().decode(files[name])
  }
  const lines = text('log.jsonl').trim().split('\n')
  return { events: lines.map((line) => JSON.parse(line)), marks: text('marks.csv') }
}

const same = () =>
  until(async () => {
    const [theirs, own] = [(await seen()).events, await pilot.events()]
    return JSON.stringify(theirs) === JSON.stringify(own)
  }, PATIENCE_MS)

const ofType = async (type: string) => (await pilot.events()).filter((event) => event.type === type)

test('a page without a room asks for nothing of it', async () => {
  expect(trainee.requests.filter((url) => /room/i.test(url))).toEqual([])
})

test('the trainee opens a room, and the instructor comes in by its link and sees the run', async () => {
  const { page } = trainee
  await page.getByRole('button', { name: 'Room', exact: true }).click()
  await page.getByRole('button', { name: 'Open a room' }).click()
  await page.getByText('Linked').waitFor()
  const code = (await page.locator('.code-large').textContent()) ?? ''
  expect(code).not.toBe(server.code())
  expect(await page.getByRole('img', { name: /QR code/ }).count()).toBe(1)
  instructor = await openPage({ address: `${server.address}#room/${code.replace(' ', '')}`, microphone: 'refused' })
  await instructor.page.getByRole('radio', { name: /Instructor/ }).check()
  await instructor.page.getByLabel(/^Name/).fill('Rook')
  await instructor.page.getByRole('button', { name: 'Join', exact: true }).click()
  await instructor.page.getByText(/Right would be/).waitFor()
  expect((await instructor.page.locator('.seen-headline').textContent())?.toLowerCase()).toContain('zero fuel weight')
  await page.getByRole('button', { name: 'Run', exact: true }).click()
  await pilot.type('two four three six one')
  await instructor.page
    .getByText(/Not correct|wrong/i)
    .first()
    .waitFor()
})

test('what the instructor has happen happens in the run, once, and a mark has its place', async () => {
  await instructor.page.getByRole('button', { name: 'The cabin calls' }).click()
  await until(async () => (await ofType('injected')).length === 1, PATIENCE_MS)
  await instructor.page.getByText(/happened at/).waitFor()
  await pilot.type('go ahead')
  await instructor.page.keyboard.press('l')
  await instructor.page.getByRole('list', { name: 'Marks of this run' }).getByText('late').waitFor()
})

test('the instructor grades what was seen, and is told where there is no microphone for a note', async () => {
  const { page } = instructor
  await page.getByText('Grade a competency').click()
  await page.getByRole('button', { name: /^Seen\s*: Gives each answer/ }).click()
  await page.getByRole('radio', { name: /^3/ }).check()
  await page.getByRole('button', { name: 'Give this grade' }).click()
  await page.getByRole('list', { name: 'Grades of this run' }).getByText('Application of procedures').waitFor()
  await page.keyboard.press('v')
  await page.getByText('The microphone is not allowed').waitFor()
})

test('cut off in the middle of an item both go on, and are the same afterwards', async () => {
  await link.cut()
  await pilot.type('two four three six zero')
  await instructor.page.keyboard.press('g')
  await instructor.page.getByRole('button', { name: /The ear hears nothing/ }).click()
  await pilot.type('say again')
  expect(await ofType('injected')).toHaveLength(1)
  link.mend()
  await until(async () => (await ofType('injected')).length === 2, PATIENCE_MS)
  await same()
})

test('the server killed and started again has lost nothing, and doubles nothing', async () => {
  await server.kill()
  await pilot.type('say again')
  await instructor.page.keyboard.press('t')
  await pilot.type('where are we')
  await server.start()
  await same()
  expect((await seen()).marks.match(/"(late|good catch|look at this)"/g)).toHaveLength(3)
})

test('the trainee’s page reloaded goes on in the room, and no order is followed again', async () => {
  await trainee.page.reload()
  await trainee.page.getByRole('button', { name: 'Press any key to resume' }).waitFor()
  await trainee.page.keyboard.press('Space')
  await trainee.page.getByRole('region', { name: 'What was heard' }).waitFor()
  await pilot.type('say again')
  await same()
  const seqs = (await pilot.events()).map(({ seq }) => seq)
  expect(new Set(seqs).size).toBe(seqs.length)
  expect(await ofType('injected')).toHaveLength(2)
})

test('marks and grades stand in the trainee’s debrief once they are shown, with what the instructor had happen', async () => {
  const { page } = trainee
  await pilot.show('Debrief')
  expect(await page.getByText('Marked by the instructor').count()).toBe(0)
  await page.getByRole('button', { name: 'End the run' }).click()
  await page.getByRole('button', { name: 'End it now' }).click()
  await instructor.page.getByRole('button', { name: /Show them in the trainee/ }).click()
  await page.getByText('Marked by the instructor').waitFor()
  await page.getByRole('list', { name: 'Grades by the instructor' }).getByText('Gives each answer in full').waitFor()
  await page.getByText('What the instructor had happen').click()
  await page.getByText(/Rook: a call from the cabin, at zero fuel weight/i).waitFor()
  expect(trainee.foreign()).toEqual([])
  expect(instructor.foreign()).toEqual([])
  expect(server.lines().filter((line) => /refused|failed/.test(line))).toEqual([])
})
