/**
 * A whole departure by voice in headless Chromium, every line spoken, no value typed: `npx tsx tests/flight/fly.ts marram
 * faa own`. Speaks with flite's voices (`flite` has to be installed); a line is said again in another voice where the page
 * did not take it as typing would have been, and typed after the fifth saying. Prints what became of each line.
 */

import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { replayed } from '../../src/app/run/storedRun.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { openPage } from '../browser/page.ts'
import { pilotAt } from '../browser/pilot.ts'
import { serveSite } from '../browser/site.ts'
import { marramLines, type Radio, type Stand, twinLines } from './lines.ts'
import { type Departure, rehearsed } from './rehearsed.ts'

const [packName = 'marram', radio = 'icao', stand = 'push'] = process.argv.slice(2) as [Departure['pack'], Radio, Stand]
const VOICES = ['slt', 'rms', 'awb', 'kal16']
const SAYINGS = 5
const LISTEN_MS = 150_000
const UNHEARD_MS = 20_000
/** So many lines in a row that do not come about as in Node: the two are no longer at the same place. */
const MOST_LOST = 2

const isTwin = packName === 'pair'
const departure: Departure = {
  pack: packName,
  radio,
  ...(!isTwin && { stand }),
  sheet: `tests/cli/answers/${isTwin ? 'pairTalk' : 'talk'}.yaml`,
  lines: isTwin ? twinLines(radio) : marramLines(radio, stand),
}

const folder = mkdtempSync(join(tmpdir(), 'flight-'))
function sound(text: string, voice: string): Uint8Array {
  const file = join(folder, 'said.wav')
  // Words as a synthesiser without a pilot's dictionary says them.
  const plain = text
    .replace(/\bniner\b/g, 'nine er')
    .replaceAll('q n h', 'Q N H')
    .replaceAll('xray', 'x ray')
  execFileSync('flite', ['-voice', voice, '-t', plain, '-o', file])
  return new Uint8Array(readFileSync(file))
}

type Judged = RunEvent & {
  readonly judgement?: {
    readonly verdict: string
    readonly parts: readonly { readonly name: string; readonly state: string }[]
  }
}
const IDS = ['item', 'turn', 'list', 'flow', 'watch', 'call', 'briefing', 'clearance'] as const
const idOf = (event: RunEvent) => IDS.map((key) => (event as unknown as Record<string, unknown>)[key] ?? '').join('|')
/** What a call of a watch read off a gauge. */
const readingOf = (event: RunEvent) => (event.type === 'watchCalled' ? JSON.stringify(event.value) : undefined)
const SPOKEN = new Set(
  'answered transmitted briefed briefingEnded listCalled flowClosed watchBegan watchCalled cleared commanded'.split(
    ' ',
  ),
)
const isSpoken = (event: RunEvent) => SPOKEN.has(event.type)
const verdictOf = (event: RunEvent) => (event as Judged).judgement?.verdict ?? 'done'
const okParts = (event: RunEvent) =>
  ((event as Judged).judgement?.parts ?? []).filter(({ state }) => state === 'ok').map(({ name }) => name)

type ReadBack = Judged & RunEvent<'transmitted'>
const isReadBack = (event: RunEvent): event is ReadBack => event.type === 'transmitted' && event.part === 'readBack'
/** What a pilot reads back again before anything else: the earlier line of this turn of which a part does not stand any more. */
function lostLine(at: number, got: readonly RunEvent[]): string | undefined {
  const turn = lines[at]?.events.find(isReadBack)?.turn
  const last = got.filter(isReadBack).findLast((event) => event.turn === turn)
  if (!last || verdictOf(last) === 'correct') return undefined
  const open = new Set(last.judgement?.parts.filter(({ state }) => state !== 'ok').map(({ name }) => name))
  const earlier = lines
    .slice(0, at)
    .filter(({ events }) => events.some((event) => isReadBack(event) && event.turn === turn))
  const lost = earlier.find(({ events }) => events.flatMap(okParts).some((name) => open.has(name)))
  return typeof lost?.line === 'string' ? lost.line : undefined
}

/** Whether what was typed in Node has come about in the page as well, at this saying or by several. */
function hasCome(wanted: readonly RunEvent[], got: readonly RunEvent[]): boolean {
  return wanted.filter(isSpoken).every((want) => {
    const same = got.filter(
      (event) => event.type === want.type && idOf(event) === idOf(want) && readingOf(event) === readingOf(want),
    )
    if (want.type === 'briefed') {
      const topics = new Set(
        same
          .flatMap((one) => (one.type === 'briefed' ? Object.entries(one.topics) : []))
          .filter(([, how]) => how === 'ok')
          .map(([name]) => name),
      )
      return Object.keys(want.topics).every((topic) => topics.has(topic))
    }
    if (same.some((event) => verdictOf(event) === 'correct' || verdictOf(event) === 'done')) return true
    if (verdictOf(want) !== 'incomplete') return false
    const ok = new Set(same.flatMap(okParts))
    return okParts(want).every((part) => ok.has(part))
  })
}

const { run: typed, lines } = await rehearsed(departure)
const from = Math.max(0, departure.lines.indexOf(process.argv[5] ?? ''))
const { events: begun } = await rehearsed({ ...departure, lines: departure.lines.slice(0, from) })
const served = await serveSite()
const test = await openPage({ address: served.address, width: 1280, height: 800 })
const { page } = test
const pilot = pilotAt(test)
await page.getByRole('button', { name: 'Take your seat' }).waitFor()
await page.evaluate(
  ([events, pack]) =>
    new Promise<void>((resolve, reject) => {
      localStorage.setItem('otherseat.settings', JSON.stringify({ welcomed: true, rate: 1.6 }))
      const open = indexedDB.open('otherseat')
      open.onerror = () => reject(open.error)
      open.onsuccess = () => {
        const write = open.result.transaction(['events', 'runs'], 'readwrite')
        for (const event of events) write.objectStore('events').put(event)
        write.objectStore('runs').put({ runId: events[0]?.runId, pack, startedAt: Date.now(), ended: false })
        write.oncomplete = () => resolve()
        write.onerror = () => reject(write.error)
      }
    }),
  [begun, packName] as const,
)
await page.reload()
await page.getByRole('button', { name: 'Resume the run' }).click()
await page.getByRole('region', { name: 'What was heard' }).waitFor()

const eventsOf = async () => (await pilot.events()) as unknown as RunEvent[]
const stateOf = async () => replayed(typed.pack, await eventsOf()).state
const startedAt = Date.now()
const report: { line: string; sayings: number; typed: boolean; heard: string[] }[] = []
const questions: string[] = []
let lost = 0

async function say(text: string, voice: string): Promise<void> {
  await pilot.listened()
  const before = (await eventsOf()).length
  await test.speakWav(sound(text, voice))
  const until = Date.now() + UNHEARD_MS
  while (Date.now() < until && !(await eventsOf()).slice(before).some((event) => 'evidence' in event))
    await page.waitForTimeout(150)
}

try {
  for (const [at, { line, events }] of lines.entries()) {
    if (at < from) continue
    if (typeof line === 'number') {
      await page.waitForTimeout(line * 1_000)
      continue
    }
    const before = (await eventsOf()).length
    let sayings = 0
    let isTyped = false
    for (;;) {
      const got = await eventsOf()
      const again = lostLine(at, got)
      if (!again && hasCome(events, got.slice(before))) break
      const { question } = await stateOf()
      if (question) {
        questions.push(`${line}: ${JSON.stringify(question)}`)
        await say('negative', 'rms')
        if ((await stateOf()).question) await pilot.type('negative')
        continue
      }
      if (sayings === SAYINGS) {
        isTyped = true
        if (again) await pilot.type(again)
        await pilot.type(line)
        // A call that was heard in part is gone on from, and typing all of it is no call any more.
        lost = hasCome(events, (await eventsOf()).slice(before)) ? 0 : lost + 1
        if (lost > MOST_LOST) throw new Error(`not even typed: ${line}`)
        break
      }
      await say(again ?? line, VOICES[sayings % VOICES.length] as string)
      sayings++
    }
    const heard = (await eventsOf())
      .slice(before)
      .filter(isSpoken)
      .map(
        (event) =>
          `${event.type}:${verdictOf(event)}: ${(event as unknown as { evidence?: { text?: string } }).evidence?.text ?? ''}`,
      )
    report.push({ line, sayings, typed: isTyped, heard })
    console.log(
      `${Math.round((Date.now() - startedAt) / 1_000)} s  ${isTyped ? 'TYPED' : sayings}  ${line}${sayings === 1 ? '' : `   ${heard.join(' | ')}`}`,
    )
  }
  await page.getByRole('heading', { level: 1, name: /All lists complete/i }).waitFor({ timeout: LISTEN_MS })
  console.log('ALL LISTS COMPLETE')
} catch (error) {
  console.log(
    'STUCK',
    error,
    (await page.getByRole('heading', { level: 1 }).textContent()) ?? '',
    JSON.stringify((await eventsOf()).slice(-4)),
  )
  await page.screenshot({ path: join(folder, 'stuck.png') })
} finally {
  const spoken = report.length
  const at = (n: number) => report.filter(({ sayings, typed }) => !typed && sayings <= n).length
  console.log(
    `${packName} ${radio} ${isTwin ? '' : stand}: ${spoken} lines of ${departure.lines.filter((one) => typeof one === 'string').length}, first saying ${at(1)}, within two ${at(2)}, by voice ${at(SAYINGS)}, typed ${report.filter(({ typed }) => typed).length}; called wrong ${report.flatMap(({ heard }) => heard).filter((one) => one.includes(':negative:')).length}; questions ${questions.length}; ${Math.round((Date.now() - startedAt) / 60_000)} min; errors ${JSON.stringify(test.errors())}; foreign ${test.foreign().length}`,
  )
  for (const question of questions) console.log(`question at ${question}`)
  writeFileSync(join(folder, 'report.json'), JSON.stringify(report, null, 1))
  await test.close()
  await served.close()
}
