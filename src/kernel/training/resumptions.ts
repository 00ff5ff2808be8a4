/** Breaks at an open item, and whether the pilot went on with that item. A silence or a page that was left counts as stand by does. */

import type { RunCommand } from '../run/core/events.ts'
import type { Moment } from '../run/debrief/tally.ts'
import type { Resumption } from './facts.ts'

/** Somebody who says where to go on knows where that is. */
const KNOWS: ReadonlySet<RunCommand> = new Set(['goBack', 'recheck', 'fromTop', 'whatIsLeft'])

export function createResumptions() {
  const all: Resumption[] = []
  let open: Resumption['what'] | undefined

  /** Undefined where the event does not tell. */
  function isRight({ event, before }: Moment): boolean | undefined {
    switch (event.type) {
      case 'answered':
        // A value that is right for another item: the pilot is somewhere else.
        return event.judgement.verdict === 'sayAgain'
          ? undefined
          : !event.judgement.causes?.some(({ cause }) => cause === 'otherFigure')
      case 'confirmedByKey':
        return true
      case 'listCalled':
        return !(before.floor.at === 'item' && before.floor.list !== event.list)
      case 'stepDone':
      case 'flowClosed':
        return before.floor.at !== 'item'
      case 'commanded':
        return KNOWS.has(event.command) ? true : undefined
      default:
        return undefined
    }
  }

  return {
    all: (): readonly Resumption[] => all,
    tell(seen: Moment): void {
      const { before, after } = seen
      const over = after.interruptions.length > before.interruptions.length ? after.interruptions.at(-1) : undefined
      if (over && before.floor.at === 'item') open = over.what
      const right = open === undefined ? undefined : isRight(seen)
      if (open === undefined || right === undefined) return
      all.push({ what: open, right })
      open = undefined
    },
  }
}
