/** The page of the ear's figures is what the figures say. */

import { readFile } from 'node:fs/promises'
import { describe, expect, test } from 'vitest'
import { figuresPage, PAGE, readFigures } from './figuresFile.ts'
import { emptyTally } from './tally.ts'

const STAMP = { date: '2026-11-28', commit: '0123456789', machine: '2 cores, Node 20.20.2' }

describe('the page of figures', () => {
  test('is made of the figures that are kept beside it', async () => {
    expect(await readFile(PAGE, 'utf8')).toBe(await figuresPage(await readFigures()))
  })

  test('says of each condition how many there were, its interval, and where and when it was measured', async () => {
    const all = { ...emptyTally(), rightTried: 100, rightAccepted: 93, wrongTried: 2_000, wrongAccepted: 1 }
    const clean = {
      ...{ stamp: STAMP, seed: 1409, secondModel: true, all, people: emptyTally() },
      times: { fromVoice: [300, 500], fromEndpoint: [20, 190] },
    } as const
    const page = await figuresPage({ ear: { clean }, sections: {} })
    expect(page).toContain('| quiet | 93 of 100 = 93.0 % (86.3 to 96.6) |')
    expect(page).toContain('1 of 2000 = 0.050 %')
    expect(page).toContain('| quiet | 300 and 500 | 20 and 190 |')
    expect(page).toContain('- quiet: on 2026-11-28 at 0123456789, on 2 cores, Node 20.20.2, seed 1409, two models')
  })

  test('has no times of a busy machine', async () => {
    const clean = { stamp: STAMP, seed: 1409, secondModel: true, all: emptyTally(), people: emptyTally() }
    const page = await figuresPage({ ear: { clean }, sections: {} })
    expect(page).toContain('| quiet | the machine was busy | the machine was busy |')
  })

  test('has the figures of other benchmarks in their own words', async () => {
    const page = await figuresPage({ ear: {}, sections: { bytes: { stamp: STAMP, measured: { 'bytes.all': 7 } } } })
    expect(page).toContain('## bytes\n\n`npm run bench -- bytes`, measured on 2026-11-28 at 0123456789')
    expect(page).toContain('| bytes.all | 7 |')
  })
})
