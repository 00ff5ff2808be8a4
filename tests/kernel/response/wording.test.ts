import { describe, expect, it } from 'vitest'
import { nearWordsOf } from '../../../src/kernel/response/wording.ts'
import { judgeText } from '../../corpus/judgeText.ts'

const accepts = (own: string, heard: string) => judgeText({ response: own, figures: {}, heard }).verdict === 'correct'

/** Own word: what may be heard for it; other words that are near in letters or sound. */
interface Words {
  readonly [own: string]: { readonly near: string; readonly other: string }
}

/** TUNING: the rules of nearness were made looking at these. */
const TUNING: Words = {
  armed: { near: 'arm arms armd harmed', other: 'charmed warmed armored army argued unarmed disarmed rearmed farmed' },
  closed: {
    near: 'close clothes clsoed closeed',
    other: 'closer closet clogged cloned clouded unclosed disclosed enclosed closing',
  },
  locked: {
    near: 'lock locks lokced',
    other: 'looked lodged logged blocked clocked unlocked interlocked locker locket',
  },
  stowed: { near: 'stow stows', other: 'stored stewed stoned stated unstowed stowing' },
  inserted: { near: 'insert inserts', other: 'inverted infected inspected inserting asserted' },
  connected: {
    near: 'connect connects conected',
    other: 'corrected collected conflicted connecting disconnected unconnected',
  },
  released: { near: 'release releases relased', other: 'reversed related relaxed releasing reset' },
}

/** CHECK: made apart; it showed one fault ("compete" for "complete"), and slips by a consonant are refused since. */
const CHECK: Words = {
  fastened: { near: 'fasten fastens fastned', other: 'fattened fastener fastest unfastened refastened hastened' },
  removed: { near: 'remove removes removd', other: 'renewed reproved remote moved removing unmoved' },
  extended: { near: 'extend extends', other: 'expended expanded extending intended extent' },
  retracted: { near: 'retract retracts retractd', other: 'restricted redacted retracting attracted extracted' },
  secured: { near: 'secure secures', other: 'seduced severed obscured unsecured insecure securing' },
  aligned: { near: 'align aligns', other: 'assigned malaligned misaligned unaligned aliens' },
  engaged: { near: 'engage engages', other: 'enraged encased disengaged engaging engraved' },
  received: { near: 'receive receives recieved', other: 'relieved reserved revived deceived receiving unreceived' },
  obtained: { near: 'obtain obtains', other: 'contained retained obtaining abstained' },
  checked: { near: 'check checks cheque', other: 'chewed choked chocked unchecked checking cheered' },
  complete: { near: 'completed', other: 'compete compute compile incomplete completing' },
  reviewed: { near: 'review reviews', other: 'revived renewed reviled reviewing viewed' },
  green: { near: 'greens', other: 'greet grey grown screen red' },
  idle: { near: 'idol idles', other: 'idly ideal bridle' },
  rich: { near: '', other: 'which rick ridge lean' },
  on: { near: '', other: 'one own in an off of won upon' },
  set: { near: 'sat sets', other: 'seat sit reset unset upset offset said let' },
}

describe.each([
  ['tuning', TUNING],
  ['check', CHECK],
] as const)('near words of the %s set', (_name, words) => {
  it.each(Object.entries(words))('"%s" takes its own forms and slips, and no other word', (own, { near, other }) => {
    const list = (text: string) => text.split(' ').filter((word) => word !== '')
    expect(accepts(own, own)).toBe(true)
    expect(list(near).filter((heard) => !accepts(own, heard))).toEqual([])
    expect(list(other).filter((heard) => accepts(own, heard))).toEqual([])
  })
})

describe('a word that is near', () => {
  const near = (own: readonly string[], heard: string) => nearWordsOf(own).near(heard)
  const misheard = (own: readonly string[], heard: string) => nearWordsOf(own).misheard(heard)

  it.each([
    ['extended', 'extnded extendedd extenedd'],
    ['locked', 'lokced locke'],
    ['brake', 'brakes barke brakke'],
    ['connected', 'conected connectted cnnected connetced'],
    ['stopped', 'stop stops stoped'],
    ['used', 'use uses'],
    ['red', 'reds'],
  ])('to "%s" is another form of it, or off by a vowel, a doubled letter or a swap: %s', (own, heard) => {
    for (const word of heard.split(' ')) expect([word, near([own], word)]).toEqual([word, own])
  })

  it.each([
    ['extended', 'etended xetended extendde extemded extenedx extendedextendedextend'],
    ['locked', 'lockde locksed loked'],
    ['brake', 'brke braek braker'],
    ['lock', 'lokc lcok loock'],
    ['used', 'us'],
    ['on', 'onn one'],
  ])('to "%s" keeps its first and last letter, and is neither short nor long: not %s', (own, heard) => {
    for (const word of heard.split(' ')) expect([word, near([own], word)]).toEqual([word, undefined])
  })

  it('to two of the item’s words is none of them', () => {
    expect(near(['insert', 'inserted'], 'inserts')).toBeUndefined()
    expect(near(['stow', 'stows'], 'stowed')).toBeUndefined()
  })

  it('is misheard for the item’s word, unless it is one itself', () => {
    expect(misheard(['armed', 'set'], 'harmed')).toBe('armed')
    expect(misheard(['closed'], 'close')).toBe('closed')
    expect(misheard(['close', 'closed'], 'close')).toBeUndefined()
    expect(misheard(['close', 'closed'], 'clothes')).toBe('closed')
    expect(misheard([], 'harmed')).toBeUndefined()
  })
})
