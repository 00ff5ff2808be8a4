/** One wording for eye, ear and paper: what the screen shows, the voice says and the debrief tells of each item. */

import { describe, expect, it } from 'vitest'
import { viewOf } from '../../src/app/view/view.ts'
import { findItem, findLine, itemsOf, listsOf } from '../../src/kernel/pack/place.ts'
import type { Evidence, RunCommand } from '../../src/kernel/run/core/events.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { demoPack, rig } from './rig.ts'

const BY_KEY: Evidence = { by: 'key', text: '' }
const LISTS = listsOf(await demoPack())

describe('every challenge', () => {
  it.each(LISTS.map(({ id }) => id))(
    'of %s is the same on the screen, in the voice and in the debrief',
    async (list) => {
      const { pack, run, state, voice } = await rig()
      const command = (command: RunCommand) => run.happen({ type: 'commanded', command, evidence: BY_KEY })
      const met = new Set<string>()
      await run.happen({ type: 'listCalled', list, evidence: BY_KEY })
      // Called out of its order it is questioned first.
      if (state().question) await command('negative')
      for (;;) {
        const { floor } = state()
        if (floor.at === 'line') {
          const of = listsOf(pack).find(({ id }) => id === floor.list)
          const clearance = of ? findLine(of, floor.line).clearance : ''
          await run.happen({ type: 'cleared', clearance, evidence: BY_KEY })
          continue
        }
        // What was left open comes again behind the last item.
        if (floor.at !== 'item' || met.has(floor.item)) break
        met.add(floor.item)
        const { challenge } = findItem(pack, floor.item).item
        expect(viewOf(pack, state()).headline).toBe(challenge)
        expect(voice.said.at(-1)?.text.toLowerCase()).toContain(`${challenge.toLowerCase()}?`)
        const told = debriefOf(pack, run.events()).lists.flatMap(({ items }) => items)
        expect(told.find(({ id }) => id === floor.item)?.challenge).toBe(challenge)
        await command('leaveOpen')
      }
      const all = LISTS.find(({ id }) => id === list)
      expect([...met]).toEqual(all && itemsOf(all, state()).map(({ id }) => id))
    },
  )
})
