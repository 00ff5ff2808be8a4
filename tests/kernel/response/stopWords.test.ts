/** Cries to stop. Tuning data, written by two people who had not seen the rule. */

import { describe, expect, it } from 'vitest'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'
import { isStop } from '../../../src/kernel/response/stopWords.ts'

const STOPS = [
  ...[
    'Stop!',
    'Stop stop stop',
    'Stop push, stop push',
    'Ground from cockpit, stop pushback',
    'Stop the push, brakes set',
  ],
  ...['Hold it, hold it, hold it', 'Whoa whoa whoa', "Stop pushing, there's a truck behind us", 'Hold the push please'],
  ...['Ground, stop immediately', 'Abort', 'Abort the start', 'Stop the start, engine two', 'Cut it, cut it'],
  ...['Shut it down, shut it down', 'Cutoff, cutoff!', 'Engine fire', 'Fire, fire, fire!', 'Stop everything'],
  ...['Everybody stop', 'Everyone hold what you are doing', 'Knock it off', 'Freeze', 'Halt', 'Emergency stop'],
  ...[
    'Emergency emergency',
    'Hang on, stop there',
    'Okay stop, something is wrong',
    'Please to stop now',
    'Stopp! Stopp!',
  ],
  ...['We must stop immediately', 'Stop checklist, we have a problem', 'Stop stop, standby, emergency'],
  ...['Cockpit to ground, stop, stop, stop', 'Mate, stop before you hit something', 'Evacuate, evacuate'],
  ...['correction, stop', 'negative stop', 'otherseat stop', 'saltmarsh four two one stop'],
  ...[
    'Jesus, stop this thing!',
    "Can you stop, I've got people under the nose!",
    'Steady, steady, stop! You nearly hit it',
  ],
  ...["We're rolling, stop us!", 'Forget it, stop everything.', 'I have control, stop.', 'Stand by, stop reading'],
]
const OTHERS = [
  ...['Start engine two', 'Ready to start', 'Request startup and pushback', 'Emergency lights armed'],
  ...[
    'Emergency exit lights arm',
    'Stop bars are off',
    'Hold short of runway two four',
    'Push complete, we have stopped',
  ],
  ...['Engine start switches continue', 'In case of an abort I call stop before V one', 'Cutoff levers, cutoff'],
  ...['Speedbrake stop is checked', 'Fire test checked', 'Non stop to Marram, no emergency equipment missing'],
  ...['do not stop', 'unable to stop the leak', 'hold short', 'cutoff', 'two four three six zero', ''],
  ...['Push and start approved, stop abeam stand twenty-four.', 'Climb six thousand, stop climb at six thousand.'],
  ...[
    'Accelerate-stop distance is fine.',
    'Stop way on this runway is sixty metres.',
    "I can't stop thinking about that",
  ],
  ...["In case of a fire I'll call stop and close the levers.", "After V one we don't stop", 'no fuel stop needed'],
  ...['Abort procedure is the same as yesterday', 'Above eighty knots we only abort for fire'],
]

describe('a cry to stop', () => {
  it.each(STOPS)('is "%s"', (text) => expect(isStop(tokensOf(text))).toBe(true))
  it.each(OTHERS)('is not "%s"', (text) => expect(isStop(tokensOf(text))).toBe(false))

  it.each([
    'stop before V one',
    'stop for anything',
    'abort the takeoff below eighty knots',
    'we stop',
    'engine failure',
  ])('is not "%s" in a briefing, where people talk of stopping', (text) =>
    expect(isStop(tokensOf(text), true)).toBe(false),
  )
  it.each(['stop', 'stop stop', 'stop the push now', 'abort', 'ground, stop pushing', 'emergency'])(
    'is "%s" in a briefing too',
    (text) => expect(isStop(tokensOf(text), true)).toBe(true),
  )
})
