/** WCAG 2.2 AA as far as a page without layout can be judged; contrast is judged in a real browser. */

import { render, screen } from '@testing-library/preact'
import axe from 'axe-core'
import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { CannotStart } from '../../src/ui/CannotStart.tsx'
import { createFakeShelf } from '../fakes/packShelf.ts'
import { offeredOf, ownPack } from '../fakes/smallPack.ts'
import { atTrim, flying, INPUTS, stage } from './stage.tsx'
import { GROUND, talking } from './talkStage.tsx'

const SCREENS: Readonly<Record<string, () => unknown>> = {
  'the first visit': () => stage({ settings: DEFAULT_SETTINGS }),
  'the start': () => stage({ unfinished: { runId: 'run', pack: 'Marram', startedAt: 0, ended: false } }),
  figures: () => stage({ screen: 'figures' }).actions.draft(INPUTS.preliminary),
  'figures in a run': async () => (await atTrim()).actions.show('figures'),
  'a flow': flying,
  'an answer refused': async () => (await atTrim()).answer('four point eight up'),
  'a clearance': () => talking(['request clearance']),
  'the ground crew': () => talking(GROUND),
  'a briefing': () => talking(GROUND.slice(0, 3)),
  'the debrief of exchanges': () =>
    talking(GROUND.slice(0, 6)).user.click(screen.getByRole('button', { name: 'Debrief' })),
  'the debrief': async () => {
    const { answer, actions } = await atTrim()
    await answer('four point eight up')
    await actions.showDebrief()
    await screen.findByRole('heading', { level: 1, name: /lists are complete/ })
  },
  packs: async () => {
    const { actions } = stage({ screen: 'packs' }, { packShelf: createFakeShelf([ownPack('pack.yaml', 'name: [')]) })
    await actions.importPack(offeredOf({ 'letter.txt': '' }))
  },
  'a pack that is edited': async () => {
    const { actions } = stage({ screen: 'packs' }, { packShelf: createFakeShelf([ownPack('pack.yaml', 'name: [')]) })
    await actions.readPacks()
    await actions.editFile('wren', 'pack.yaml')
    await screen.findByRole('textbox', { name: 'pack.yaml' })
  },
  settings: () => stage({ screen: 'settings' }),
  'the sound check': () => stage({ screen: 'sound' }),
  'any key resumes': () => stage({ needsGesture: true }),
  'another tab': () => stage({ screen: 'run', writer: 'elsewhere' }),
  'the log lost': () => stage({ storage: { kept: false, message: 'Storage is full.' } }),
  'cannot start': () => render(<CannotStart message="No model." />),
}

describe('every screen is accessible', () => {
  it.each(Object.entries(SCREENS))('%s', async (_, show) => {
    await show()
    for (const details of document.querySelectorAll('details')) details.open = true
    const { violations, passes } = await axe.run(document.body, {
      rules: { 'color-contrast': { enabled: false }, region: { enabled: false } },
    })
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' ')}`)).toEqual([])
    expect(passes.length).toBeGreaterThan(5)
  })
})
