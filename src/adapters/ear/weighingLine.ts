/** The first worker's line to the weigher. A weigher that does not answer is done without from then on. */

import type { Weighing } from './listening.ts'
import type { WeighingAnswer, WeighingOrder } from './messages.ts'

/** Many times what a slow machine takes; a pilot who waited so long has been asked again. */
const PATIENCE_MS = 3_000

export class WeighingLine {
  private readonly port: MessagePort
  private readonly lost: () => void
  private readonly waiting = new Map<number, (weights: readonly number[] | undefined) => void>()
  private id = 0
  private isLost = false

  /** `lost` is called once, where no answer came. */
  constructor(port: MessagePort, lost: () => void) {
    this.port = port
    this.lost = lost
    port.onmessage = ({ data }: MessageEvent<WeighingAnswer>) => this.waiting.get(data.id)?.(data.weights)
  }

  /** Has the sound taken in at once; undefined once the weigher is lost. */
  weighing(pcm: Float32Array): Weighing | undefined {
    if (this.isLost) return undefined
    const id = ++this.id
    this.tell({ type: 'take', id, pcm })
    return (texts) => this.weigh(id, texts)
  }

  private weigh(id: number, texts: readonly string[]): Promise<readonly number[] | undefined> {
    if (this.isLost) return Promise.resolve(undefined)
    return new Promise((resolve) => {
      const done = (weights: readonly number[] | undefined) => {
        clearTimeout(patience)
        this.waiting.delete(id)
        resolve(weights)
      }
      const patience = setTimeout(() => {
        this.isLost = true
        this.lost()
        for (const giveUp of [...this.waiting.values()]) giveUp(undefined)
      }, PATIENCE_MS)
      this.waiting.set(id, done)
      this.tell({ type: 'weigh', id, texts })
    })
  }

  private tell(order: WeighingOrder): void {
    this.port.postMessage(order)
  }
}
