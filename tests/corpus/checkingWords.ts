/** CHECK corpus: items answered in words; none of them is in the tuning corpus. */

export interface StateItem {
  readonly challenge: string
  readonly response: string
  readonly states?: readonly (readonly string[])[]
  readonly right: readonly string[]
  /** With the name of the part that is clearly wrong, where one is. */
  readonly wrong: readonly (readonly [said: string, part?: string])[]
}

export const STATE_ITEMS: readonly StateItem[] = [
  {
    challenge: 'seat belts',
    response: 'fastened',
    right: ['fastened', 'seat belts fastened', 'belts are fastened', 'all fastened', 'fasten'],
    wrong: [
      ['unfastened', 'fastened'],
      ['not fastened', 'fastened'],
      ['one not fastened'],
      ['loose'],
      ['un-fastened', 'fastened'],
    ],
  },
  {
    challenge: 'fuel pumps',
    response: 'on {pumps}',
    right: ['on', 'fuel pumps on', 'both on', 'all on', 'pumps are on', 'on and checked'],
    wrong: [
      ['off', 'pumps'],
      ['one on'],
      ['not on', 'pumps'],
      ['on, off'],
      ['pumps off', 'pumps'],
      ["they aren't on", 'pumps'],
      ['on five'],
    ],
  },
  {
    challenge: 'canopy',
    response: '(closed and locked | locked)',
    right: ['closed and locked', 'locked', 'canopy locked', 'closed and lock', 'closed locked'],
    wrong: [
      ['unlocked', 'closed and locked'],
      ['not locked', 'closed and locked'],
      ['closed and unlocked', 'closed and locked'],
      ['open'],
      ['blocked'],
    ],
  },
  {
    challenge: 'ignition',
    response: 'off',
    states: [['off'], ['left'], ['right'], ['both'], ['start']],
    right: ['off', 'ignition off', "it's off", 'ignition is off'],
    wrong: [
      ['on', 'off'],
      ['left', 'off'],
      ['right', 'off'],
      ['start', 'off'],
      ['not off', 'off'],
      ['off left'],
      ['of'],
    ],
  },
  {
    challenge: 'autobrake',
    response: 'R T O [set]',
    states: [['rto'], ['one'], ['two'], ['max'], ['disarm']],
    right: ['R T O', 'RTO', 'R T O set', 'autobrake RTO'],
    wrong: [['max', 'r t o'], ['not RTO'], ['disarm', 'r t o'], ['two']],
  },
  {
    challenge: 'speed brake',
    response: 'down detent',
    right: ['down detent', 'speed brake down detent', 'down, detent'],
    wrong: [['up detent', 'down detent'], ['down'], ['armed'], ['not down detent', 'down detent']],
  },
  {
    challenge: 'gust lock',
    response: 'removed',
    right: ['removed', 'gust lock removed', 'it is removed', 'remove'],
    wrong: [['installed', 'removed'], ['not removed', 'removed'], ['fitted', 'removed'], ['moved'], ['in']],
  },
  {
    challenge: 'pitot heat',
    response: '(on | as required on)',
    right: ['on', 'pitot heat on', 'heat is on'],
    wrong: [['off', 'on'], ['not on', 'on'], ['as required'], ['own']],
  },
  {
    challenge: 'flight instruments',
    response: 'checked [left and right]',
    right: ['checked', 'check', 'checked left and right', 'instruments checked', 'flight instruments are checked'],
    wrong: [['unchecked', 'checked'], ['not checked', 'checked'], ['not yet'], ['set'], ['later']],
  },
  {
    challenge: 'cowl flaps',
    response: 'open',
    states: [['open'], ['closed', 'shut'], ['trail']],
    right: ['open', 'cowl flaps open', 'opened', 'both open'],
    wrong: [
      ['closed', 'open'],
      ['shut', 'open'],
      ['trail', 'open'],
      ['not open', 'open'],
      ['half open'],
      ['open closed'],
      ['one open'],
    ],
  },
  {
    challenge: 'mixture',
    response: 'rich',
    right: ['rich', 'mixture rich', 'mixture is rich'],
    wrong: [['lean', 'rich'], ['cutoff', 'rich'], ['not rich', 'rich'], ['which']],
  },
  {
    challenge: 'landing lights',
    response: 'retracted {lights} off {switch}',
    right: ['retracted off', 'retracted and off', 'off and retracted', 'lights retracted, off'],
    wrong: [
      ['extended off', 'lights'],
      ['retracted on', 'switch'],
      ['retracted'],
      ['off'],
      ['retracted not off', 'switch'],
    ],
  },
  {
    challenge: 'crew briefing',
    response: '(complete | completed)',
    right: ['complete', 'completed', 'briefing complete', 'briefing is completed'],
    wrong: [['incomplete', 'complete'], ['not complete', 'complete'], ['pending'], ['compete']],
  },
]
