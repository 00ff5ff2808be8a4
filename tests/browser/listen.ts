/** Listens at the page's microphone in a test. */

import type { Page } from 'playwright-core'

declare global {
  interface Window {
    loudest: number
  }
}

/** The loudest sample in the microphone (0 to 1) while something is done. */
export async function loudestWhile(page: Page, what: () => Promise<unknown>): Promise<number> {
  await page.evaluate(async () => {
    window.loudest = 0
    const stream = await navigator.mediaDevices.getUserMedia({ audio: true })
    const context = new AudioContext()
    const analyser = new AnalyserNode(context, { fftSize: 2048 })
    context.createMediaStreamSource(stream).connect(analyser)
    const samples = new Float32Array(analyser.fftSize)
    setInterval(() => {
      analyser.getFloatTimeDomainData(samples)
      window.loudest = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), window.loudest)
    }, 10)
  })
  await what()
  return page.evaluate(() => window.loudest)
}
