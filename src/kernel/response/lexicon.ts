/**
 * Words of the trade that judging must know besides the item's own: opposites, negations, confirmations, and words
 * that change nothing. A word in none of these lists is never harmless.
 */

/** Each line holds states that exclude one another; words in one list mean the same. */
const OPPOSITES: readonly (readonly (readonly string[])[])[] = [
  [['on'], ['off']],
  [['up'], ['down']],
  [
    ['open', 'opened'],
    ['closed', 'close', 'shut'],
  ],
  [['left'], ['right'], ['center', 'centre']],
  [
    ['set', 'applied', 'parked'],
    ['released', 'release', 'unset'],
  ],
  [
    ['armed', 'arm'],
    ['disarmed', 'disarm', 'unarmed'],
  ],
  [
    ['locked', 'lock'],
    ['unlocked', 'unlock'],
  ],
  [['in'], ['out']],
  [
    ['extended', 'extend', 'deployed'],
    ['retracted', 'retract', 'stowed', 'stow'],
  ],
  [
    ['engaged', 'engage'],
    ['disengaged', 'disengage'],
  ],
  [
    ['connected', 'connect', 'attached'],
    ['disconnected', 'disconnect', 'detached'],
  ],
  [
    ['enabled', 'enable'],
    ['disabled', 'disable', 'inhibited'],
  ],
  [
    ['inserted', 'installed', 'fitted'],
    ['removed', 'remove'],
  ],
  [
    ['secured', 'secure'],
    ['unsecured', 'unsecure', 'insecure', 'loose'],
  ],
  [
    ['latched', 'latch'],
    ['unlatched', 'unlatch'],
  ],
  [
    ['fastened', 'fasten'],
    ['unfastened', 'unfasten'],
  ],
  [['full'], ['empty'], ['idle'], ['half'], ['partial', 'partially']],
  [
    ['auto', 'automatic'],
    ['manual', 'manually'],
  ],
  [['normal'], ['abnormal'], ['alternate', 'alternative'], ['emergency']],
  [['high'], ['low']],
  [
    ['maximum', 'max'],
    ['minimum', 'min'],
  ],
  [['rich'], ['lean', 'leaned'], ['cutoff']],
  [
    ['run', 'running'],
    ['stopped', 'stop', 'shutdown'],
  ],
  [
    ['start', 'started'],
    ['stop', 'stopped'],
  ],
  [
    ['active', 'activated'],
    ['inactive', 'deactivated'],
  ],
  [['available'], ['unavailable']],
  [
    ['complete', 'completed'],
    ['incomplete', 'uncompleted'],
  ],
  [['valid'], ['invalid']],
  [['ready'], ['unready']],
  [['checked'], ['unchecked']],
  [['confirmed'], ['unconfirmed']],
  [['clear'], ['obstructed', 'blocked', 'unclear']],
  [['active'], ['standby']],
  [
    ['monitor', 'monitoring'],
    ['contact', 'contacting'],
  ],
  [['inflated'], ['deflated', 'flat']],
  [['steady'], ['flashing']],
  [
    ['lit', 'illuminated'],
    ['extinguished', 'unlit', 'dark'],
  ],
  [['green'], ['red'], ['amber'], ['yellow'], ['white'], ['blue']],
  [['bright'], ['dim']],
  [
    ['forward', 'fwd'],
    ['aft', 'back', 'backward', 'reverse'],
  ],
  [['first'], ['second'], ['third']],
  [['approved'], ['denied', 'disapproved', 'unapproved']],
  [['hot'], ['cold'], ['warm']],
  [['wet'], ['dry']],
  [['free'], ['stuck', 'jammed', 'restricted', 'stiff']],
  [['correct'], ['incorrect', 'wrong']],
  [['aligned'], ['misaligned', 'unaligned']],
  [['received'], ['outstanding', 'awaited']],
  [['obtained'], ['pending']],
  [['starboard'], ['port']],
  [['inboard'], ['outboard']],
  [
    ['depressurised', 'depressurized'],
    ['pressurised', 'pressurized'],
  ],
  [['neutral'], ['left'], ['right']],
  [['both'], ['none', 'neither']],
]

/** State word -> the words that exclude it. */
const EXCLUDING: ReadonlyMap<string, ReadonlySet<string>> = (() => {
  const table = new Map<string, Set<string>>()
  for (const group of OPPOSITES) {
    for (const same of group) {
      const others = group.filter((other) => other !== same).flat()
      for (const word of same) {
        const set = table.get(word) ?? new Set<string>()
        for (const other of others) set.add(other)
        table.set(word, set)
      }
    }
  }
  return table
})()

/** All words that name a state of something. */
export const STATE_WORDS: readonly string[] = [...EXCLUDING.keys()]

/** Words that cannot be true together with this one. */
export function opposites(word: string): ReadonlySet<string> {
  return EXCLUDING.get(word) ?? NONE
}
const NONE: ReadonlySet<string> = new Set()

/** The states that a thing with this one can be in, each with its words; the word's own come first. Empty for no state. */
export function statesBeside(word: string): readonly (readonly string[])[] {
  const rows = OPPOSITES.filter((row) => row.some((same) => same.includes(word)))
  const own = rows.flatMap((row) => row.filter((same) => same.includes(word)))
  const others = rows.flatMap((row) => row.filter((same) => !same.includes(word)))
  return own.length === 0 ? [] : [[...new Set([word, ...own.flat()])], ...others]
}

/** The same state in another form: "arm" for "armed", "automatic" for "auto". */
export function otherForms(word: string): readonly string[] {
  return FORMS.get(word) ?? []
}
const FORMS: ReadonlyMap<string, readonly string[]> = new Map(
  OPPOSITES.flat().flatMap((same) =>
    same.map((word) => [
      word,
      same.filter((other) => other !== word && (other.startsWith(word) || word.startsWith(other))),
    ]),
  ),
)

/** True for a word that names a state of something. */
export function isStateWord(word: string): boolean {
  return EXCLUDING.has(word)
}

const NEGATIONS = new Set([
  'not',
  'no',
  'never',
  'non',
  'without',
  'nothing',
  'none',
  'neither',
  'nor',
  'cannot',
  'unable',
  'isnt',
  'arent',
  'wasnt',
  'dont',
  'doesnt',
  'didnt',
  'havent',
  'hasnt',
  'cant',
  'couldnt',
  'wont',
  'aint',
])

export function isNegation(word: string): boolean {
  return NEGATIONS.has(word) || word.endsWith("n't")
}

/** Words that say something was done or looked at, and name no state by themselves. */
export const CONFIRMATIONS: ReadonlySet<string> = new Set([
  'set',
  'checked',
  'check',
  'confirmed',
  'verified',
  'selected',
  'entered',
  'tuned',
  'indicated',
  'indicating',
  'crosschecked',
  'cross',
  'complete',
  'completed',
  'agreed',
])

/** After these nobody says "to": "runway to four" is runway two four. */
export const NAMES_OF_NUMBERS: ReadonlySet<string> = new Set(['runway', 'squawk', 'code', 'stand'])

/** Sounds of thinking: they do not even interrupt a number. */
export const HESITATIONS: ReadonlySet<string> = new Set([
  'uh',
  'uhh',
  'uhm',
  'um',
  'umm',
  'er',
  'err',
  'erm',
  'ah',
  'eh',
  'hm',
  'hmm',
  'mm',
  'mhm',
  'huh',
])

export const HARMLESS: ReadonlySet<string> = new Set(
  `and the a an is are am be was do does did it its it's that that's thats this these they they're there there's here here's
  we we've we're we'll i i've i'm have has got get at of with my our your mine now then so well just ok okay
  alright alrighty righto gotcha cool perfect super yes yeah yep yup aye roger copy copied wilco affirm affirmative please kindly sir captain skipper mate
  showing shows show shown reads read reading says indicating indicated indicates indication displayed displays
  currently equals equal as calculated computed planned briefed
  set checked check confirmed verified selected entered dialed dialled tuned crosschecked agreed both
  looks look looking good great fine thanks thank you let me us let's lets see like
  value values number figure figures setting settings position reading exactly precisely total today
  for to indeed actually correct all`
    .split(/\s+/)
    .filter((word) => word !== ''),
)

/** After these, "to" and "for" are no digits. */
export const LEADING_TO: ReadonlySet<string> = new Set(
  'turn turning cleared set trimmed trim tuned adjusted selected turned equal equals dialed dialled changed moved it up down next due going'.split(
    ' ',
  ),
)

/** With these begins whatever is said next. */
export const OPENERS: ReadonlySet<string> = new Set('and so okay ok right now then well alright please'.split(' '))

/** A word that is no number misheard. */
export const isKnownWord = (word: string): boolean =>
  HARMLESS.has(word) || CONFIRMATIONS.has(word) || isNegation(word) || isStateWord(word)

/** "Open valve" and "closed valve": what the one has otherwise is the contrary of what the other has. */
export function areContrary(one: string, other: string): boolean {
  const others = other.split(' ')
  return one.split(' ').some((word) => !others.includes(word) && others.some((against) => opposites(word).has(against)))
}
