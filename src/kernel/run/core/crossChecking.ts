/** A value is to be read aloud off a source: that is asked for, or what sources there are is told. */

import { sourceWords } from '../../figures/sources.ts'
import type { Pack } from '../../pack/checklist.ts'
import { startUnderWay } from '../watch/watching.ts'
import type { RunEvent } from './events.ts'
import { sayAndListen } from './listening.ts'
import { say } from './phrases.ts'
import type { RunState, Step } from './state.ts'

export function crossCheckAsked(pack: Pack, state: RunState, event: RunEvent<'crossCheckAsked'>): Step {
  const { figure, source } = event
  const { label, stated } = pack.figures.declarations[figure] ?? {}
  if (label && stated && source === '') {
    // No answer to what is open, so the last verdict does not stay with it.
    const told = { ...state, last: undefined }
    return sayAndListen(pack, told, [say.sources(label, stated.sources.map(sourceWords))], { prompt: true })
  }
  const asked = { ...state, standingBy: false, question: { about: 'reading', figure, source } as const }
  return startUnderWay(pack, state) ?? sayAndListen(pack, asked, [], { prompt: true })
}
