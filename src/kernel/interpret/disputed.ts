/**
 * How pilots dispute what somebody has said, in their own words: "hang on, that's wrong, the card says one two six, I think".
 * What leads to the point and what trails it is taken off; what is left is read as ever.
 */

/** Nothing between them says anything. */
const GAP = String.raw`[\s,;:.!?-]*`

const CONTRACTIONS: readonly (readonly [RegExp, string])[] = [
  [/\bcan't\b/g, 'can not'],
  [/n't\b/g, ' not'],
  [/'ve\b/g, ' have'],
  [/'re\b/g, ' are'],
  [/\b(that|it|what|there|here|list|he|she|who)'s\b/g, '$1 is'],
  [/\bi'm\b/g, 'i am'],
  [/'d\b/g, ' would'],
  [/'ll\b/g, ' will'],
]

/** Call attention, or are polite. */
const ATTENTION = [
  ...['hang on', 'hold on', 'wait', 'wait a (?:minute|second|moment|sec)', 'just a (?:minute|second|moment|sec)'],
  ...['sorry', 'excuse me', 'pardon(?: me)?', 'well', 'actually', 'hey', 'listen', 'captain', 'oh', 'ah', 'hmm'],
  ...['mm', 'uh', 'um', 'uhm', 'er', 'erm', 'eh', 'i think', 'i believe', 'i am afraid', 'i would say'],
  ...['okay but', 'ok but', 'but', 'and', 'so', 'then', 'now', 'hmm'],
]

/** Say that something is not as it was said. */
const AGAINST = [
  ...['negative', 'no', 'nope', 'wrong', '(?:that|it|this) is (?:wrong|not right|not correct|incorrect|not it)'],
  ...[
    'not right',
    'not correct',
    'incorrect',
    '(?:that|it|this) can not be(?: right| correct)?',
    'i (?:do not agree|disagree)',
  ],
  ...['(?:that|it|this) does not (?:look|sound|seem) right', 'check that', 'check it', 'not quite'],
  ...['(?:(?:it|that|this) )?(?:should|must|ought to)(?: not (?:that|it))? (?:be|have been|read|say)'],
  ...[
    'should (?:it|that|this) (?:not )?be',
    'is (?:it|that) not',
    'is not (?:it|that)',
    '(?:is|was|are|were) not',
    '(?:are )?you sure(?: about (?:that|it))?',
    '(?:(?:it|that) is )?supposed to be',
    'make (?:it|that)',
  ],
  ...['not (?:that|it)', 'you mean', 'rather', 'instead'],
]

/** Name a value that may or may not be the one that was said. */
const STATES = [
  ...[
    'i (?:have got|have|got|get|read|see|make (?:it|that)|say|show|heard|had|copied)',
    'we (?:have got|have|got|want|need|set)',
  ],
  ...['(?:it|that|this) (?:is|was|would be|reads|says)', 'mine (?:is|says|reads)', 'it was'],
  ...[
    '(?:he|she|they|the controller|delivery|ground|tower) (?:said|gave(?: us)?)',
    'did (?:he|she|they|you|we) (?:not )?(?:say|read|have|hear)',
  ],
  ...['(?:(?:the|our|my|this) )?(?:[a-z]+(?: [a-z]+)?) (?:says|said|reads|shows|has|gives|gave)'],
  ...['(?:on|from) (?:the|my|our) (?:card|sheet|load sheet|paper|papers)(?: (?:it|that) (?:is|says))?'],
]

/** Behind the point. */
const TRAILS = [
  ...[
    'please',
    'i think',
    'i believe',
    'here',
    'is (?:it|that) not',
    'is not (?:it|that)',
    'right',
    'sir',
    'captain',
    'then',
    'actually',
  ],
  ...[
    'instead',
    '(?:on|from|by) (?:the|my|our) (?:card|sheet|load sheet|paper|papers|data)',
    'and not that',
    'over there',
  ],
  ...['as far as i (?:can )?see', 'on mine', 'is what i (?:have|see|read|get)', 'i (?:have|see|read|get)'],
]

/** The longest first: "hold on" before "hold". */
const beginning = (words: readonly string[]) =>
  new RegExp(`^(?:${words.toSorted((one, other) => other.length - one.length).join('|')})\\b${GAP}`)
const [ATTENTION_FIRST, AGAINST_FIRST, STATES_FIRST] = [beginning(ATTENTION), beginning(AGAINST), beginning(STATES)]
const TRAIL = new RegExp(`${GAP}\\b(?:${TRAILS.join('|')})$`)

export interface Point {
  /** Lower case, contractions written out; empty where nothing but a lead was said. */
  readonly text: string
  /** How it was led to: as against what was said, as something that is so, or not at all. */
  readonly lead: 'against' | 'states' | undefined
}

/** Lower case, contractions written out, without signs at its ends. */
export function writtenOut(text: string): string {
  const lower = text.toLowerCase().replaceAll('’', "'")
  const written = CONTRACTIONS.reduce((all, [from, to]) => all.replace(from, to), lower)
  return written.replace(/^[\s,;:.!?-]+|[\s,;:.!?-]+$/g, '')
}

const POLITE = new RegExp(`${GAP}\\b(?:please|sir|captain|then|i think|thanks|thank you)$`)

/** Written out, without what calls attention before it and what is polite behind it: "hang on, check that please" -> "check that". */
export function withoutAttention(text: string): string {
  let rest = writtenOut(text)
  for (let last = ''; last !== rest; ) {
    last = rest
    const shorter = rest.replace(ATTENTION_FIRST, '').replace(POLITE, '')
    // What consists of such words alone says what they say.
    if (shorter !== '') rest = shorter
  }
  return rest.replace(/[-,;:!?]/g, ' ').replace(/\s+/g, ' ')
}

const AGAINST_IN =
  /\b(?:no|not|negative|nope|wrong|incorrect|should|must|supposed|instead|check|sure|disagree|correction|rather|different|you (?:said|read|read back|have|got|gave))\b/
const STATES_IN =
  /\b(?:i (?:have|had|see|read|heard|got|make|copied|wrote)|we (?:have|had|got)|(?:it|that) (?:is|was)|says|said|reads|shows|gave|gives|confirm|is|was)\b/

/** Of words that nobody foresaw, before the point. */
export const leadIn = (text: string): Point['lead'] =>
  AGAINST_IN.test(text) ? 'against' : STATES_IN.test(text) ? 'states' : undefined

const SAID_OF = /^((?:the |our )?[a-z ]{2,30}?) (is|was|should be|must be|has to be) (.+)$/

export function pointOf(text: string): Point {
  let rest = writtenOut(text)
  let lead: Point['lead']
  const takeOff = (words: RegExp) => {
    const shorter = rest.replace(words, '')
    const isTaken = shorter !== rest
    rest = shorter
    return isTaken
  }
  for (;;) {
    if (takeOff(AGAINST_FIRST)) lead = 'against'
    else if (takeOff(STATES_FIRST)) lead ??= 'states'
    else if (!takeOff(ATTENTION_FIRST)) break
  }
  while (rest !== '' && takeOff(TRAIL));
  // "The squawk is four two seven one"
  const [, name, verb, value] = SAID_OF.exec(rest) ?? []
  if (name === undefined || value === undefined) return { text: rest, lead }
  return { text: `${name} ${value}`, lead: lead ?? (verb === 'is' || verb === 'was' ? 'states' : 'against') }
}

const NAMED = `(?:the |our |that )?(.+?)`
const PASSED = [
  `(?:you|we) (?:have )?(?:just )?(?:skipped|missed|forgot|forgotten|left out|jumped|jumped over|passed|passed over|omitted) ${NAMED}`,
  `(?:you|we) (?:have|did) not (?:done|do|had|have|ask for|asked for|call|called|read|say|said|do) ${NAMED}`,
  `(?:what|how) about ${NAMED}`,
  `what happened to ${NAMED}`,
  `(?:back to|go back to|we need|i need|still) ${NAMED}`,
  `${NAMED} (?:is|was) (?:missing|missed|skipped|left out|not done|not called|still open|omitted|forgotten)`,
  `${NAMED} (?:has|have) not been (?:done|called|answered|checked)`,
  `${NAMED} (?:first|before that|not done|missing)`,
].map((words) => new RegExp(`^${words}$`))

/** What was gone by, by the name that the pilot gives it: "what about the beacon" -> "beacon"; undefined where nothing is said to be. */
export const goneByName = (text: string): string | undefined => firstIn(PASSED, text)

const DOUBTED = [
  `(?:check|recheck|verify|look at|confirm) ${NAMED}(?: again| please)*`,
  `(?:(?:that|it|this) (?:is|was) )?(?:the )?wrong ${NAMED}`,
  `${NAMED} (?:is|was|are|were) (?:wrong|not right|not correct|incorrect|different|not the same)`,
  `${NAMED} (?:is|was) not what (?:he|she|they|the controller|i|the card|the sheet) (?:said|have|heard|says|gave(?: us)?)`,
  `${NAMED} does not (?:match|agree|look right|sound right)`,
].map((words) => new RegExp(`^${words}$`))

/** What is doubted by its name, without a value: "the squawk was wrong" -> "squawk"; undefined where nothing is. */
export const doubtedName = (text: string): string | undefined => firstIn(DOUBTED, text)

function firstIn(all: readonly RegExp[], text: string): string | undefined {
  for (const words of all) {
    const [, name] = words.exec(text) ?? []
    if (name !== undefined) return name
  }
  return undefined
}

const isOneOf = (words: readonly string[]) => {
  const all = new RegExp(`^(?:${words.join('|')})$`)
  return (text: string) => all.test(text)
}

const IT = '(?:that|it|this)'
const IS = '(?:is|was|looks|looked|sounds|sounded)'
const MINE = '(?:i|we) (?:have|had|see|saw|read|get|got|heard|copied)'
const GIVER = '(?:he|she|they|the controller|delivery|ground|tower)'
const DOUBTS = [
  ...[
    'negative',
    'no',
    'nope',
    'no way',
    `(?:${IT} ${IS} )?(?:wrong|not right|not correct|not it|incorrect)(?: at all)?`,
  ],
  ...[
    `${IT} can not be(?: right| correct)?`,
    `${IT} (?:does|did) not (?:look|sound|seem) (?:right|correct|good)(?: to me)?`,
  ],
  ...['i (?:do|did) not agree(?: with (?:that|you|it))?', 'i disagree(?: with (?:that|you|it))?', 'disagree'],
  ...[
    `i (?:do|did) not think (?:so|${IT} ${IS} (?:right|correct)|${IT} (?:is|was))`,
    '(?:are |is )?(?:you )?sure(?: about (?:that|it))?',
  ],
  ...[
    `(?:check|confirm|verify|recheck)(?: ${IT})?(?: again)?`,
    'look again',
    '(?:have|take) (?:another|a second|one more) look(?: at (?:that|it))?',
  ],
  ...[
    'have a look again',
    `(?:${IT} (?:is|was) )?not what ${MINE}`,
    `(?:${IT} (?:is|was) )?not what ${GIVER} (?:said|gave(?: us)?)`,
  ],
  ...[
    `(?:${IT} (?:is|was) )?not what (?:the|my|our) [a-z]+(?: [a-z]+)? (?:says|said|is|was|shows|gives)`,
    `${GIVER} did not say (?:so|that)`,
  ],
  ...[
    `${MINE} (?:something else|something different|(?:another|a different|some other) (?:value|figure|number))`,
    'mine (?:is|was) (?:different|another)',
  ],
  ...[
    'really',
    `(?:you|we) (?:have |had )?(?:got|read|said|read back) (?:${IT}|it back) wrong`,
    `${IT} (?:does|did) not (?:match|agree)(?: .+)?`,
  ],
  // To "checked" where a value is wanted.
  ...[
    '(?:and )?(?:the )?(?:value|figure|number)',
    '(?:what|which)(?: is(?: the)?| was(?: the)?| the)? (?:value|figure|number)',
    'give me (?:the|a) (?:value|figure|number)',
  ],
  ...[
    '(?:i|we) (?:need|want) (?:the|a) (?:value|figure|number)',
    'checked what',
    '(?:not )?checked',
    'checked (?:is|was) (?:no|not an?) (?:value|figure|answer)',
  ],
  ...[
    'how much(?: is (?:it|that))?',
    `what (?:is|was) ${IT}(?: set to)?`,
    `what does ${IT} (?:say|read)`,
    'which is',
    'checked how',
    'read me (?:the value|the figure|it)',
  ],
]
const DOUBT = new RegExp(`^(?:(?:${DOUBTS.join('|')})\\b${GAP})+$`)

/** Something is not right, whatever it is. Of what is left without words for attention; "check" and "checked" alone agree. */
export const isDoubt = (text: string): boolean => !/^check(?:ed)?$/.test(text) && DOUBT.test(text)

export const isNotForUs = isOneOf([
  ...[
    '(?:(?:that|it|this) (?:is|was) )?not (?:for )?us',
    '(?:(?:that|it|this) (?:is|was) )?not our (?:call|call sign|callsign)',
  ],
  ...[
    '(?:(?:that|it|this) (?:is|was) )?(?:the |a )?(?:wrong|different|another|other) (?:call sign|callsign|aircraft|flight)',
  ],
  ...[
    '(?:that|it|this) (?:is|was) (?:for |to )?(?:somebody|someone|anybody) else',
    '(?:that|it) (?:is|was) for (?:another|the other) (?:aircraft|flight|one)',
  ],
  ...[
    'negative not (?:for )?us',
    'no not (?:for )?us',
    'not ours',
    '(?:that|it) (?:is|was) not ours',
    'we are not (?:that|.+ one)',
  ],
])

export const isNotComplete = isOneOf([
  ...[
    '(?:(?:negative|no) )?(?:(?:that|it|this|the list|the checklist|list|checklist) (?:is |was )?)?not (?:yet )?(?:complete|completed|finished|done|all)(?: yet)?',
  ],
  ...['.+ (?:list|checklist) (?:is )?not (?:yet )?(?:complete|completed|finished|done)(?: yet)?'],
  ...['we (?:are|were) not (?:done|finished|complete|through)(?: yet)?(?: with (?:it|that|the list))?'],
  ...[
    'there is (?:still )?(?:something|one|an item|one item|a line) (?:open|missing|left)',
    'something is (?:still )?(?:open|missing)',
  ],
  ...['incomplete', '(?:that|it) is incomplete', 'that was not all(?: of it)?', 'not everything(?: is done)?'],
])
