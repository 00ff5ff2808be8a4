/** How pilots take an answer for right: "checked", "that's correct, thanks", "list complete". Of words without those for attention. */

import { phrase } from '../hearing/phrases.ts'

const WORDS = [
  ...[
    'checked',
    'check',
    'checks',
    'agreed',
    'agree',
    'i agree',
    'i concur',
    'concur',
    'roger',
    'next',
    'next one',
    'ok',
  ],
  ...[
    'okay',
    'good',
    'fine',
    'very good',
    'all right',
    'alright',
    'right',
    'correct',
    '(?:that|it) is (?:correct|right|good|fine)',
  ],
  ...[
    '(?:that|it) (?:checks|agrees|matches)',
    'confirmed',
    'verified',
    'cross checked',
    'crosschecked',
    'affirm',
    'affirmative',
  ],
  ...[
    'yes',
    'yep',
    'yeah',
    'thank you',
    'thanks',
    'same here',
    'same',
    'got it',
    'copied',
    'i have the same',
    'no objection',
  ],
].join('|')
const GAP = String.raw`[\s,;:.!?-]*`
const ALL = new RegExp(`^(?:(?:${WORDS})${GAP})+$`)

/** Before the next challenge. */
export const AGREED_FIRST = new RegExp(`^(?:(?:${WORDS})\\b${GAP})+`)
const AGREED_LAST = new RegExp(`(?:${GAP}\\b(?:${WORDS}))+$`)

export const isAgreement = (text: string): boolean => ALL.test(text)

/** What stands before or behind it: "checked, one two six" -> "one two six". */
export const agreementTakenOff = (text: string): string =>
  text.toLowerCase().replace(AGREED_FIRST, '').replace(AGREED_LAST, '')

/** Of the list that is open: its last answer stands. */
export function isCompletion(text: string, list: string): boolean {
  const behind = text.replace(/^that completes /, '')
  const rest = behind.replace(/ ?(?:is )?completed?$/, '')
  if (rest === text) return false
  const withoutList = (words: string) => words.replace(/ ?\b(?:check)?list$/i, '')
  const name = withoutList(rest.replace(/^the /, ''))
  return name === '' || phrase(name) === phrase(withoutList(list))
}
