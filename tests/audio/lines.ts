/** What the synthetic recordings in `audio/` say. Values and voices of tuning and check are apart. */

export interface Line {
  readonly name: string
  readonly words: string
}

const line = (words: string): Line => ({ name: words.replaceAll(' ', '-'), words })

export const LINES: { readonly tuning: readonly Line[]; readonly check: readonly Line[] } = {
  tuning: [
    'four point eight up set',
    'three one zero six',
    'one zero two four',
    'v one one three four rotate one three six',
    'closed and locked',
    'closed and unlocked',
    'both on',
    'six thousand two hundred',
    'zero four seven',
    'flap five',
    'armed',
    'stand by',
  ].map(line),
  check: [
    'five point two up set',
    'five point two down',
    'four two seven one',
    'one zero one three',
    'v one one two eight rotate one three one',
    'flap fourteen set',
    'closed and locked',
    'closed and unlocked',
    'open and locked',
    'both on',
    'both off',
    'brake set',
    'brake released',
    'not armed',
    'eight thousand four hundred kilograms',
    'zero eight nine',
    'two six point four percent',
    'runway two seven left',
    'say again',
    'stand by',
    'before start checklist',
    'leave it open',
    'the weather looks rather nice over there today',
    'we might get a coffee after this one',
  ].map(line),
}
