/**
 * Words that decide whether something said beside an answer may be let through. What is in none of these lists, and
 * carries no number, state, direction or negation, says nothing about the item.
 */

const words = (text: string): ReadonlySet<string> => new Set(text.split(/\s+/).filter((word) => word !== ''))

/** Guesses, exceptions, faults and things not done yet: with one of these an answer is asked again. */
export const DOUBTFUL = words(`
  about almost approximately around nearly roughly perhaps maybe probably possibly presumably guess guessing think thought
  suppose supposed assume assuming assumed expect expecting expected should would could might may must will shall gonna
  going hope hopefully unsure uncertain doubt doubtful
  but except excepting apart aside besides only unless until till although though however instead otherwise
  still yet soon later shortly waiting wait pending trying remaining stays staying keeps
  was were used previously formerly before yesterday last earlier old
  half halfway part partly partially
  hung spooling popped missing forgot forgotten skipped need needs
  why what which how whether question or
  never dead empty`)

/** What is better absent: "no binding" is good news, "binding" is not. */
export const FAULTS = words(`
  fail fails failed failing failure failures fault faults faulty broken inop inoperative stuck jammed binding blocked
  trouble troubles leak leaking leaks smoke fire rough`)

/** Words between the name of a value and the value, or before one without a name. */
export const BEFORE_VALUE = words(`
  bug bugs bugged needle needles gauge gauges indicator lever handle dial dials window squawk squawking code codes box
  readout display number figure got it she he they i have has had new trim speed approx in on off up down out
  said see seen here there come comes came gives making makes wheel units exactly bang number
  drop drops dropped reading sits stands through passing coming rising climbing running
  tuned dialled dialed loaded entered selected programmed confirmed`)

/** States that nobody would mention beside an answer that is in order. */
export const UNWELCOME = words(`
  low empty abnormal emergency loose unlocked unlatched unfastened unsecured insecure blocked obstructed stuck jammed
  restricted stiff wrong incorrect inactive unavailable incomplete unready unset invalid misaligned
  unaligned stop stopped shutdown inserted installed fitted flat deflated unconfirmed unchecked disarmed denied disapproved crossed reversed`)

/** The same beside a value too. */
export const NEVER_WELCOME = words(`
  abnormal unlocked unset invalid incorrect wrong inactive unavailable released disarmed disengaged disabled failed red amber`)

/** Contrary to a climb. */
export const DESCENDING = words('down descend descending')

/** After "not" they say that all is well: "not needed", "not a problem". */
export const NOT_BAD = words(`
  needed need required necessary problem issue bad worry worried moving far much different changed applicable used using
  today flashing wanted going`)

/** After "no" they say that something is not there which had better be there. */
export const MISSED = words(`
  pressure power idea way good joy luck chance clue sign signal response reply answer rotation light contact
  movement flow quantity reading value figure number info information`)

/** Between "no" and what is not there. */
export const NO_AND = words('more real visible apparent signs sign of any other further big major rough undue the a')

/** A number before one of these counts something else. */
export const COUNTED = words(`
  feet foot ft metres meters miles mile kilometres kilometers minutes minute seconds hours hour degrees degree knots
  percent hectopascals millibars inches aircraft people persons passengers souls crew engine engines start starts axis axes
  litres liters gallons pounds kilos tonnes tons volts amps psi rpm revs cycles times sides apart ahead ago early late
  o'clock`)

/** A number after one of these measures something else. */
export const MEASURED = words(`within difference limit limits margin limited maximum minimum max min split between under
  below above over`)

/** May stand between the name of a thing and its state, or before a value, without naming anything else. */
export const BESIDE_STATE = words(`
  fully full now all both every each already just properly firmly safely definitely positively really nicely well indeed
  switched turned selected confirmed showing coming went gone is are it they everything lot same currently again
  can may you please bug bugs bugged needle needles gauge gauges indicator lever handle dial dials window squawk squawking code box
  readout display seen here there i got have has had we one`)

/** Each is one of two: where all are asked for, one of them alone is not all. */
export const SIDES: readonly (readonly [ReadonlySet<string>, ReadonlySet<string>])[] = [
  [words('left port'), words('right starboard')],
  [words('one first'), words('two second')],
  [words('front forward fore nose'), words('rear aft back tail')],
  [words('inner inboard'), words('outer outboard')],
  [words('mine'), words('yours')],
  [words('main'), words('cargo hold')],
]

export const isSide = (word: string): boolean => SIDES.some((pair) => pair.some((side) => side.has(word)))

/** The two kinds of cabin signs: only where signs are asked for. */
export const SIGNS: (typeof SIDES)[number] = [words('belt belts seatbelt seatbelts'), words('smoking')]

/** Say that all of several are meant. */
export const ALL = words('both all every each everything everyone lot')
