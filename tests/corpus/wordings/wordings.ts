/**
 * Answers written by hand as eighteen different pilots would say them, from the item and its values alone, by writers who
 * saw neither code nor tests. `tuning`: two of them, for tuning from the beginning. `earlier` (four) and `later` (six, who
 * had other items as well) and `check` (two more) were each judged unseen once, and are tuning data since. `author`: by one
 * who mended the rules afterwards, and so the weakest. Each line is right, wrong in one thing, half, or without the value
 * that was asked for. `tricky`: two who tried to have wrong answers accepted. `last`: four more, with items that nobody had
 * seen before, judged unseen when the rules were finished (198 of 288 right answers understood, of 113 wrong ones none and of
 * 79 half ones two accepted), and tuning data since. `next`: three more, other items, judged unseen (197 of 312 right ones
 * understood, of 156 wrong and 78 half ones none accepted). `further`: two more, other items again, asked for what they
 * would say rather than for variety (126 of 160; 0 of 40 wrong, 0 of 40 half). Both tuning data since.
 */

import { readFileSync } from 'node:fs'
import type { Figures } from '../../../src/kernel/kinds/kind.ts'
import { tokensOf, transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { judgeCall } from '../../../src/kernel/response/call.ts'
import { judge } from '../../../src/kernel/response/judge.ts'
import { isStateWord, opposites } from '../../../src/kernel/response/lexicon.ts'
import type { Judgement } from '../../../src/kernel/response/model.ts'
import { judgeReadBack } from '../../../src/kernel/response/readBack.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import { FURTHER_ITEMS } from './furtherItems.ts'
import { ITEMS, type WordedItem } from './items.ts'
import { LAST_ITEMS } from './lastItems.ts'
import { LATER_ITEMS } from './laterItems.ts'
import { NEXT_ITEMS } from './nextItems.ts'

export interface Wording {
  /** Kind of pilot. */
  readonly by: string
  readonly item: string
  readonly text: string
  readonly truth: 'right' | 'wrong' | 'half' | 'valueless'
  readonly what?: string
}

export const wordingsOf = (
  set: 'tuning' | 'earlier' | 'later' | 'check' | 'author' | 'last' | 'next' | 'further' | 'tricky',
): readonly Wording[] =>
  readFileSync(new URL(`${set}.jsonl`, import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as Wording)

const ALL_ITEMS = [...ITEMS, ...LATER_ITEMS, ...LAST_ITEMS, ...NEXT_ITEMS, ...FURTHER_ITEMS]
const BY_ID = new Map(ALL_ITEMS.map((item) => [item.id, item]))

export function itemOf({ item }: Wording): WordedItem {
  const found = BY_ID.get(item)
  if (!found) throw new Error(`no item is called ${item}`)
  return found
}

/** The same item's responses, parsed once. */
const parsed = new Map(
  ALL_ITEMS.map(({ id, kind, response = 'nothing', elements = [] }) => {
    const signed = kind === 'information' ? elements : [...elements, ['callsign', '[<callsign>]'] as const]
    return [
      id,
      {
        response: responseFrom(response),
        elements: signed.map(([name, text]) => ({ id: name, label: name, response: responseFrom(text) })),
      },
    ]
  }),
)

const SIGNS: Figures = { callsign: { kind: 'callsign', telephony: ['Marsh', 'Pipit'], value: 'MARSH 421' } }
const OTHER_SIGNS: Figures = { callsign: { kind: 'callsign', telephony: ['Marsh', 'Pipit'], value: 'PIPIT 27' } }

/** With the call sign of whoever reads back. */
export function figuresOf(wording: Wording): Figures {
  const { seen, figures, elements, kind } = itemOf(wording)
  if (!elements || kind === 'information') return figures
  return { ...figures, ...(seen.startsWith('Call sign Pipit') ? OTHER_SIGNS : SIGNS) }
}

export function judgeWording(wording: Wording, text = wording.text, isTyped = false): Judgement {
  const { id, kind, challenge = '', figures, states = [], elements } = itemOf(wording)
  const made = parsed.get(id)
  const heard = transcriptOf(text)
  if (!made) return { verdict: 'sayAgain', parts: [] }
  if (elements) return judgeReadBack(made.elements, { heard, figures: figuresOf(wording) })
  const asked = { challenge, response: made.response, figures, states, heard, isTyped }
  return kind === 'call' ? judgeCall(asked) : judge(asked)
}

const DIGITS = 'zero one two three four five six seven eight nine'.split(' ')
const TENS = 'twenty thirty forty fifty sixty seventy eighty ninety'.split(' ')
const TEENS = 'ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(' ')
const LETTERS = 'alfa bravo charlie delta echo golf kilo'.split(' ')

function othersOf(word: string): readonly string[] {
  const digit =
    word === 'niner' ? 'nine' : word === 'oh' ? 'zero' : word === 'fife' ? 'five' : word === 'tree' ? 'three' : word
  if (digit !== 'zero' && DIGITS.includes(digit)) return [...DIGITS.filter((other) => other !== digit), '']
  for (const list of [DIGITS, TENS, TEENS, LETTERS])
    if (list.includes(digit)) return list.filter((other) => other !== digit)
  return isStateWord(word) ? [...opposites(word), `not ${word}`] : []
}

/** A right answer made wrong in one place: a digit lost, another digit, letter or state, or its state denied, in what it was right by. */
export function* madeWrong(wording: Wording): Generator<string> {
  const { verdict, parts } = judgeWording(wording)
  const words = tokensOf(wording.text).map(({ text }) => text)
  if (verdict !== 'correct' || CORRECTED.test(wording.text)) return
  for (const { heard, name } of parts) {
    // Said twice it would be wrong once only.
    if (heard === undefined || heard.includes(',') || name === 'callsign' || name === 'cs') continue
    const own = heard.split(' ')
    const at = words.findIndex((_, index) => own.every((word, i) => words[index + i] === word))
    for (const [index, word] of own.entries()) {
      // "On the runway track" is no state.
      const isPreposition = /^(on|off)$/.test(word) && /^(the|my|our)$/.test(words[at + index + 1] ?? '')
      // "Twenty one point six" is one twenty one point six on the radio.
      const isHundred = word === 'one' && (TENS.includes(own[index + 1] ?? '') || TEENS.includes(own[index + 1] ?? ''))
      const others = at < 0 || isPreposition ? [] : othersOf(word)
      for (const other of others.filter((one) => one !== '' || !isHundred)) {
        yield [...words.slice(0, at + index), other, ...words.slice(at + index + 1)].join(' ')
      }
    }
  }
}
const CORRECTED = /\b(correction|sorry|pardon|mean|meant|make (it|that)|scratch|wait|rather|no)\b/
