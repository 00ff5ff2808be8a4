/** Right answers to the demo with its voices outside the crew, up to the flaps. */

/** The figures of that departure. */
export const TALK = 'tests/cli/answers/talk.yaml'

export const TO_CLEARANCE = [
  ...['load figures list', 'two four six two zero', 'three point one up', 'one two eight', 'one four one'],
  ...['niner zero point four', 'get the information', 'information kilo, one zero one zero'],
  ...['wind two three zero degrees one six knots, runway two four', 'request clearance'],
]
export const TO_ALTIMETERS = [
  'cleared to willow lake lantern two alfa departure runway two four climb five thousand',
  'departure frequency one two four decimal six seven five squawk two six one three',
  'ground one two one decimal eight',
  ...['done', 'departing runway two four, lantern two alfa departure, first level five thousand', 'flap twelve'],
  ...['V one one two eight, rotate one three four', 'rejected takeoff, engine failure', 'briefing complete'],
  ...['before start list', 'brake set', 'signs on', 'five thousand six hundred forty'],
]
export const TO_CREW = [
  ...['one zero one zero', 'two six one three', 'request push and start', 'push and start approved facing east'],
  ...['all closed slides armed', 'beacon on', 'all pumps on'],
]
export const TO_AWAY = [
  ...[
    'confirm doors and steps',
    'brakes set',
    'confirm tow bar and steering',
    'remove the chocks',
    'external power off',
  ],
  ...['disconnect the cable', 'beacon on', 'cleared to push facing east', 'brakes released', 'clear to start'],
  'done',
  ...['starting the right engine', 'rotation seen', 'fuel is on', 'light up', 'oil pressure rising', 'starter out'],
  'engine stable five eight percent',
]
export const LEFT = [
  ...['starting the left engine', 'rotation seen', 'fuel is on', 'light up', 'oil pressure rising', 'starter out'],
  'engine stable five niner percent',
]

export const TO_FLAP = [
  ...['brakes set', 'disconnect', 'signal in sight', 'push and start list', 'brake set, tug away'],
  'both engines stable',
]
