/**
 * Words that decide whether something said beside an answer may be let through. What is in none of these lists is asked
 * about.
 */

const words = (text: string): ReadonlySet<string> => new Set(text.split(/\s+/).filter((word) => word !== ''))

/** Of remarks that say that all is well, where it was looked up, or nothing at all. */
export const REMARKS = words(`
  em myself gave give tried tugged wiggled showed wheel wheels within drawing sure settled beautiful excellent super brilliant marvellous splendid
  chilly very wee bit lots guy guys lad lads ramper closed already included he's she's light lights bottom direction
  directions call word reading reads greens axes complete completed parking park tow towbar seat locked latched
  secure secured armed active fully full cleared push mid middle gate release signed including bang drop drops page
  sight view hand hands steering accumulator accumulators detent latch catch chocks chock cones pin pins flag ribbon
  salute wave attendant attendants flight systems system rechecked dialled dialed typed entered programmed loaded
  sheet loadsheet card plan clearance book handbook manual chart charts tablet screen display displays computer fms
  fmc map tape pages performance data gauge gauges indicator indicators indication indications panel overhead
  pedestal box bug bugs bugged needle needles dial dials pointer pointers scale quadrant column yoke stick pedal
  pedals button buttons band arc range envelope limits limit margin tolerance side sides switch switches lever
  levers handle handles knob knobs guard guards selector selectors tank tanks line green blue white normal steady
  good lovely nice nicely happy smooth smoothly even balanced plenty warm snug tight dry fine perfect perfectly spot
  well pretty quite just nominal usual quiet sufficient wide easy easily clear clearly solid firm firmly proper
  properly straight same agrees agree matches match matching matched compared against verified seen saw heard felt
  watching watched looked look seeing feels touched counted counting chime called calls report reported received
  signal signals thumbs headset interphone intercom voice confirmation per as from by with everything everyone pair
  lot ones also too together again twice times he she him his them her they crew senior purser chief cockpit
  marshaller engineer mechanic loader dispatcher handler controller captain copilot boss girls boys folks everybody
  fellow men people passengers pax morning afternoon evening day cheers bye thanks tower ground delivery radar
  goodbye hello hi adios gracias namaskar ciao sir madam mate buddy friend friends gents ladies cheerio ta welcome
  pressure pressures parameters voltage current charging powered power electrical electrically ammeter voltmeter
  amps volts load psi kilograms kilos percent knots inches hectopascals millibars degrees has have got get did done
  made been having held checks turned switched selected placed pushed pressed put swept cycled tested exercised
  worked stowed pinned fitted opened sat stable stabilised stabilized idling number numbers today tonight moment
  axis travel holding idle length runway route sign weather sky sun rain wind tarmac apron stand ramp jetty master
  so inside into along around surfaces surface elevation target celsius sent sitting pointing tapes percentage
  operation operations lead initial thing things job work part parts one's its it's that's difference steadily
  normally increasing movement motion ja hey wow american european jet hatch reflection reflections reflecting
  briefing rang airplane aeroplane beam click clicks textbook exemplary flawless faultless impeccable immaculate
  gentle gently softly calmly carefully thoroughly diligently visually personally physically obviously definitely
  absolutely certainly evidently automatically always anyway therefore hence thus extended centreline centerline
  sense flush charged working works functioning behaving healthy alive awake cooling transmission communication
  visible obvious evident bright brightly glowing shining shines gleaming clockwork`)

/** Harmless in what the pilot says first, not beside an answer: "cockpit to ground", "you can". */
export const OF_CALLS = words('can pushback cockpit running taxiing continuing continue afterwards')

/** After "is" they say what the value must not be beyond: "is the limit". */
export const LIMITS = words('limit limits maximum minimum')

/** Other things on board: harmless beside an answer, unless what is said right before or after is said of them. */
export const OTHER_THINGS = words(`
  tug tractor cart truck
  temperatures temps temp temperature quantity quantities oil engine engines generator generators gens gen bus
  buses battery batteries alternator alternators electrics hydraulics hydraulic pneumatics bleed bleeds pack packs
  fuel vacuum suction flaps flap gear doors door slides slide harness seats pumps pump brake brakes trim
  transponder spoilers spoiler speedbrake slats rudder aileron ailerons elevator elevators tailplane stabiliser
  stabilizer wing wings tail beacon strobe strobes nav navigation logo pitot probe probes windshield windscreen
  mixture mixtures throttle throttles thrust propeller prop props propellers magneto magnetos mags mag primer cowl
  autopilot autothrottle radio radios altimeter altimeters compass windows window centre center belt
  belts seatbelt seatbelts cabin`)

/** Guesses, exceptions, faults and things not done yet: with one of these an answer is asked again. */
export const DOUBTFUL = words(`
  intended had kinda
  about almost approximately around nearly roughly perhaps maybe probably possibly presumably guess guessing think thought
  suppose supposed assume assuming assumed expect expecting expected should would could might may must will shall gonna
  going hope hopefully unsure uncertain doubt doubtful
  but except excepting apart aside besides only unless until till although though however instead otherwise
  still yet soon later shortly waiting wait pending trying remaining stays staying keeps
  was were used previously formerly before yesterday last earlier old
  half halfway part partly partially
  hung spooling popped missing forgot forgotten skipped need needs
  believe imagine reckon lied mean meant who
  why what which how whether question or
  never dead empty minus plus`)

/** Of a value: it is on paper only. */
export const ON_PAPER = words('planned computed calculated briefed')

/** What is better absent: "no binding" is good news, "binding" is not. */
export const FAULTS = words(`
  fail fails failed failing failure failures fault faults faulty broken inop inoperative stuck jammed binding blocked
  trouble troubles problem problems leak leaking leaks smoke fire rough`)

/** Words between the name of a value and the value, or before one without a name. */
export const BEFORE_VALUE = words(`
  also again seeing having getting giving shows goes
  bug bugs bugged needle needles gauge gauges indicator lever handle dial dials window squawk squawking code codes box
  compass altimeter altimeters tape sheet loadsheet screen scale counter panel page computer
  readout display number figure got it she he they i have has had new trim speed approx in on off up down out
  inbound outbound localizer localiser aiming targeting said see seen here there come comes came gives making makes wheel units exactly bang number
  drop drops dropped reading sits stands
  tuned dialled dialed loaded entered selected programmed confirmed that'll got add adds will ja that'd pull use using departing heading side same sides`)

/** The same in a call of a value that moves: what it has come to is called, not checked. */
export const PASSING = words('through passing coming rising climbing running up nicely')

/** States that nobody would mention beside an answer that is in order. */
export const UNWELCOME = words(`
  low empty abnormal emergency loose unlocked unlatched unfastened unsecured insecure blocked obstructed stuck jammed
  restricted stiff wrong incorrect inactive unavailable incomplete unready unset invalid misaligned
  unaligned stop stopped shutdown inserted installed fitted flat deflated unconfirmed unchecked disarmed denied disapproved crossed reversed`)

/** The same beside a value too. */
export const NEVER_WELCOME = words(`
  abnormal unlocked unset invalid incorrect wrong inactive unavailable released disarmed disengaged disabled failed red amber`)

/** Lacks, changes and other times, places and amounts that nobody would mention beside an answer that is in order. */
export const SUSPICIOUS = words(`
  gone blank dark nil lost caught proud clean split splits ajar odd stale adrift bad worse worst rubbish nonsense
  more less some few extra over under above below fast slow further farther
  next ago since until tomorrow yesterday tonight then
  else elsewhere alone nobody none nowhere neutral continuous alternate spare
  contradicts says said go goes far came comes back ra close`)

/** Contrary to a climb. */
export const DESCENDING = words('down descend descending')

/** After "not" they say that all is well: "not needed", "not a problem". */
export const NOT_BAD = words(`
  needed need needing required necessary problem issue bad worry worried moving far much different changed applicable used using
  today flashing wanted going`)

/** After "no" they say that nothing is amiss. */
export const ABSENT_TROUBLES = words(`
  reduction reductions drop drops fluctuation fluctuations contamination rain snow frost indications conditions bug bugs
  moisture reserve discrepancy flag flags light lights warning warnings caution cautions alert alerts message messages change changes red reds amber ambers
  asymmetry imbalance difference differences discrepancy discrepancies error errors restriction restrictions binding fault
  faults problem problems issue issues worries worry ice icing moisture running roughness delay delays penalty split
  leak leaks need flashing movement smoke stiffness resistance drama dramas trouble troubles`)

/** Between "no" and what is not there. */
export const NO_AND = words(
  'more real visible apparent signs sign of any other further big major rough undue the a low high bleed door pressure bus amber blue red abnormal unusual oil fuel icing generator',
)

/** A number before one of these counts something else. */
export const COUNTED = words(`
  feet foot ft metres meters miles mile kilometres kilometers degrees degree knots
  percent hectopascals millibars inches aircraft people persons passengers souls crew engine engines start starts axis axes
  litres liters gallons pounds kilos tonnes tons volts amps psi rpm revs cycles sides apart`)

/** A small number before one of these says how many of them there are. */
export const COUNTED_THINGS = words(`
  axes windows levers switches bugs needles gauges altimeters lights greens systems handles selectors pumps generators sides`)

/** A number after one of these measures something else. */
export const MEASURED = words(`within difference limit limits margin limited maximum minimum max min split between under
  below above over`)

/** May stand between the name of a thing and its state, or before a value, without naming anything else. */
export const BESIDE_STATE = words(`
  them
  fully full now all both every each already just properly firmly safely definitely positively really nicely well indeed
  switched turned selected confirmed showing coming went gone is are it they everything lot same currently again
  can may you please bug bugs bugged needle needles gauge gauges indicator lever handle dial dials window squawk squawking code box
  readout display seen here there i got have has had we one girls boys ladies crew folks everybody she wide`)

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
