/** An author's own synonyms: what `check` refuses, and where they are understood and heard. */

import { beforeAll, describe, expect, it } from 'vitest'
import { readPackDir } from '../../src/cli/packDir.ts'
import { grammarOf } from '../../src/kernel/hearing/grammar.ts'
import { jsgfOf } from '../../src/kernel/hearing/jsgf.ts'
import { vocabularyOf } from '../../src/kernel/hearing/vocabulary.ts'
import { interpret } from '../../src/kernel/interpret/interpret.ts'
import { listsOf } from '../../src/kernel/pack/place.ts'
import { emptyRun } from '../../src/kernel/run/core/emptyRun.ts'
import { readPack } from '../../src/packs/read.ts'

let texts: Readonly<Record<string, string>>
beforeAll(async () => {
  texts = (await readPackDir('checklists/marram')).texts
})

const with_ = (line: string) => readPack({ ...texts, 'pack.yaml': `${texts['pack.yaml']}\n${line}\n` }, '')

describe('check', () => {
  it.each([
    ['{closed: [open]}', '[open]', 'synonym.word', '"open" says the opposite of "closed"'],
    ['{closed: [wide open]}', '[wide', 'synonym.word', '"wide open" says the opposite of "closed"'],
    [
      '{connected: [gone]}',
      '[gone]',
      'synonym.word',
      /^"gone" is said for "disconnected", the opposite of "connected"$/,
    ],
    ['{released: [on]}', '[on]', 'synonym.word', /^"on" is the opposite of "off", a state of (item|topic) \w+$/],
    [
      '{closed: [armed]}',
      '[armed]',
      'synonym.word',
      /^"armed" is a state of item doors; it cannot stand for "closed"$/,
    ],
    ['{closed: [two]}', '[two]', 'synonym.word', /^"two" holds a number word; /],
    ['{closed: [bravo]}', '[bravo]', 'synonym.word', /^"bravo" holds a word of the spelling alphabet; /],
    ['{closed: [not open]}', '[not', 'synonym.word', /^"not open" says that something is not; /],
    ['{closed: [disregard]}', '[disregard]', 'synonym.word', /^"disregard" is a word of command; /],
    ['{closed: [say again]}', '[say', 'synonym.word', /^"say again" is a word of command; /],
    ['{closed: [okay]}', '[okay]', 'synonym.word', /^"okay" says nothing by itself: /],
    ['{two: [zipped]}', '{two', 'synonym.word', /^"two" holds a number word; /],
    ['{closed: []}', 'closed', 'shape', /closed is too short; it should be a list of at least 1/],
    ['{closed: [Zipped]}', '[Zipped]', 'shape', /should be one to six words in small letters/],
    [
      '{closed: [zipped], set: [zipped]}',
      '[zipped]}',
      'synonym.twice',
      '"zipped" would stand for "set" and for "closed"; it can say only one of them',
    ],
    ['{closed: [zipped, zipped]}', 'zipped]', 'synonym.twice', '"zipped" stands twice for "closed"'],
  ])('refuses %s at its place', (table, at, code, message) => {
    const { pack, problems } = with_(`synonyms: ${table}`)
    const line = texts['pack.yaml']?.split('\n').length ?? 0
    const [problem] = problems
    expect(pack).toBeUndefined()
    expect(problem).toMatchObject({
      code,
      message: typeof message === 'string' ? message : expect.stringMatching(message),
    })
    const column = `synonyms: ${table}`.indexOf(at) + (/^[[{]/.test(at) ? 2 : 1)
    expect(problem?.place).toEqual({ file: 'pack.yaml', line: line + 1, column })
  })

  it('tells a word that no answer has, as advice', () => {
    const { pack, problems } = with_('synonyms: {closd: [zipped]}')
    expect(pack).toBeDefined()
    expect(problems).toMatchObject([{ code: 'synonym.unused', severity: 'advice' }])
  })

  it('refuses a table by which one answer could be said in too many ways', () => {
    const many = (letter: string) => Array.from('abcdefghijkl', (other) => `z${letter}${other}`).join(', ')
    const table = ['set', 'brake', 'closed', 'beacon', 'on'].map((word) => `${word}: [${many(word.slice(0, 2))}]`)
    const { problems } = with_(`synonyms: {${table.join(', ')}}`)
    expect(problems).toMatchObject([{ code: 'synonym.many', message: expect.stringMatching(/at most 200$/) }])
  })

  it('has nothing to say of words that fit', () => {
    expect(with_('synonyms: {closed: [shut, buttoned up], squawk: [parrot]}').problems).toEqual([])
  })
})

describe('the run', () => {
  /** Answered at the doors, as typed. */
  const answered = (text: string, table = '{closed: [buttoned up], disarmed: [made safe]}') => {
    const { pack } = with_(`synonyms: ${table}`)
    const found = pack && listsOf(pack).find(({ entries }) => entries.some(({ id }) => id.endsWith('.doors')))
    const item = found?.entries.find(({ id }) => id.endsWith('.doors'))
    if (!pack || !found || !item) throw new Error('the pack has no doors')
    const floor = { at: 'item', list: found.id, item: item.id } as const
    const heard = { text, by: 'typed', listenId: 1, beganAt: 0, endedAt: 1 } as const
    return interpret(pack, { ...emptyRun('run'), status: 'running', floor, listenId: 1 }, heard).event
  }

  it.each([
    ['all buttoned up, slides armed', 'correct'],
    ['all doors are buttoned up and the slides are armed', 'correct'],
    ['all closed, slides made safe', 'negative'],
    ['not buttoned up, slides armed', 'negative'],
  ])('judges "%s" as %s', (text, verdict) => {
    expect(answered(text)).toMatchObject({ type: 'answered', judgement: { verdict } })
  })

  it('does not know them without the author', () => {
    expect(answered('all buttoned up, slides armed', '{on: [lit up]}')).not.toMatchObject({
      judgement: { verdict: 'correct' },
    })
  })
})

describe('the ear', () => {
  it('listens for them, denied too, and for what excludes a state', () => {
    const { pack } = with_('synonyms: {closed: [buttoned up], off: [dead cold]}')
    const vocabulary = pack && vocabularyOf(pack)
    const phrases = new Set(vocabulary?.phrases)
    for (const said of ['buttoned up', 'not buttoned up', 'dead cold', 'not dead cold']) {
      expect(
        [...phrases].some((text) => ` ${text} `.includes(` ${said} `)),
        said,
      ).toBe(true)
    }
    expect(vocabulary?.words).toEqual(expect.arrayContaining(['buttoned', 'dead', 'cold']))
    const grammar = vocabulary && jsgfOf(grammarOf({ shapes: [], yesNo: false }, vocabulary))
    expect(grammar).toContain('buttoned up')
  })

  it('listens for other names of what is read back, and Otherseat knows what "say again" is about', () => {
    const { pack } = with_('synonyms: {squawk: [parrot]}')
    expect(pack && vocabularyOf(pack).talk).toContain('parrot')
    const elements = pack?.phases.flatMap(({ activities }) =>
      activities.flatMap((one) => (one.type === 'exchange' ? one.turns.flatMap((turn) => turn.elements) : [])),
    )
    expect(elements?.find(({ label }) => label === 'squawk')?.alsoCalled).toContain('parrot')
  })
})
