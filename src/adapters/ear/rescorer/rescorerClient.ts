/** The first worker's line to the weigher. A weigher that does not answer is done without from then on. */

import type { Grammar } from '../../../kernel/hearing/expansion.ts'
import type { WeighingAnswer, WeighingOrder } from '../device/messages.ts'
import type { Weighing } from '../utterance/rescoring.ts'
import type { Weighed } from './hypothesis.ts'

/** Many times what a slow machine takes; a pilot who waited so long has been asked again. */
const PATIENCE_MS = 3_000

export class WeighingLine {
  private readonly port: MessagePort
  private readonly lost: () => void
  private readonly waiting = new Map<number, (sayings: readonly Weighed[] | undefined) => void>()
  private id = 0
  private isLost = false

  /** `lost` is called once, where no answer came. */
  constructor(port: MessagePort, lost: () => void) {
    this.port = port
    this.lost = lost
    port.onmessage = ({ data }: MessageEvent<WeighingAnswer>) => this.waiting.get(data.id)?.(data.sayings)
  }

  /** Has the sound taken in at once, to be heard by this grammar; undefined once the weigher is lost. */
  weighing(pcm: Float32Array, grammar: Grammar): Weighing | undefined {
    if (this.isLost) return undefined
    const id = ++this.id
    this.tell({ type: 'take', id, pcm })
    return {
      weigh: (texts) => this.ask({ type: 'weigh', id, texts }),
      hear: (beside) => this.ask({ type: 'hear', id, grammar, beside }),
      hearAnything: () => this.ask({ type: 'hearAnything', id }),
    }
  }

  private ask(order: WeighingOrder): Promise<readonly Weighed[] | undefined> {
    const { id } = order
    if (this.isLost) return Promise.resolve(undefined)
    return new Promise((resolve) => {
      const done = (sayings: readonly Weighed[] | undefined) => {
        clearTimeout(patience)
        this.waiting.delete(id)
        resolve(sayings)
      }
      const patience = setTimeout(() => {
        this.isLost = true
        this.lost()
        for (const giveUp of [...this.waiting.values()]) giveUp(undefined)
      }, PATIENCE_MS)
      this.waiting.set(id, done)
      this.tell(order)
    })
  }

  private tell(order: WeighingOrder): void {
    this.port.postMessage(order)
  }
}
