import { beforeAll, describe, expect, it } from 'vitest'
import { revisedBy } from '../../../../src/app/run/revision.ts'
import { partsShown } from '../../../../src/app/view/partsShown.ts'
import { readPackDir } from '../../../../src/cli/packDir.ts'
import { compute } from '../../../../src/kernel/figures/compute.ts'
import { neighboursOf } from '../../../../src/kernel/figures/neighbours.ts'
import { sayValue } from '../../../../src/kernel/kinds/table.ts'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import type { RunSettings } from '../../../../src/kernel/run/core/events.ts'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import { revision } from '../../figures/marram.ts'
import { type TestRun, testRun } from '../fixture.ts'

let pack: Pack
beforeAll(async () => {
  const read = await readPackDir('checklists/marram')
  if (!read.pack) throw new Error('the demo does not read')
  pack = read.pack
})

function begun(settings: Partial<RunSettings> = { ownValues: true }): TestRun {
  const { id, version, sha256, name } = pack
  return testRun(pack)
    .happen({
      type: 'runStarted',
      pack: { id, version, sha256, name, texts: {} },
      situation: Object.fromEntries(pack.situations.map((one) => [one.name, one.initial])),
      settings: { phraseology: 'plain', coachAfter: 0, ...settings },
      startedAt: 0,
    })
    .happen(revisedBy(pack, revision(pack, 'preliminary'), undefined))
}
const inForce = () => compute(pack.figures, revision(pack, 'preliminary'))
/** The trim in words, or another value of it. */
function trim(value = inForce().figures.takeoffTrim?.value): string {
  const figure = inForce().figures.takeoffTrim
  if (!figure || value === undefined) throw new Error('no trim')
  return sayValue({ ...figure.spec, value }, 'plain')
}
const notesOf = (run: TestRun) => debriefOf(pack, run.events).revisions.at(-1)?.notes

describe('the pilot’s own value', () => {
  it('is asked for before anything else, where the pack wants it and the setting allows it', () => {
    expect(begun().said()).toBe('Your takeoff trim?')
    expect(begun({}).said()).toBe('Figures flow.')
    expect(begun({ ownValues: false }).said()).toBe('Figures flow.')
  })

  it('that is right agrees, and the run goes on', () => {
    const run = begun().hear(trim())
    expect(run.said()).toBe('Takeoff trim agrees. Figures flow.')
    expect(run.state.ownToAsk).toEqual([])
    expect(run.state.last).toMatchObject({
      of: 'ownValue',
      challenge: 'takeoff trim',
      judgement: { verdict: 'correct' },
    })
    expect(partsShown(pack, run.state)).toMatchObject([{ label: 'takeoff trim', state: 'ok' }])
    expect(notesOf(run)).toEqual([expect.stringMatching(/^takeoff trim worked out: .*, agrees$/)])
  })

  it('may be said with its name, or as mine', () => {
    expect(begun().hear(`takeoff trim ${trim()}`).said()).toContain('agrees')
    expect(begun().hear(`trim is ${trim()}`).said()).toContain('agrees')
  })

  it('that is wrong is told why only where one cause alone fits, and never the value', () => {
    const flap = neighboursOf(pack.figures, inForce(), 'takeoffTrim').find(({ cause }) => cause === 'otherFlap')
    const run = begun().hear(trim(flap?.value))
    expect(run.said()).toBe('I have another takeoff trim. Another flap.')
    expect(run.said()).not.toContain(trim())
    expect(partsShown(pack, run.state)).toMatchObject([{ label: 'takeoff trim', state: 'wrong' }])
    expect(run.state.question).toEqual({ about: 'ownValue', figure: 'takeoffTrim' })
    expect(notesOf(run)?.[0]).toMatch(/differs; it fits takeoff trim at flap/)
    expect(run.hear('zero point six up').said()).toBe('I have another takeoff trim.')
    expect(run.hear(trim()).said()).toBe('Takeoff trim agrees. Figures flow.')
  })

  it('that is short of its direction is asked for that, and nothing is told of the rest', () => {
    const size = trim().split(' ').slice(0, -1).join(' ')
    for (const words of [size, 'nine point nine']) {
      const run = begun().hear(words)
      expect(run.said()).toBe('Takeoff trim, direction?')
      expect(partsShown(pack, run.state)).toMatchObject([
        { label: 'takeoff trim', state: 'missing', lacks: 'direction' },
      ])
      expect(run.hear(trim()).said()).toBe('Takeoff trim agrees. Figures flow.')
    }
  })

  it('is kept as far as it was said: the direction alone completes it', () => {
    const [size = '', direction = ''] = trim().split(/ (?=\w+$)/)
    expect(begun().hear(size).hear(direction).said()).toBe('Takeoff trim agrees. Figures flow.')
    expect(
      begun()
        .hear(size)
        .hear(direction === 'up' ? 'down' : 'up')
        .said(),
    ).toContain('I have another')
    expect(begun().hear('nine point nine').hear(direction).said()).toContain('I have another')
    // Said by itself it is nothing to go on with, and what was refused is not.
    expect(begun().hear(direction).said()).toBe('Takeoff trim, all digits?')
    expect(begun().hear('nine point nine up').hear(direction).said()).toBe('Takeoff trim, all digits?')
  })

  it('that could not be read is asked for again', () => {
    expect(begun().hear('the weather is nice', { by: 'typed' }).said()).toBe('Your takeoff trim?')
    expect(begun().hear('affirm', { by: 'typed' }).said()).toBe('Your takeoff trim?')
  })

  it.each(['disregard', 'leave it open'])('is not asked for any more after "%s"', (words) => {
    const run = begun().hear(words)
    expect(run.said()).toBe('Figures flow.')
    expect(run.hear('done').said()).toBe('Load figures list on your call.')
  })

  it('is asked for again when it has changed, and only then', () => {
    const run = begun().hear(trim())
    const same = { revision: 1, set: inForce() }
    run.happen(revisedBy(pack, { ...revision(pack, 'preliminary'), label: 'again' }, same))
    expect(run.said()).not.toContain('Your')
    run.happen(revisedBy(pack, revision(pack, 'final'), same))
    expect(run.said()).toMatch(/Your takeoff trim\?$/)
  })

  it('is not asked for in a late catch: that would tell that it has changed', () => {
    const run = begun({ ownValues: true, lateCatch: true }).hear(trim())
    run.happen(revisedBy(pack, revision(pack, 'final'), { revision: 1, set: inForce() }))
    expect(run.said()).not.toContain('Your')
  })

  it('is never listened for as a value, only as its kind (law 2)', () => {
    const listen = begun().effects.find((effect) => effect.type === 'listen')
    expect(listen?.type === 'listen' && listen.hearable).toEqual({
      shapes: [pack.figures.declarations.takeoffTrim?.spec],
      yesNo: false,
    })
  })
})
