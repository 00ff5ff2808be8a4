/** The packs that come with the app: valid, whole, sayable, and with examples that compute. */

import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { parseDictionary, pronounce } from '../../src/adapters/ear/recogniser/dictionary.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import { CALCULATORS } from '../../src/kernel/figures/calculators.ts'
import { compute } from '../../src/kernel/figures/compute.ts'
import { changesBetween } from '../../src/kernel/figures/revise.ts'
import { wordsNeeded } from '../../src/kernel/hearing/grammar.ts'
import { vocabularyOf } from '../../src/kernel/hearing/vocabulary.ts'
import { listsOf } from '../../src/kernel/pack/place.ts'
import { responseFrom } from '../../src/kernel/response/response.ts'
import { readInputs } from '../../src/packs/inputs.ts'
import { packAt, revision } from '../kernel/figures/marram.ts'

const PACKS = readdirSync('checklists', { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name)
  .sort()

test('there are two', () => {
  expect(PACKS).toEqual(['marram', 'pair'])
})

describe.each(PACKS)('the pack %s', (name) => {
  const dir = `checklists/${name}`

  test('has not a single problem, and is called like its folder', async () => {
    const { pack, problems } = await readPackDir(dir)
    expect(problems).toEqual([])
    expect(pack?.id).toBe(name)
  })

  test('says that it is not for flight', async () => {
    expect((await packAt(dir)).caution).toMatch(/Not for use in flight or on a real aircraft/)
  })

  test('has example revisions that compute without a problem, the later ones reopening something', async () => {
    const pack = await packAt(dir)
    const files = readdirSync(`${dir}/inputs`)
    expect(files).toContain('preliminary.yaml')
    for (const file of files) {
      const { inputs, problems } = readInputs(readFileSync(`${dir}/inputs/${file}`, 'utf8'), file, pack)
      expect(problems).toEqual([])
      expect(inputs && compute(pack.figures, inputs).problems).toEqual([])
    }
    const sets = (['preliminary', 'final'] as const).map((one) => compute(pack.figures, revision(pack, one)))
    expect(sets[1] && changesBetween(sets[0], sets[1]).some(({ spoken }) => spoken)).toBe(true)
  })

  test('uses only words that a general American English pronunciation dictionary has, or says their sounds', async () => {
    const pack = await packAt(dir)
    const dictionary = new Set(
      readFileSync('node_modules/soundswallower/model/en-us/dict.txt', 'utf8')
        .split('\n')
        .map((line) => line.split(/\s/)[0]),
    )
    const entries = listsOf(pack).flatMap((list) => [list, ...list.entries])
    const texts = entries.flatMap((entry) => {
      if (entry.type === 'list') return [entry.name, ...entry.alsoCalled]
      if (entry.type === 'line') return entry.say.wordings
      const said = entry.responses.flatMap(({ response }) => response.wordings)
      return [entry.challenge, ...said, ...(entry.states ?? []).flat()]
    })
    const options = Object.values(pack.figures.declarations).flatMap(({ spec, alsoCalled }) => [
      ...alsoCalled,
      ...(spec.kind === 'choice' ? Object.values(spec.options).flat() : []),
    ])
    const situations = pack.situations.flatMap((situation) => situation.options.flatMap(({ say }) => say.wordings))
    const words = [...texts, ...options, ...situations].flatMap((text) => text.toLowerCase().split(/[^a-z']+/))
    const own = new Set(Object.keys(pack.pronunciations ?? {}))
    expect([...new Set(words)].filter((word) => word && !dictionary.has(word) && !own.has(word))).toEqual([])
  })

  test('says nothing to a station that the recogniser could not hear', async () => {
    const dictionary = parseDictionary(readFileSync('node_modules/soundswallower/model/en-us/dict.txt', 'utf8'))
    const vocabulary = vocabularyOf(await packAt(dir))
    const { missing } = pronounce(wordsNeeded(vocabulary), dictionary, vocabulary.pronunciations)
    expect(missing).toEqual([])
  })

  test('has lists whose names differ in their first word', async () => {
    const names = listsOf(await packAt(dir)).map((list) => list.name.split(' ')[0])
    expect(new Set(names).size).toBe(names.length)
  })
})

test('the Marram has what a departure needs', async () => {
  const pack = await packAt('checklists/marram')
  expect(pack.phases.map(({ name }) => name)).toEqual([
    'Figures',
    'Before start',
    'Push and engine start',
    'After start',
    'Ready for taxi',
  ])
  for (const phase of pack.phases) {
    const types = phase.activities.map(({ type }) => type)
    expect(types.filter((type) => type === 'flow' || type === 'list')).toEqual(['flow', 'list'])
  }
  const watches = pack.phases.flatMap(({ activities }) => activities.filter(({ type }) => type === 'watch'))
  expect(watches.map(({ name }) => name)).toEqual(['right engine start', 'left engine start'])
  const entries = listsOf(pack).flatMap((list) => list.entries)
  const items = entries.filter((entry) => entry.type === 'item')
  expect(items.length).toBeGreaterThanOrEqual(25)
  expect(entries.some((entry) => entry.type === 'line' && entry.clearance === 'push')).toBe(true)
  expect(items.some(({ answers }) => answers === 'both')).toBe(true)
  expect(items.some(({ responses }) => responses.length > 1)).toBe(true)
  expect(items.find(({ id }) => id === 'loadFigures.trim')?.responses).toEqual([
    { response: responseFrom('<takeoffTrim> [set]') },
  ])
  const kinds = new Set(Object.values(pack.figures.declarations).map(({ spec }) => spec.kind))
  for (const kind of ['trim', 'choice', 'speed', 'altimeter', 'digits', 'weight', 'runway'] as const)
    expect(kinds).toContain(kind)
})

test('the guide for authors names every calculator', () => {
  const guide = readFileSync('checklists/README.md', 'utf8')
  expect(Object.keys(CALCULATORS).filter((name) => !guide.includes(`\`${name}\``))).toEqual([])
})
