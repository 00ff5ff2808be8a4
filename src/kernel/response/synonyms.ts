/**
 * What pilots say in place of the words on a card. Within a line each means the same of a thing that can be in that state;
 * common practice, no source. An item's own states go before: what is another state there is no synonym.
 */

export const SYNONYMS: readonly (readonly string[])[] = [
  ['closed', 'shut'],
  ['set', 'applied', 'parked'],
  ['stable', 'stabilised', 'stabilized', 'settled', 'settled down', 'steady'],
  ['away', 'gone', 'departed', 'pulled away', 'driven away', 'driven off', 'disconnected'],
  ['connected', 'attached', 'hooked up', 'hooked on'],
  ['clear', 'away', 'gone', 'removed', 'out of the way'],
  ['fastened', 'strapped in', 'buckled', 'buckled up', 'buckled in', 'done up'],
  ['locked', 'latched', 'bolted'],
  ['main', 'mains'],
  ['crosschecked', 'cross checked', 'agrees', 'agree', 'agreeing'],
  ['free', 'unrestricted'],
  ['approved', 'cleared', 'granted'],
  ['removed', 'gone', 'away', 'pulled', 'taken out', 'taken away'],
  ['retracted', 'stowed', 'spoilers in', 'boards in', 'panels in', 'speedbrakes in', 'spoilers inside'],
  ['extended', 'deployed'],
  ['disconnected', 'unplugged'],
  ['connected', 'plugged in'],
  ['off', 'shut down', 'switched off', 'turned off'],
  ['on', 'switched on', 'turned on', 'gone on'],
  ['released', 'off'],
  ['disconnect', 'unhook', 'unplug', 'pull the bar'],
  ['rising', 'coming up', 'climbing', 'increasing', 'building', 'on the rise'],
  ['turning', 'rotating', 'spinning'],
  ['peak', 'peaked', 'peaks', 'peaking', 'topped out'],
  ['light up', 'lit up', 'lit', 'good light', 'lighting up'],
  ['cut out', 'cutout', 'dropped out', 'drop out', 'disengaged'],
  ['starting', 'turning', 'start', 'turn', 'cranking', 'to start', 'to turn'],
  [
    'on board',
    'souls',
    'souls on board',
    'people',
    'persons',
    'people on board',
    'persons on board',
    'folk',
    'folk on board',
    'p o b',
  ],
  [
    'pin in hand',
    'pin in sight',
    'pin in view',
    'pin shown',
    'showing the pin',
    'showing me the pin',
    'shows me the pin',
  ],
]

/** "On" said of these: the brake, the harness. Only where the item has no other "on". */
export const ALSO_ON: ReadonlySet<string> = new Set(['set', 'fastened', 'engaged', 'connected', 'applied'])

/** Other names of things that challenges ask for. */
export const ALSO_NAMED: readonly (readonly [string, readonly string[]])[] = [
  ['fan speed', ['n one', 'n 1']],
  ['core speed', ['n two', 'n 2']],
  ['auxiliary power unit', ['a p u', 'apu']],
  ['center of gravity', ['c of g', 'c g']],
  ['centre of gravity', ['c of g', 'c g']],
  ['c g', ['c of g', 'center of gravity', 'centre of gravity']],
  ['altimeter', ['q n h']],
  ['transponder', ['squawk', 'code']],
  ['parking brake', ['park brake', 'brakes']],
  ['landing gear', ['wheels']],
  ['harness', ['belts', 'straps', 'seat belts']],
  ['zero fuel weight', ['z f w', 'zero fuel', 'zero fuel is']],
  ['rotate speed', ['v r', 'vee r', 'v rotate']],
  ['v two', ['vee two', 'v two', 'safety speed', 'climb out speed']],
  ['v one', ['vee one', 'decision speed']],
  ['pitot heat', ['probe heat', 'pitot heating', 'the heat']],
  ['autothrottle', ['auto throttle', 'auto throttles', 'autothrottles', 'a t']],
  ['anti ice', ['cowls', 'cowl heat', 'cowl']],
  ['beacon', ['anti collision light', 'anti collision lights', 'anti collision', 'rotating beacon', 'the red one']],
  ['external power', ['ground power', 'g p u', 'external', 'the cable', 'cable']],
  ['hydraulic pumps', ['hyds', 'hydraulics']],
  ['spoilers', ['boards', 'panels', 'speedbrakes']],
  ['outside air temperature', ['o a t', 'outside']],
  ['minimum sector altitude', ['m s a', 'minimum altitude', 'minimum sector', 'minimum']],
  ['cruising level', ['cruise', 'cruise level']],

  ['takeoff weight', ['t o w', 'takeoff mass']],
]
