/** Right answers to the demo with its voices outside the crew, up to the flaps. */

/** The figures of that departure. */
export const TALK = 'tests/cli/answers/talk.yaml'

export const TO_CLEARANCE = [
  ...['load figures list', 'two four six two zero', 'three point one up', 'one two eight', 'one three four'],
  ...[
    'one four one',
    'niner zero point four',
    'edition two, seven two on board',
    'get the information',
    'information kilo, one zero one zero',
  ],
  ...['wind two three zero degrees one six knots, runway two four', 'request clearance'],
]
export const TO_ALTIMETERS = [
  'cleared to willow lake lantern two alfa departure runway two four climb five thousand',
  'departure frequency one two four decimal six seven five squawk two six one three',
  'ground one two one decimal eight',
  ...['done', 'departing runway two four, lantern two alfa departure, first level five thousand', 'flap twelve'],
  ...['V one one two eight, rotate one three four', 'rejected takeoff, engine failure', 'briefing complete'],
  ...[
    'before start list',
    'brake set',
    'signs on',
    'four thousand eight hundred eighty',
    'five thousand six hundred forty',
  ],
]
export const TO_CREW = [
  ...['one zero one zero', 'two six one three', 'request push and start', 'push and start approved facing east'],
  ...['all closed slides armed', 'beacon on', 'all pumps on'],
]
/** An engine start as fast as it can be seen. */
const start = (side: string, stable: string) => [
  ...[`starting the ${side} engine`, '@wait 1s', 'rotation seen', '@wait 4s', 'two four percent, fuel on', '@wait 1s'],
  ...['light up', 'oil pressure rising', 'fan turning', '@wait 3s', 'peak six eight five', '@wait 1s', 'starter out'],
  ...['@wait 6s', `engine stable five ${stable} percent`],
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
  ...start('right', 'eight'),
]
export const LEFT = start('left', 'niner')

export const TO_FLAP = [
  ...['brakes set', 'disconnect', 'signal in sight', 'push and start list', 'brake set, tug away'],
  'both engines stable',
]
