/**
 * Whether the ear grows: many utterances are handed to its workers faster than real time, and the memory of the page's
 * process (all threads, with what WebAssembly holds) and the page's own heap are read in between.
 */

import { execFileSync } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { openPage, type TestPage } from '../../../tests/browser/page.ts'
import { pilotAt } from '../../../tests/browser/pilot.ts'
import { readWav } from '../../adapters/ear/wav.ts'

const UTTERANCES = Number(process.env.LATENCY_UTTERANCES ?? 500)
/** Readings of the memory, the first after a warming up. */
const READINGS = 5
const SAID = fileURLToPath(new URL('../../../audio/check/four-two-seven-one.wav', import.meta.url))
/** The pause in which an utterance ends. */
const PAUSE_SAMPLES = 16_000

export async function grown(address: string): Promise<Record<string, number>> {
  const wav = readWav(await readFile(SAID))
  if ('problem' in wav) throw new Error(wav.problem)
  const opened = await openPage({ address })
  try {
    const pilot = pilotAt(opened)
    await pilot.begin()
    // The run itself shall neither speak nor listen meanwhile.
    await pilot.type('stand by')
    await pilot.listened()
    await opened.page.evaluate(feedTheEar)
    const pcm = [...wav.pcm, ...new Array<number>(PAUSE_SAMPLES).fill(0)]
    await opened.page.evaluate((pcm) => window.utter(pcm, 10), pcm)
    const each = Math.ceil(UTTERANCES / READINGS)
    const first = await memory(opened)
    const later: Memory[] = []
    let tookMs = 0
    for (let reading = 0; reading < READINGS; reading++) {
      tookMs += await opened.page.evaluate(([pcm, each]) => window.utter(pcm, each), [pcm, each] as const)
      later.push(await memory(opened))
    }
    const last = later.at(-1)
    const audioMs = ((each * READINGS * pcm.length) / 16_000) * 1000
    return {
      'latency.memory.utterances': each * READINGS,
      'latency.memory.processMB.first': first.processMB,
      'latency.memory.processMB.last': last?.processMB ?? 0,
      'latency.memory.processMB.most': Math.max(...later.map(({ processMB }) => processMB)),
      'latency.memory.heapMB.first': first.heapMB,
      'latency.memory.heapMB.last': last?.heapMB ?? 0,
      'latency.realTimeFactor': tookMs / audioMs,
    }
  } finally {
    await opened.close()
  }
}

interface Memory {
  readonly processMB: number
  readonly heapMB: number
}

declare global {
  interface Window {
    /** Has the ear hear the samples so many times; resolves with the time it took, ms. */
    utter(pcm: readonly number[], times: number): Promise<number>
  }
}

/** In the page: takes the place of the microphone at the ear's first worker, and listens for what it heard. */
function feedTheEar(): void {
  const worker = window.made.workers.at(-2)
  if (!worker) throw new Error('no worker')
  for (const context of window.made.contexts) if (context.sampleRate === 16_000) void context.suspend()
  const { port1, port2 } = new MessageChannel()
  worker.postMessage({ type: 'frames', port: port2, clockOffsetMs: 0 }, [port2])
  const hearable = { shapes: [{ kind: 'digits', length: 4 }], yesNo: false }
  let seq = 0
  let heard: () => void = () => {}
  const forward = worker.onmessage
  worker.onmessage = (message) => {
    if (message.data?.event?.type === 'heard') heard()
    else forward?.call(worker, message)
  }
  window.utter = async (pcm, times) => {
    const began = performance.now()
    for (let count = 0; count < times; count++) {
      const isHeard = new Promise<void>((done) => {
        heard = done
      })
      worker.postMessage({ type: 'listen', order: 1_000_000, hearable, guardMs: -1_000 })
      for (let at = 0; at + 480 <= pcm.length; at += 480) {
        const frame = Float32Array.from(pcm.slice(at, at + 480), (sample) => sample + 0.0005 * (Math.random() * 2 - 1))
        port1.postMessage({ seq: seq++, pcm: frame }, [frame.buffer])
      }
      await isHeard
    }
    return performance.now() - began
  }
}

async function memory({ page, context }: TestPage): Promise<Memory> {
  const session = await context.newCDPSession(page)
  await session.send('HeapProfiler.collectGarbage')
  const { usedSize } = await session.send('Runtime.getHeapUsage')
  await session.detach()
  return { processMB: largestRendererMB(), heapMB: usedSize / 1e6 }
}

/** The page is the largest renderer among what this process has started; 0 where the system has no such list. */
function largestRendererMB(): number {
  try {
    const lines = execFileSync('ps', ['-e', '-o', 'pid=,ppid=,rss=,args=', '-ww'], { encoding: 'utf8' }).split('\n')
    const rows = lines.map((line) => /^\s*(\d+)\s+(\d+)\s+(\d+)\s+(.*)$/.exec(line)).filter((row) => row !== null)
    const ours = new Set([String(process.pid)])
    for (let grew = true; grew; ) {
      const before = ours.size
      for (const [, pid = '', parent = ''] of rows) if (ours.has(parent)) ours.add(pid)
      grew = ours.size > before
    }
    const sizes = rows.filter(([, pid = '', , , args = '']) => ours.has(pid) && args.includes('--type=renderer'))
    return Math.max(0, ...sizes.map(([, , , kilobytes]) => Number(kilobytes) / 1000))
  } catch {
    return 0
  }
}
