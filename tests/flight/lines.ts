/**
 * What the pilot says on a whole departure with the voices outside the crew, from the final figures to the last word on
 * the frequency. The values are those of `tests/cli/answers/talk.yaml` and `pairTalk.yaml`. A number: so many seconds pass.
 */

export type Radio = 'icao' | 'faa'
export type Stand = 'push' | 'own'
export type Line = string | number

const start = (side: string, fan: string): readonly Line[] => [
  ...[`starting the ${side} engine`, 1, 'rotation seen', 5, 'two four percent, fuel on', 1, 'light up'],
  ...['oil pressure rising', 'fan turning', 'peak six eight five', 'starter out', 6],
  `engine stable ${fan} percent`,
]

export function marramLines(radio: Radio, stand: Stand): readonly Line[] {
  const isIcao = radio === 'icao'
  const pushed = stand === 'push'
  const altimeter = isIcao ? 'one zero one zero' : 'two niner eight three'
  const setting = isIcao ? `q n h ${altimeter}` : `altimeter ${altimeter}`
  const route = isIcao ? 'lantern two alfa' : 'lantern two'
  const sign = isIcao ? 'saltmarsh four two one' : 'saltmarsh four twenty one'
  return [
    ...['load figures list', 'two four six two zero', 'three point one up', 'one two eight', 'one three four'],
    ...['one four one', 'niner zero point four', 'edition two, seven two on board'],
    ...['get the information', `information kilo, ${altimeter}`, 'wind two three zero degrees one six knots'],
    'runway two four',
    `heron hill delivery, ${sign}, stand one four, information kilo, request clearance`,
    `cleared to willow lake, ${route} departure`,
    isIcao ? 'runway two four, climb five thousand' : 'maintain five thousand, expect flight level three five zero',
    `one two four ${isIcao ? 'decimal' : 'point'} six seven five, squawk two six one three`,
    ...[`ground one two one ${isIcao ? 'decimal' : 'point'} eight, ${sign}`, 'done'],
    ...[`runway two four, ${route} departure`, 'first level five thousand', 'flap twelve'],
    ...['V one one two eight, rotate one three four', 'rejected takeoff', 'engine failure', 'briefing complete'],
    ...['before start list', 'brake set', 'signs on', 'four thousand eight hundred eighty'],
    ...['five thousand six hundred forty', altimeter, 'code two six one three'],
    ...(pushed
      ? [`heron hill ground, ${sign}, request push and start`, 'push and start approved facing east']
      : [`heron hill ground, ${sign}, request start`, 'start approved']),
    ...['all closed slides armed', 'beacon on', 'all pumps on'],
    ...['confirm doors and steps', 'parking brake set'],
    ...(pushed ? ['confirm steering pin and tow bar'] : []),
    ...['remove the chocks', 'external power off', 'disconnect the cable', 'beacon on'],
    ...(pushed ? ['cleared to push facing east', 'brakes released'] : []),
    ...['clear to start', 'done', ...start('right', 'five eight'), 13, ...start('left', 'five niner')],
    ...(pushed ? ['parking brake set', 'disconnect'] : ['disconnect']),
    ...['signal in sight', 'push and start list', pushed ? 'brake set, tug away' : 'area clear', 'both engines stable'],
    ...['flap twelve', 'flap twelve set', 'done', 'engines running list', 'both on', 'both off', 'ignition off'],
    ...[pushed ? 'tow bar clear, pin in hand' : 'cables clear', 'flap twelve set', 25, 'unit off'],
    ...['full left', 'left aileron up, right aileron down', 'full right', 'right aileron up, left aileron down'],
    ...['full forward', 'elevator down', 'full aft', 'elevator up', 'rudder left', 'rudder left'],
    ...['rudder right', 'rudder right', 'controls neutral', 'done'],
    ...['ready for taxi list', 'full left full right', 'three zero zero eight zero', 'two seven point three'],
    ...['three point one up', 'V one one two eight, rotate one three four, V two one four one'],
    ...['niner zero point four', 'runway two four', 'two thousand niner hundred', 'cabin ready'],
    ...['configuration normal', `heron hill ground, ${sign}, request taxi`],
    isIcao ? 'taxi to holding point charlie three, runway two four' : 'runway two four, at charlie three',
    ...['via bravo echo charlie', 'hold short of runway three three', setting],
    ...['clear left', 'taxi light on', 'brakes released', 'brake check'],
    ...['holding short runway three three', 'crossing runway three three', 'clear left'],
    ...['runway three three vacated', 'holding point charlie three'],
    `monitor tower one one eight ${isIcao ? 'decimal' : 'point'} three, ${sign}`,
  ]
}

const twinCheck = (side: string): readonly Line[] => [
  ...[`checking the ${side} engine`, 'low power fifteen hundred', 'feather drop three hundred'],
  ...['check power two thousand', 'propeller drop two hundred fifty', 'alternate air checked'],
  ...['left drop one hundred ten', 'right drop one hundred thirty', 'difference twenty', 'load thirty'],
  ...['suction five point zero', 'idle six hundred fifty'],
]

export function twinLines(radio: Radio): readonly Line[] {
  const sign = radio === 'icao' ? 'quebec bravo whiskey' : 'quebec bravo whiskey'
  return [
    ...['done', 'takeoff figures list', 'four thousand six hundred ninety eight', 'nine four point four'],
    ...['runway one one', 'four thousand eight hundred fifty', 'two thousand feet'],
    'two thousand nine hundred fifty feet',
    ...['red line six two', 'blue line niner zero', 'two hundred feet a minute'],
    ...['done', 'done', 'cabin list', 'ninety six gallons', 'seats locked harnesses on', 'both latched', 'lock out'],
    ...['both on cross feed off', 'lever down', 'both closed'],
    ...['before start list', 'beacon on', 'pumps on', 'brakes held', 'area clear'],
    ...['starting the left engine', 'engine firing', 'starter is out', 'oil pressure rising', 'idle nine hundred'],
    ...['starting the right engine', 'engine firing', 'starter is out', 'oil pressure rising', 'idle nine hundred'],
    ...['done', 'after start list', 'both normal', 'left on right on', 'pumps off pressure normal'],
    'both on cross feed off',
    'fallow mill tower, quebec xray papa bravo whiskey, request taxi',
    ...['holding point alfa one via echo alfa', 'altimeter two niner seven five', 'hold short of runway one one'],
    ...['southbound departure approved', 'squawk three one six four', 'clear left', 'taxi light on'],
    ...['brakes released', 'brake check', 'done', 'done'],
    ...[...twinCheck('left'), ...twinCheck('right')],
    ...['full left', 'left aileron up, right aileron down', 'full right', 'right aileron up, left aileron down'],
    ...['full forward', 'elevator down', 'full aft', 'elevator up', 'rudder left', 'rudder left'],
    ...['rudder right', 'rudder right', 'neutral'],
    ...['run up list', 'both warm', 'all on both', 'both rich', 'both forward', 'both closed'],
    ...['both on cross feed off', 'two niner seven five'],
    ...['departing runway one one, rotate seven seven', 'red line six two'],
    ...['close both throttles', 'gear down, land ahead', 'blue line niner zero'],
    ...['with the gear up, identify verify feather', 'briefing complete'],
    ...['line up list', 'full and free', 'flap zero', 'three point zero up', 'set neutral', 'seven seven'],
    ...['close both throttles', 'land ahead', 'best rate niner zero', 'one one', 'both latched'],
    'fallow mill tower, quebec xray papa bravo whiskey, ready for departure',
    ...['runway one one, line up and wait', 'both pumps on', 'landing lights on', 'three one six four altitude on'],
    ...['one one two', `${sign}, lined up and ready`, `runway one one, cleared for takeoff, ${sign}`],
  ]
}
