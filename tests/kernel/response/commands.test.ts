import { describe, expect, it } from 'vitest'
import { tokensOf, transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { COMMANDS, LISTENED_FOR, phraseOf, readCommand, reasonIn } from '../../../src/kernel/response/commands.ts'

const NAMES = {
  lists: {
    beforeStart: ['before start'],
    taxi: ['taxi checklist', 'taxi'],
    landing: ['landing'],
    afterLanding: ['after landing'],
  },
  confirmable: { trim: ['takeoff trim', 'trim'], v1: ['V one'] },
}

describe('the standard phrases', () => {
  it.each([
    ['say again', 'sayAgain'],
    ['Say again, please.', 'sayAgain'],
    ['stand by', 'standBy'],
    ['uh, standby', 'standBy'],
    ['stand by one', 'standBy'],
    ['continue', 'continue'],
    ['disregard', 'disregard'],
    ['what is left', 'whatIsLeft'],
    ["what's left", 'whatIsLeft'],
    ['go back one', 'goBack'],
    ['from the top', 'fromTop'],
    ['leave it open', 'leaveOpen'],
    ['pass', 'pass'],
    ['pass, not fitted', 'pass', 'notFitted'],
    ['pass it, simulator fault', 'pass', 'simulatorFault'],
    ["pass, instructor's word", 'pass', 'instructorsWord'],
    ['pass training', 'pass', 'training'],
    ['confirm takeoff trim', 'confirm', 'trim'],
    ['confirm V1', 'confirm', 'v1'],
    ['remark hydraulic pump is noisy', 'remark', 'hydraulic pump is noisy'],
    ['Remark: five knots high', 'remark', 'five knots high'],
    ['before start checklist', 'call', 'beforeStart'],
    ['the before start checklist please', 'call', 'beforeStart'],
    ['taxi checklist', 'call', 'taxi'],
    ['landing checks', 'call', 'landing'],
    ['after landing checklist', 'call', 'afterLanding'],
    ['whats left', 'whatIsLeft'],
    ['and say again and', 'sayAgain'],
    ['pass this', 'pass'],
    ['pass item please', 'pass'],
    ['uh pass that sim fault please', 'pass', 'simulatorFault'],
    ['confirm the trim value', 'confirm', 'trim'],
    ['remark', 'remark', ''],
    ['please remark uh noisy pump please', 'remark', 'uh noisy pump please'],
    ['well please read me the landing list', 'call', 'landing'],
    ['checklist landing', 'call', 'landing'],
  ])('%s', (text, command, argument?: string) => {
    expect(readCommand(transcriptOf(text), NAMES)).toEqual(argument === undefined ? { command } : { command, argument })
  })

  it.each([
    'pass the salt',
    'confirm the moon',
    'five point two up',
    'say',
    'stand',
    'affirm',
    'negative',
    'not stand by yet',
    'before checklist',
    '',
    'continue descent to five thousand',
    'please',
    'say say again',
    'confirm',
    'pass it it',
    'landing landing',
    'banana landing checklist',
    'the checklist',
  ])('"%s" is none', (text) => {
    expect(readCommand(transcriptOf(text), NAMES)).toBeUndefined()
  })

  it.each([
    ['affirm', 'affirm'],
    ['affirmative', 'affirm'],
    ['uh, negative', 'negative'],
  ])('"%s" is %s only where a question is open', (text, command) => {
    expect(readCommand(transcriptOf(text), { yesNo: true })).toEqual({ command })
    expect(readCommand(transcriptOf(text))).toBeUndefined()
  })

  it('a name that two lists share calls neither', () => {
    expect(readCommand(transcriptOf('taxi checklist'), { lists: { a: ['taxi'], b: ['taxi'] } })).toBeUndefined()
  })

  it('a name that two figures share confirms neither', () => {
    expect(readCommand(transcriptOf('confirm trim'), { confirmable: { a: ['trim'], b: ['trim'] } })).toBeUndefined()
    expect(readCommand(transcriptOf('confirm trim'))).toBeUndefined()
  })

  it('a list whose name is "checklist" is called by just that', () => {
    const named = (text: string) => readCommand(transcriptOf(text), { lists: { only: ['checklist'] } })
    expect(named('checklist please')).toEqual({ command: 'call', argument: 'only' })
    expect(named('the checklist')).toBeUndefined()
  })

  const LISTS = {
    load: ['load figures list'],
    before: ['before start list'],
    after: ['after start list', 'after start'],
    taxi: ['taxi list'],
  }
  const calledBy = (text: string) => readCommand(transcriptOf(text), { lists: LISTS })

  it.each([
    ...["let's have the before start list please", "before start checklist, when you're ready", 'before start, please'],
    ...[
      'ready for the before start list',
      'could I have the before start list',
      'right captain, before start list, thanks',
    ],
    ...['can you read me the before start list', 'okay, go for the before start checklist', 'before start checks'],
    ...["lovely, let's have the before start list then mate, no rush", "let's run through the before start list now"],
    ...[
      'give me the before start list whenever you like',
      'time for the before start list',
      "I'd like the before start list",
    ],
  ])('"%s" calls a list', (text) => {
    expect(calledBy(text)).toEqual({ command: 'call', argument: 'before' })
  })

  it.each([
    ...['not ready for the before start list', 'no before start list yet', "I don't want the before start list"],
    ...['after the before start list', 'before the before start list', 'before start list in a minute'],
    ...['what is on the before start list', 'did we do the before start list', 'have we had the before start list'],
    ...[
      'before start list complete',
      'before start list is done',
      'we did the before start list',
      'before start list good',
    ],
    ...['before start list checked', 'before start list was fine', 'we are on the before start list'],
    ...['hold the before start list', 'skip the before start list', 'standing by for the before start list'],
    ...['the before start list can wait', 'before start list next', 'before start list or after start list'],
    ...['before start two', 'taxi light on', 'taxi clear', 'the before start list needs the fuel figures'],
  ])('"%s" calls none', (text) => {
    expect(calledBy(text)?.command).not.toBe('call')
  })

  it('forty words may be a remark, and more are talk', () => {
    const remark = (words: number) => readCommand(transcriptOf(`remark ${'noise '.repeat(words - 1)}`))?.command
    expect(remark(40)).toBe('remark')
    expect(remark(41)).toBeUndefined()
  })

  it('a reason by itself answers the question for it', () => {
    expect(reasonIn(tokensOf('not fitted'))).toBe('notFitted')
    expect(reasonIn(tokensOf('uh sim fault please'))).toBe('simulatorFault')
    expect(reasonIn(tokensOf('because'))).toBeUndefined()
    expect(reasonIn([])).toBeUndefined()
  })

  it('what the ear listens for is understood, and what a button names is listened for', () => {
    const read = (text: string) => readCommand(transcriptOf(text), { yesNo: true })?.command
    const notUnderstood = LISTENED_FOR.filter((text) => !read(text) && !reasonIn(tokensOf(text)))
    // It says nothing by itself: what is corrected follows from the place.
    expect(notUnderstood).toEqual(['correction'])
    const named = COMMANDS.filter((command) => phraseOf(command) !== '' && command !== 'correction')
    expect(named.filter((command) => read(phraseOf(command)) !== command)).toEqual([])
    expect(COMMANDS.filter((command) => phraseOf(command) === '')).toEqual(['skip', 'recheck', 'confirm', 'call'])
  })
})
