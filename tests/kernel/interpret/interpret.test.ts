/** What one utterance means, by the place where the run is: a row for each rule, and for what it leaves to later ones. */

import { describe, expect, it } from 'vitest'
import { wordsNeeded } from '../../../src/kernel/hearing/grammar.ts'
import type { Heard } from '../../../src/kernel/hearing/heard.ts'
import { vocabularyOf } from '../../../src/kernel/hearing/vocabulary.ts'
import { interpret } from '../../../src/kernel/interpret/interpret.ts'
import { RULES } from '../../../src/kernel/interpret/rules.ts'
import { utteranceOf } from '../../../src/kernel/interpret/utterance.ts'
import type { RunState } from '../../../src/kernel/run/core/state.ts'
import { PACK, testRun } from '../run/fixture.ts'
import { atFlap, atTrim, PLACES, WHOLE } from './places.ts'

const heardAt = ({ state }: { readonly state: RunState }, text: string, more: Partial<Heard>): Heard => ({
  ...{ text, by: 'voice', listenId: state.listenId, beganAt: 9_000, endedAt: 9_500 },
  ...more,
})

const TYPING = { by: 'typed' } as const
const answered = (item: string, verdict: string, because?: string) => ({
  type: 'answered',
  item,
  judgement: { verdict, ...(because && { because }) },
})
const commanded = (command: string, argument?: string) => ({
  type: 'commanded',
  command,
  ...(argument !== undefined && { argument }),
})
const transmitted = (turn: string, part: string, verdict: string) => ({
  type: 'transmitted',
  turn,
  part,
  judgement: { verdict },
})
const OVERHEARD = { type: 'overheard' }
/** The screen says that nothing was made of it. */
const UNCLEAR = { type: 'overheard', meant: true }
const TO_START = { type: 'overheard', watch: 'engine' }

type Row = readonly [place: keyof typeof PLACES, text: string, event: object, more?: Partial<Heard>]

const ROWS: readonly Row[] = [
  ['in a flow', '', OVERHEARD],
  ['in a flow', 'done', OVERHEARD, { doubt: 'otherSpeech' }],
  ['in a flow', 'done', { type: 'flowClosed', flow: 'loadFlow' }],
  ['in a flow', 'done', OVERHEARD, { doubt: 'unsure' }],
  ['in a flow', 'stop', commanded('stop')],
  ['at the first item', 'stop stop stop', commanded('stop'), { listenId: 0 }],
  ['standing by', 'emergency stop', commanded('stop')],
  ['at a yes-or-no question', 'stop', commanded('stop')],
  ['in the engine start', 'abort start', commanded('stop')],
  ['in the engine start', 'fuel off', commanded('stop')],
  ['before the engine start', 'fuel off', OVERHEARD],
  ['with the ground crew', 'stop the push', commanded('stop'), { doubt: 'onsetCut' }],
  ['after a stop with people around', 'brakes set', commanded('affirm')],
  ['after a stop with people around', 'ready to push', OVERHEARD],
  ['interrupted on purpose', 'one moment', { type: 'breakOver' }],
  ['interrupted on purpose', 'five point two up', answered('load.trim', 'correct')],
  ['after the other seat has answered', 'check that', { type: 'objected', to: 'any' }],
  ['after the other seat has answered', 'negative, one five', { type: 'objected', to: 'value' }],
  ['after the other seat has answered', 'you skipped the takeoff trim', { type: 'objected', to: 'skipped' }],
  ['after the other seat has answered', 'closed', answered('load.windows', 'correct')],
  ['where the pilot challenges', 'takeoff trim', { type: 'challenged', item: 'load.trim' }],
  ['where the pilot challenges', 'five point two up', { ...OVERHEARD, unchallenged: true }],
  ['where Otherseat has answered', 'checked', { type: 'accepted', item: 'load.trim' }],
  ['where Otherseat has answered', 'checked, flap', { type: 'challenged', item: 'load.flap' }],
  ['where Otherseat has answered', 'negative, five point six up', { type: 'objected', to: 'value' }],
  ['where Otherseat has answered', 'negative, five point two up', { type: 'objected', to: 'value' }],
  ['in a flow', 'read me the steps', { type: 'flowAsked', flow: 'loadFlow' }],
  ['in a flow', 'load list', { type: 'listCalled', list: 'load' }],
  ['in a flow', 'the weather is fine today', OVERHEARD],
  ['in a flow', 'self manoeuvring', { type: 'situationSet', name: 'stand', value: 'self' }],
  ['in a flow', 'push back', OVERHEARD],
  ['in a flow', 'continue', OVERHEARD],
  ['in a flow', 'continue', commanded('continue'), TYPING],
  ['in a flow', 'remark Bird near the engine', commanded('remark', 'Bird near the engine')],
  ['in a flow', 'confirm takeoff trim', commanded('confirm', 'trim')],
  ['in a flow', 'affirm', OVERHEARD],
  ['in a flow', 'correction', commanded('correction', '')],
  ['in a flow', 'cross check takeoff trim', { type: 'crossCheckAsked', figure: 'trim', source: 'loadSheet' }],
  ['in a flow', 'cross check the takeoff trim from the load sheet', { type: 'crossCheckAsked', source: 'loadSheet' }],
  ['in a flow', 'cross check takeoff trim from the takeoff data', { type: 'crossCheckAsked', source: 'takeoffData' }],
  ['in a flow', 'cross check takeoff trim from the moon', { type: 'crossCheckAsked', source: '' }],
  ['in a flow', 'cross check takeoff trim', OVERHEARD, { doubt: 'faint' }],
  ['in a flow with words for its steps', 'trim is set', { type: 'stepDone', step: 'loadFlow.setTrim' }],
  ['in a flow with words for its steps', 'checked', OVERHEARD],
  [
    'in a flow with words for its steps',
    'okay, the trim is set, no problem',
    { type: 'stepDone', step: 'loadFlow.setTrim' },
  ],
  ['in a flow with words for its steps', 'is the trim set', UNCLEAR],
  ['in a flow with words for its steps', 'trim is set, papers checked, nice weather', UNCLEAR],
  ['in a flow with words for its steps', 'trim is not set', UNCLEAR],
  ['in a flow', "let's have the load list please", { type: 'listCalled', list: 'load' }],
  ['in a flow', 'not ready for the load list', UNCLEAR],
  ['in a flow', 'the weather is fine today', UNCLEAR, TYPING],
  ['in a flow that is read out', 'checked', { type: 'stepDone', step: 'loadFlow.papers' }],

  ['at the first item', 'five point two up', answered('load.trim', 'correct')],
  ['at the first item', 'five point four up', answered('load.trim', 'negative', 'value')],
  ['at the first item', 'five point two', answered('load.trim', 'incomplete')],
  [
    'at the first item',
    'five point two up',
    answered('load.trim', 'sayAgain', 'notUnderstood'),
    { doubt: 'unsure', score: 0.4 },
  ],
  ['at the first item', 'stand by', commanded('standBy')],
  ['at the first item', 'pass, simulator fault', commanded('pass', 'simulatorFault')],
  ['at the first item', 'start list', { type: 'listCalled', list: 'start' }],
  ['in a flow, with a start to come', 'hot start', { type: 'watchStopped', watch: 'engine', abnormal: 'hot' }],
  ['at an item, with a start to come', 'starting', { type: 'watchBegan', watch: 'engine' }],
  ['at the first item', 'self manoeuvring', { type: 'situationSet', name: 'stand', value: 'self' }],
  ['at the first item', 'nice weather over there', OVERHEARD],
  ['at the first item', 'nice weather over there', answered('load.trim', 'sayAgain', 'notUnderstood'), TYPING],
  ['at the first item', 'one two three four five six seven', answered('load.trim', 'sayAgain', 'notUnderstood')],
  [
    'at the first item',
    'point two up',
    { type: 'voided', item: 'load.trim', because: 'onsetCut' },
    { doubt: 'onsetCut' },
  ],
  ['at the first item', 'five point two up', { type: 'voided', item: 'load.trim', because: 'late' }, { listenId: 0 }],
  // Nothing was closed yet that it could be about, or something was said on this item: it takes the place of that.
  ['at the first item', 'correction five point two up', answered('load.trim', 'correct')],
  ['at the first item', 'correction six point one up, correction, five point two up', answered('load.trim', 'correct')],
  ['at the item after it', 'fourteen', answered('load.flap', 'correct')],
  ['at the item after it', 'correction', commanded('correction', '')],
  ['at the item after it', 'Correction, 5.6 up', commanded('correction', '5.6 up')],
  ['at the item after it', 'uh, correction five point six up', commanded('correction', 'five point six up')],
  [
    'at the item after it',
    'correction five point six up',
    answered('load.flap', 'sayAgain'),
    { doubt: 'unsure', score: 0.4 },
  ],
  ['at an item that was missed', 'correction fourteen', answered('load.flap', 'correct')],
  ['at an item that was not understood', 'one two three four five six seven', OVERHEARD],
  ['at an item that was not understood', 'point two up', OVERHEARD, { doubt: 'unsure' }],
  ['at an item that was not understood', 'five point two up', answered('load.trim', 'correct')],
  [
    'where figures have just changed',
    'five point two up',
    { type: 'voided', item: 'load.trim', because: 'figuresChanged' },
    { listenId: 2 },
  ],
  ['at an item whose figure is missing', 'five point two up', answered('load.trim', 'sayAgain', 'notUnderstood')],
  ['at an item whose figure is missing', 'leave it open', commanded('leaveOpen')],

  ['at the line', 'cleared to push', { type: 'cleared', clearance: 'push' }],
  ['at the line', 'cleared to push', OVERHEARD, { doubt: 'unsure' }],
  ['at the line', 'not cleared to push', OVERHEARD],
  ['at the line', 'what is left', commanded('whatIsLeft')],

  ['standing by', 'continue', commanded('continue')],
  ['standing by', 'five point two up', OVERHEARD],
  ['standing by', 'cross check takeoff trim', OVERHEARD],
  ['standing by', 'load list', { type: 'listCalled', list: 'load' }],

  ['at a yes-or-no question', 'affirm', commanded('affirm')],
  ['at a yes-or-no question', 'no', commanded('negative')],
  ['at a yes-or-no question', 'correction', commanded('correction', '')],
  ['at a yes-or-no question', 'affirm', OVERHEARD, { doubt: 'unsure' }],
  ['at a yes-or-no question', 'five point two up', OVERHEARD],
  ['at a yes-or-no question', 'five point two up', commanded('sayAgain'), TYPING],

  ['asked for the reason of a pass', 'not fitted', commanded('pass', 'notFitted')],
  ['asked for the reason of a pass', 'sim fault', commanded('pass', 'simulatorFault')],
  ['asked for the reason of a pass', 'training, please', commanded('pass', 'training')],
  ['asked for the reason of a pass', "pass, instructor's word", commanded('pass', 'instructorsWord')],
  ['asked for the reason of a pass', 'not fitted', OVERHEARD, { doubt: 'unsure' }],
  ['asked for the reason of a pass', 'negative', commanded('negative')],
  ['asked for the reason of a pass', 'disregard', commanded('disregard')],
  ['asked for the reason of a pass', 'five point two up', OVERHEARD],
  ['asked for the reason of a pass', 'because', commanded('sayAgain'), TYPING],

  [
    'asked to read a value',
    'takeoff trim five point four up',
    { type: 'stated', source: 'loadSheet', figure: 'trim', value: 5.4 },
  ],
  ['asked for their own value', 'five point two up', { type: 'ownValueSaid', value: 5.2, isRight: true, causes: [] }],
  ['asked for their own value', 'five point two', { type: 'ownValueBegun', figure: 'trim', lacks: 'direction' }],
  ['asked for their own value', 'my trim is six point one up', { type: 'ownValueSaid', value: 6.1, isRight: false }],
  ['asked to read a value', 'five point four up', OVERHEARD, { doubt: 'unsure' }],
  ['asked to read a value', 'disregard', commanded('disregard')],
  ['asked to read a value', 'hard to say', commanded('sayAgain')],
  ['asked to read a value', 'cross check takeoff trim', commanded('sayAgain')],

  ['before the engine start', 'starting', { type: 'watchBegan', watch: 'engine', at: 9_000 }],
  ['in the engine start', 'rotation', { type: 'watchCalled', call: 'rotation', at: 9_000 }],
  ['in the engine start', 'rotation', OVERHEARD, { doubt: 'unsure' }],
  ['in the engine start', 'rotation', TO_START, { doubt: 'unsure', score: 0.4 }],
  ['in the engine start', 'hot start', { type: 'watchStopped', abnormal: 'hot', at: 9_000 }],
  ['in the engine start', 'stable five eight', { type: 'watchCalled', call: 'stable', value: 58, inRange: true }],
  ['in the engine start', 'stable six four', { type: 'watchCalled', call: 'stable', value: 64, inRange: false }],
  ['in the engine start', 'stable', { type: 'watchCalled', call: 'stable' }],
  ['in the engine start', 'five eight', OVERHEARD],
  ['in the engine start', 'stable negative', TO_START],
  ['in the engine start', 'stable disregard', TO_START],
  ['in the engine start', 'stable point', TO_START],
  ['in the engine start', 'stable or light', TO_START],
  ['in the engine start', 'we have a nice rotation here', TO_START],
  ['in the engine start', 'rotation', TO_START, { doubt: 'onsetCut' }],
  ['in the engine start', 'it is coming up nicely now', OVERHEARD],
  ['in the engine start', 'did you see how slow the rotation was on the other one', OVERHEARD],
  ['in the engine start', 'five eight', OVERHEARD],
  ['in the engine start', 'silent', OVERHEARD],
  ['in the engine start', '', OVERHEARD],
  ['in the engine start', 'N two is alive', TO_START, TYPING],
  ['in the engine start, a call questioned', 'not rotation', TO_START],
  ['in the engine start, a call questioned', 'did you see that bird', OVERHEARD],
  ['before the engine start', 'not starting', TO_START],
  ['before the engine start', 'we go', OVERHEARD],
  ['in the engine start', 'stand by', commanded('standBy')],
  ['in the engine start, a value asked for', 'negative', OVERHEARD],
  ['in the engine start, a value asked for', 'disregard', commanded('disregard')],
  ['in the engine start, a value asked for', 'point', OVERHEARD],
  ['in the engine start, a value asked for', 'at five eight', { type: 'watchCalled', call: 'stable', value: 58 }],
  ['in the engine start, a call questioned', 'affirm', commanded('affirm')],
  ['in the engine start, a call questioned', 'rotation', { type: 'watchCalled', call: 'rotation' }],
  ['after a start that was stopped', 'from the top', commanded('fromTop')],
  ['after a start that was stopped', 'fuel off', { type: 'overheard', watch: 'engine' }],
  ['after a start that was stopped', 'starting', { type: 'watchBegan', watch: 'engine' }],

  ['before a clearance', 'delivery request clearance', transmitted('clearance.full', 'call', 'correct')],
  ['before a clearance', 'correction', commanded('correction', '')],
  ['after a clearance was said', WHOLE, transmitted('clearance.full', 'readBack', 'correct')],
  ['after a clearance was said', `Sandmere Delivery, ${WHOLE}`, transmitted('clearance.full', 'readBack', 'correct')],
  ['after a clearance was said', 'squawk four two seven two', transmitted('clearance.full', 'readBack', 'negative')],
  [
    'after a clearance was said',
    WHOLE,
    transmitted('clearance.full', 'readBack', 'sayAgain'),
    { doubt: 'faint', score: 0.3 },
  ],
  ['after a clearance was said', WHOLE, OVERHEARD, { doubt: 'onsetCut' }],
  ['after a clearance was said', 'say again', commanded('sayAgain')],
  ['after a clearance was said', 'Please say again the code.', commanded('sayAgain', 'code')],
  ['after a clearance was said', 'Sandmere Delivery, say again your level', commanded('sayAgain', 'level')],
  ['after a clearance was said', 'confirm squawk', commanded('sayAgain', 'code')],
  ['after a clearance was said', 'say again all after departure', commanded('sayAgain', 'after sid')],
  ['after a clearance was said', 'say again all before level', commanded('sayAgain', 'before level')],
  ['after a clearance was said', 'roger', transmitted('clearance.full', 'readBack', 'incomplete')],
  ['after a clearance was said', 'did you see that bird', OVERHEARD],
  ['standing by with a read-back owed', WHOLE, transmitted('clearance.full', 'readBack', 'correct')],
  ['standing by with a read-back owed', 'did you see that bird', OVERHEARD],
  [
    'where the controller says another value',
    'negative, squawk four two seven one',
    transmitted('clearance.full', 'readBack', 'incomplete'),
  ],
  [
    'after a wrong read-back was called correct',
    'correction, squawk four two seven one',
    transmitted('clearance.full', 'readBack', 'incomplete'),
  ],
  [
    'after a wrong read-back was called correct',
    'confirm squawk four two seven one',
    transmitted('clearance.full', 'readBack', 'incomplete'),
  ],
  ['after a wrong read-back was called correct', 'say again squawk', OVERHEARD],
  ['after a wrong read-back was called correct', 'correction', commanded('correction', '')],

  ['in a briefing', 'first level five thousand', { type: 'briefed', topics: { 'briefing.level': 'ok' } }],
  ['in a briefing', 'first level six thousand', { type: 'briefed', topics: { 'briefing.level': 'wrong' } }],
  ['in a briefing', 'rejected takeoff, briefing complete', { type: 'briefed', ends: true }],
  ['in a briefing', 'briefing complete', { type: 'briefingEnded', briefing: 'briefing' }],
  ['in a briefing', 'briefing not complete', OVERHEARD],
  ['in a briefing', 'first level five thousand', OVERHEARD, { doubt: 'unsure' }],
  ['in a briefing', 'correction squawk four two seven one', commanded('correction', 'squawk four two seven one')],
  ['in a briefing under way', 'correction first level five thousand', { type: 'briefed' }],
  ['with a ground crew that waits for a step', 'power on line', { type: 'stepDone', step: 'gone.power' }],
  ['with the ground crew', 'power on line', { type: 'transmitted' }, { by: 'typed' }],
  ['at the first item', 'recheck the magic carpet', commanded('recheck')],
  ['at the first item', 'recheck takeoff trim five point two up', commanded('recheck')],
  ['at the first item', 'recheck', commanded('recheck')],
  ['at the first item', 'recheck flap', commanded('recheck', 'flap')],
  ['at the item after it', 'please recheck the door', commanded('recheck'), TYPING],
  ['in a flow', 'recheck the magic carpet', commanded('recheck')],
  ['with the ground crew', 'recheck transponder', commanded('recheck', 'transponder')],
  ['with the ground crew', 'beacon on', transmitted('crew.beacon', 'call', 'correct')],
  ['with the ground crew', 'ready to push', transmitted('crew.push', 'call', 'correct')],

  ['at an order that differs', 'affirm', commanded('affirm')],
  ['at an order that differs', 'flap five', transmitted('flap.order', 'call', 'correct')],
  ['at an order that differs', 'correction, flap five', transmitted('flap.order', 'call', 'correct')],
  ['at an order that differs', 'correction', commanded('correction', '')],
  ['at an order that differs', 'correction, nice weather over there', OVERHEARD],
]

const NAMES = RULES.map(({ name }) => name)

/** Which rule makes something of a row. */
function ruleOf([place, text, _, more = {}]: Row): string | undefined {
  const [pack, run] = PLACES[place]
  const utterance = utteranceOf(pack, run.state, heardAt(run, text, more))
  return RULES.find(({ applies, read }) => applies(utterance) && read(utterance))?.name
}

function isListenedFor([place, text]: Row): boolean {
  const known = new Set(wordsNeeded(vocabularyOf(PLACES[place][0])))
  return text
    .toLowerCase()
    .split(/[\s,]+/)
    .every((word) => word === '' || known.has(word))
}

describe('an utterance', () => {
  it.each(ROWS.map(([place, text, event, more = {}]) => ({ place, text, event, more })))(
    '$place: "$text" is $event',
    ({ place, text, event, more }) => {
      const [pack, run] = PLACES[place]
      expect(interpret(pack, run.state, heardAt(run, text, more)).event).toMatchObject({ ...event, evidence: { text } })
    },
  )

  it('is tried by every rule in some row here', () => {
    const deciding = ROWS.map(ruleOf)
    expect(NAMES.filter((name) => !deciding.includes(name))).toEqual([])
  })

  it('is in words that the ear listens for, in some row of each rule', () => {
    const heard = ROWS.filter(isListenedFor).map(ruleOf)
    expect(NAMES.filter((name) => !heard.includes(name))).toEqual([])
  })
})

describe('talk beside an engine start', () => {
  it.each([
    ['in the engine start', 'it is coming up nicely now'],
    ['in the engine start', 'did you see how slow the rotation was on the other one'],
    ['in the engine start', 'five eight'],
    ['in the engine start', 'silent'],
    ['in the engine start', ''],
    ['in the engine start, a call questioned', 'did you see that bird'],
    ['before the engine start', 'we go'],
    ['in a flow', 'rotation'],
  ] as const)('%s: "%s" is not asked for again', (place, text) => {
    const [pack, run] = PLACES[place]
    expect(interpret(pack, run.state, heardAt(run, text, {})).event).not.toHaveProperty('watch')
  })

  it('is not, where one of the ear’s passes took it for other speech', () => {
    const [pack, run] = PLACES['in the engine start']
    expect(interpret(pack, run.state, heardAt(run, 'rotation', { doubt: 'unsure' })).event).not.toHaveProperty('watch')
  })
})

describe('words that nothing is made of', () => {
  it('are told on the screen, but for what the ear takes for other speech', () => {
    const at = (place: keyof typeof PLACES, text: string, more: Partial<Heard> = {}) => {
      const [pack, run] = PLACES[place]
      return interpret(pack, run.state, heardAt(run, text, more)).event
    }
    expect(at('in a flow', 'beacon off')).toMatchObject(UNCLEAR)
    expect(at('in a flow', 'beacon off', { doubt: 'unsure' })).not.toHaveProperty('meant')
    expect(at('in a flow', 'beacon off', { doubt: 'otherSpeech' })).not.toHaveProperty('meant')
    expect(at('in a flow', '', TYPING)).not.toHaveProperty('meant')
    expect(at('standing by', 'beacon off')).not.toHaveProperty('meant')
    expect(at('standing by', 'beacon off', TYPING)).toMatchObject(UNCLEAR)
    expect(at('at the first item', 'nice weather over there')).not.toHaveProperty('meant')
  })
})

describe('"correction" and what is said after it', () => {
  it('leaves the rest to be taken as the answer to what is open again, on all that the ear made of it', () => {
    const [pack, run] = atFlap
    const heard = heardAt(run, 'Correction, five point six up', {
      score: 0.8,
      alternatives: [{ text: 'correction five point two up', score: 0.75 }, { text: 'direction five point six up' }],
    })
    expect(interpret(pack, run.state, heard).rest).toEqual({
      ...heard,
      text: 'five point six up',
      alternatives: [{ text: 'five point two up', score: 0.75 }, { text: 'direction five point six up' }],
    })
  })

  it('leaves nothing where nothing is said after it', () => {
    const [pack, run] = atFlap
    expect(interpret(pack, run.state, heardAt(run, 'correction', {})).rest).toBeUndefined()
  })
})

describe('a place that the pack does not have', () => {
  it('is named in plain words', () => {
    const state: RunState = { ...testRun().state, floor: { at: 'item', list: 'load', item: 'load.nope' } }
    const heard = heardAt({ state }, 'five point two up', {})
    expect(() => interpret(PACK, state, heard)).toThrow('pack fixture has no item load.nope')
  })
})

describe('what is told of an answer', () => {
  it('is what it rested on, and the revisions at the challenge and at the verdict', () => {
    const [pack, run] = atTrim
    const heard = heardAt(run, 'five point two up', { ...TYPING, score: 0.9, early: true })
    expect(interpret(pack, run.state, heard).event).toMatchObject({
      evidence: { by: 'typed', text: 'five point two up', score: 0.9, early: true, beganAt: 9_000, endedAt: 9_500 },
      expected: { trim: 5.2 },
      challengeRevision: 1,
      revision: 1,
    })
  })
})
