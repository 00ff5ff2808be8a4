/**
 * What pilots say on the radio around the values: words by which a kind of value is known, little words that lead to one,
 * and words that change nothing. From memory and from pilots' own wordings; no source has them all.
 */

import type { KindName } from '../kinds/kind.ts'

/** One phrase a line. */
const phrases = (text: string): readonly (readonly string[])[] =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((line) => line.split(' '))

const words = (text: string): readonly string[] => text.trim().split(/\s+/)

/** Besides the words of a response: names that a value of a kind has, said before it, or after it with "for" or "on". */
export const NAMED_BY: Readonly<Partial<Record<KindName, readonly (readonly string[])[]>>> = {
  frequency: phrases(`
    frequency
    departure
    departures
    ground
    tower
    delivery
    radar
    approach`),
  digits: phrases(`
    squawk
    squawking
    code
    transponder`),
  runway: phrases(`
    runway
    runway in use
    runway in use is`),
  altitude: phrases(`
    altitude
    climb
    climbing
    climb and maintain
    maintain
    maintaining
    up to
    initial climb
    initial climb to
    initial climb is
    initially`),
  flightLevel: phrases(`
    flight level
    level
    climb
    climbing
    climb and maintain
    maintain
    maintaining
    up to
    initially
    initially level
    initially flight level`),
  altimeter: phrases(`
    q n h
    qnh
    altimeter
    altimeter setting`),
  temperature: phrases('temperature'),
  time: phrases('time'),
}

/** Only a hint at a value of a kind: what has another form is not taken for one. */
export const LED_BY: Readonly<Partial<Record<KindName, readonly (readonly string[])[]>>> = {
  runway: phrases(`
    for
    off
    off of
    out of
    from
    to
    using
    they are using
    they're using
    we use
    we use the
    we expect
    we expect the
    using the
    going off
    landing
    departing
    landing and departing`),
  frequency: phrases(`
    on
    over to
    switching
    switching to
    changing to
    going to`),
  identifier: phrases(`
    via
    via the
    with the
    to
    for
    at
    hold at
    on`),
  route: phrases(`
    via
    take
    taking
    by
    along
    on
    then`),
  altitude: phrases('to'),
  flightLevel: phrases('to'),
  digits: phrases('with'),
  time: phrases(`
    at
    of
    from
    timed at`),
  heading: phrases(`
    wind
    winds
    the wind`),
  wind: phrases('winds'),
  choice: phrases(`
    nose
    nose to
    to
    via
    via the
    with the`),
}

/** The same word as pilots say it of themselves. */
export const SAID_OF_ONESELF: ReadonlyMap<string, string> = new Map([
  ['climb', 'climbing'],
  ['contact', 'contacting'],
  ['expect', 'expecting'],
  ['face', 'facing'],
  ['facing', 'face'],
  ['maintain', 'maintaining'],
  ['monitor', 'monitoring'],
  ['squawk', 'squawking'],
  ['taxi', 'taxiing'],
])

/** Said after a value of a kind. */
export const FOLLOWED_BY: Readonly<Partial<Record<KindName, readonly (readonly string[])[]>>> = {
  digits: phrases(`
    in the box
    on the box
    coming down
    is coming down`),
  runway: phrases(`
    in use
    is in use`),
  altitude: phrases(`
    initially`),
  flightLevel: phrases('initially'),
}

/** Said of any movement on the ground: these name no value, wherever a response has them. */
export const NAMING_NOTHING: ReadonlySet<string> = new Set(words('taxi taxiing continue cleared'))

/** Before a name that is said after its value: "one two one decimal six for departure". */
export const BEFORE_A_LATE_NAME: ReadonlySet<string> = new Set(words('for on with in as our the'))

/** Between a temperature and the dew point that follows it. */
export const BETWEEN_A_PAIR: ReadonlySet<string> = new Set(words('over and plus slash stroke'))

/** These say nothing about what is read back, wherever they stand. */
export const COURTESIES = phrases(`
  good morning
  good afternoon
  good evening
  good day
  good night
  morning
  afternoon
  evening
  hello
  hi
  thanks
  many thanks
  thanks a lot
  thanks very much
  thanks for your help
  thanks for the help
  thanks for that
  thank you for your help
  thank you for the help
  all the best
  thank you
  thank you very much
  cheers
  see you
  see ya
  so long
  bye
  bye bye
  goodbye
  good bye
  take care
  lovely day
  nice day
  have a good one
  have a good day
  have a nice day
  please
  sir
  ma am
  madam
  mate
  ciao
  adios
  gracias
  grazie
  buongiorno
  merci
  danke
  namaskar
  buenos dias
  buenas tardes
  bonjour
  au revoir
  thank you so much
  see you later
  gday
  okay
  ok
  alright
  all right
  copied
  copied all
  copied all that
  copy
  copy that
  copy all
  roger
  roger that
  wilco
  will comply
  affirm
  got
  got it
  got it all
  got that
  that's
  that is
  that's us
  we have
  we've got
  we got
  we are
  we're
  we will
  we'll
  i'll
  i will
  will
  and
  then
  the
  a
  our
  is
  are
  it
  it's
  now
  new
  for
  to
  of
  on
  at
  with
  with you
  listening out
  recleared
  amended
  amended clearance
  amended to
  is current
  current
  as filed
  then as filed
  flight planned route
  vis is good
  visibility is good
  visibility good
  ready to go
  on board
  received
  is received
  i took down
  i wrote down
  i have
  i got
  i noted
  we noted
  noted
  so
  destination
  the atis
  atis
  good vis
  good visibility
  vis
  visibility
  cavok
  cavok pretty much
  more than ten k
  more than ten kilometers
  more than ten kilometres
  vis more than ten k
  visibility more than ten kilometres
  ten k or better
  ten kilometers or better
  ten kilometres or better
  ten kilometres
  ten kilometers
  vis ten k or better
  visibility ten k or better
  visibility ten kilometres or more
  visibility ten kilometers or more
  visibility ten kilometres
  visibility ten kilometers
  visibility one zero kilometres or more
  visibility one zero kilometers or more
  more than one zero kilometers
  waiting for your instruction
  waiting for your instructions
  we have reached
  for the vacated
  ten k
  ten k or more
  ten k plus
  ten k visibility
  visibility ten k
  visibility ten k or more
  vis ten k
  vis ten k or more
  ten kilometres or more
  ten kilometers or more
  report vacated
  report runway vacated
  will report vacated
  will report runway vacated
  we will report vacated
  report clear
  will report clear
  report when vacated
  will report when vacated
  call vacated
  call you vacated
  call you when vacated
  will call vacated
  will call you vacated
  call clear
  call you clear
  call you when clear
  will call clear
  will call you clear
  call you when we're clear
  we'll call you when we're clear
  report when runway vacated
  report when the runway is vacated
  i will report when runway vacated
  will report when the runway is vacated
  i will report when the runway is vacated
  call you for taxi
  will call you for taxi
  call for taxi
  will call for taxi
  call you ready
  will call ready
  report ready
  will report ready
  ready to cross
  ready to cross when you are
  ready to cross when you like
  ready to cross when able
  traffic in sight
  has traffic in sight
  traffic is in sight
  in sight
  is in sight
  he's in sight
  and waiting
  and we wait
  and we will wait
  no worries
  appreciate it
  thank you ma'am
  ma'am
  on the way
  on our way
`)

/** With one of these begins talk of another aircraft: "give way to the one from the left". */
export const GIVING_WAY = phrases(`
  give way
  giving way
  will give way
  we'll give way
  after
  behind
  following
  follow`)

/** What may be said of that aircraft. */
export const OF_OTHER_TRAFFIC: ReadonlySet<string> = new Set(
  words(`to the a an one guy him her them it aircraft traffic company jet airliner plane airplane aeroplane heavy
    from on at of your our my left right coming passing`),
)
