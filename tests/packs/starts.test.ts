/** What a new pack begins with: small, sound, without advice, commented, and flown to its end by typing. */

import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { rehearseFile } from '../../src/app/rehearsal/rehearsal.ts'
import { inputsProblems, readPackDir } from '../../src/cli/packDir.ts'
import { soundAdvice } from '../../src/cli/sounds.ts'
import { compute, figureOf } from '../../src/kernel/figures/compute.ts'
import type { Figures } from '../../src/kernel/kinds/kind.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import { entriesOf } from '../../src/kernel/pack/place.ts'
import { NOTHING } from '../../src/kernel/response/response.ts'
import { sayResponse } from '../../src/kernel/response/sentence.ts'
import { readInputs } from '../../src/packs/inputs.ts'

const STARTS = readdirSync('src/packs/starts')

async function start(name: string): Promise<Pack> {
  const { pack, problems } = await readPackDir(`src/packs/starts/${name}`)
  expect(problems).toEqual([])
  if (!pack) throw new Error(`src/packs/starts/${name} is no pack`)
  return pack
}

const exampleOf = (name: string, pack: Pack) => {
  const { inputs } = readInputs(
    readFileSync(`src/packs/starts/${name}/inputs/example.yaml`, 'utf8'),
    'example.yaml',
    pack,
  )
  if (!inputs) throw new Error(`src/packs/starts/${name} has no example`)
  return inputs
}

/** Every list called and answered as its responses have it; a timed start with its calls. */
function answersFor(pack: Pack, name: string): string {
  const inputs = exampleOf(name, pack)
  const set = compute(pack.figures, inputs)
  const figures: Figures = Object.fromEntries(
    Object.keys(pack.figures.declarations).flatMap((figure) => {
      const found = figureOf(set, figure)
      return found ? [[figure, found]] : []
    }),
  )
  const initial = Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
  const situation = { ...initial, ...inputs.situation }
  return pack.phases
    .flatMap(({ activities }) => activities)
    .flatMap((activity) => {
      if (activity.type === 'watch') {
        const calls = activity.calls.map(({ say, value }) =>
          sayResponse(
            say,
            value ? { value: { ...value.spec, value: value.min ?? 1 } as Figures[string] } : {},
            'plain',
          ),
        )
        return [sayResponse(activity.begins, {}, 'plain'), ...calls]
      }
      if (activity.type !== 'list') throw new Error(`a ${activity.type} is not flown here`)
      const answers = entriesOf(activity, { situation, values: {} }).map((entry) =>
        entry.type === 'line'
          ? sayResponse(entry.say, {}, 'plain')
          : sayResponse(entry.responses[0]?.response ?? NOTHING, figures, 'plain'),
      )
      return [`${activity.name} list`, ...answers]
    })
    .join('\n')
}

it('there are five', () => {
  expect(STARTS.sort()).toEqual(['light-twin', 'new-pack', 'piston-single', 'turboprop-single', 'two-crew-jet'])
})

describe.each(STARTS)('%s', (name) => {
  it('has nothing to mend, no advice, and no word that no dictionary has', async () => {
    const pack = await start(name)
    expect(await inputsProblems(pack, `src/packs/starts/${name}`, [])).toEqual([])
    expect(await soundAdvice(pack, `src/packs/starts/${name}`)).toEqual([])
  })

  it('is small', async () => {
    const pack = await start(name)
    const lists = pack.phases.flatMap(({ activities }) => activities).filter((one) => one.type === 'list')
    const items = lists.flatMap(({ entries }) => entries)
    expect(items.length).toBeGreaterThanOrEqual(name === 'new-pack' ? 2 : 15)
    expect(items.length).toBeLessThanOrEqual(30)
    expect(lists.length).toBeLessThanOrEqual(4)
  })

  it('is flown to its end by typing', async () => {
    const pack = await start(name)
    const told: string[] = []
    const end = await rehearseFile({
      pack,
      file: 'answers.txt',
      answers: answersFor(pack, name),
      inputs: exampleOf(name, pack),
      print: (line) => void told.push(line),
      log: { append: async () => {} },
    })
    expect([end, told.slice(-6)]).toEqual([{ isFlown: true, complete: true, problems: [] }, expect.anything()])
  })
})
