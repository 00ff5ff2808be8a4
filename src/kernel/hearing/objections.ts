/**
 * What a pilot says to a partner who errs, as the ear listens for it: objections, what goes on from an answer, and words for
 * whoever interrupts. Nothing of it hangs on what is right or wrong at the moment (law 2). What is made of such words, and of
 * many more that are typed, is in `interpret/disputed.ts` and `agreed.ts`.
 */

/** Something that was said is not right, whatever it is. */
const DOUBTS = [
  ...['check that', 'negative', 'that is wrong', 'that is not right', 'not right', 'are you sure', 'i disagree'],
  ...['confirm that', 'check again', 'confirm', 'value', 'no', "that's wrong", "that's not right", "i don't agree"],
] as const

const NOT_FOR_US = [
  ...[
    'not for us',
    'that was not for us',
    'that is not for us',
    'not our call',
    'not our call sign',
    'wrong call sign',
  ],
  ...['that was not us', 'not us', 'negative not for us', 'that was for somebody else'],
] as const

const NOT_COMPLETE = [
  ...[
    'not complete',
    'negative not complete',
    'the list is not complete',
    'list is not complete',
    'it is not complete',
  ],
  ...['list not complete', 'checklist not complete', 'not complete yet'],
] as const

/** Before the name of what was gone by. */
const SKIPPED = ['you skipped', 'you missed', 'we skipped', 'we missed', 'you left out', 'what about'] as const

/** Before the right value. */
export const INSTEAD = [
  ...['negative', 'no', 'i have', 'should be', 'it should be', 'that should be', "it's", "that's"],
  ...['the card says', 'the sheet says'],
] as const

/** An answer stands. */
const ACCEPTED = [
  'checked',
  'check',
  'agreed',
  'roger',
  'next',
  'thank you',
  'correct',
  'confirmed',
  'okay',
  'thanks',
] as const

export const TO_WHOEVER = [
  ...['stand by', 'standby', 'one moment', 'wait one', 'roger', 'thank you', 'later', 'go ahead', 'copied', 'busy'],
  ...['stand by one', 'in a moment', 'not now', 'leave it there'],
] as const

/** All of it as phrases; `challenges` of the list that is open. */
export const partnerPhrases = (challenges: readonly string[]): string[] => [
  ...DOUBTS,
  ...NOT_FOR_US,
  ...NOT_COMPLETE,
  ...ACCEPTED,
  ...TO_WHOEVER,
  ...SKIPPED.flatMap((words) => challenges.map((name) => `${words} ${name}`)),
]

/** Words of these that no pack need have. */
export const PARTNER_WORDS: readonly string[] = [
  ...new Set([...partnerPhrases([]), ...SKIPPED, ...INSTEAD].flatMap((text) => text.split(' '))),
]
