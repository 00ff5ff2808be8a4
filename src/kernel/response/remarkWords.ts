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
  was were been used previously formerly before yesterday last earlier old
  half halfway part partly partially
  fail fails failed failing failure fault faulty broken inop inoperative stuck jammed binding blocked trouble troubles
  hung spooling popped dropped missing forgot forgotten skipped need needs
  why what which how whether question or minus than
  never dead empty`)

/** Words between the name of a value and the value, or before one without a name. */
export const BEFORE_VALUE = words(`
  bug bugs bugged needle needles gauge gauges indicator lever handle dial dials window squawk squawking code codes box
  readout display number figure got it she he they i have has had new trim speed approx in on off up down out
  said see seen here there come comes came gives making makes wheel units dead-on exactly bang still-at
  tuned dialled dialed loaded entered selected programmed confirmed`)

/** States that nobody would mention beside an answer that is in order. */
export const UNWELCOME = words(`
  low empty abnormal emergency loose unlocked unlatched unfastened unsecured insecure blocked obstructed stuck jammed
  restricted stiff wrong incorrect inactive unavailable incomplete unready unset invalid flashing red amber misaligned
  unaligned flat deflated unconfirmed unchecked disarmed denied disapproved crossed reversed`)

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
  green greens lights doors pumps litres liters gallons pounds kilos tonnes tons volts amps psi rpm revs cycles times
  more less above below over under spare extra apart ahead ago early late higher lower o'clock`)

/** A number after one of these measures something else. */
export const MEASURED = words(`within difference limit limits margin limited maximum minimum max min split between under
  below above over`)

/** May stand between the name of a thing and its state, or before a value, without naming anything else. */
export const BESIDE_STATE = words(`
  fully full now all both every each already just properly firmly safely definitely positively really nicely well indeed
  switched turned selected confirmed showing coming went gone is are it they everything lot same currently again
  still-in bug bugs bugged needle needles gauge gauges indicator lever handle dial dials window squawk squawking code box
  readout display seen here there i got have has had we one`)

/** Each is one of two: where all are asked for, one of them alone is not all. */
export const SIDES: readonly (readonly [ReadonlySet<string>, ReadonlySet<string>])[] = [
  [words('left port'), words('right starboard')],
  [words('one first'), words('two second')],
  [words('front forward fore nose'), words('rear aft back tail')],
  [words('upper top'), words('lower bottom')],
  [words('inner inboard'), words('outer outboard')],
  [words('mine'), words('yours')],
  [words('main'), words('cargo hold')],
  [words('belt belts seatbelt seatbelts'), words('smoking')],
]

/** Say that all of several are meant. */
export const ALL = words('both all every each everything everyone lot')
