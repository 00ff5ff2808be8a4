/** Items of the next check: the rules for wordings were finished before anybody wrote an answer to them. All invented. */

import type { WordedItem } from './items.ts'

const LIMITS = { Larkmoor: ['larkmoor'], 'Skerry Isle': ['skerry isle'], Quillhaven: ['quillhaven'] }
const DEPARTURES = {
  BRACK1F: ['brack one foxtrot'],
  BRACK1G: ['brack one golf'],
  SEDGE4G: ['sedge four golf'],
  PLOVER2L: ['plover two lima'],
}

export const NEXT_ITEMS: readonly WordedItem[] = [
  {
    ...{
      id: 'z01',
      kind: 'value',
      seen: 'Challenge: "Landing speeds?"  Card: LANDING SPEEDS ........ VREF __ TARGET __',
    },
    ...{ facts: 'reference speed 118, target speed 123 knots', challenge: 'landing speeds' },
    response: '[v ref | reference] <vref> [target] <target>',
    figures: {
      vref: { kind: 'speed', value: 118, unit: 'kt' },
      target: { kind: 'speed', value: 123, unit: 'kt' },
    },
    states: [],
  },
  {
    ...{ id: 'z02', kind: 'value', seen: 'Challenge: "Landing weight?"  Card: LANDING WEIGHT ........ __ LB' },
    ...{ facts: '13,450 pounds (light jet)', challenge: 'landing weight', response: '<ldw> [pounds]' },
    ...{ figures: { ldw: { kind: 'weight', value: 13450, unit: 'lb' } }, states: [] },
  },
  {
    ...{ id: 'z03', kind: 'value', seen: 'Challenge: "Aileron trim?"  Card: AILERON TRIM ........ __ UNITS' },
    ...{ facts: '1.5 units left', challenge: 'aileron trim', response: '<trim> [units]' },
    ...{ figures: { trim: { kind: 'trim', decimals: 1, value: -1.5, axis: 'roll' } }, states: [] },
  },
  {
    ...{
      id: 'z04',
      kind: 'value',
      seen: 'Challenge: "Standby altimeter?"  Card: STANDBY ALTIMETER ........ __ , CROSSCHECKED',
    },
    facts: 'altimeter setting 30.07 inches; it agrees with the other two',
    ...{ challenge: 'standby altimeter', response: '<qnh> [set] (crosschecked | cross checked)' },
    ...{ figures: { qnh: { kind: 'altimeter', value: 30.07, unit: 'inHg' } }, states: [] },
  },
  {
    ...{
      id: 'z05',
      kind: 'value',
      seen: 'Challenge: "Climb altitudes?"  Card: CLIMB ALTITUDES ........ THRUST REDUCTION __ ACCELERATION __ (feet)',
    },
    facts: 'thrust reduction at 1,500 feet, acceleration at 3,200 feet',
    ...{ challenge: 'climb altitudes', response: '[thrust] [reduction] <thr> [feet] [acceleration] <acc> [feet]' },
    figures: {
      thr: { kind: 'altitude', value: 1500, unit: 'ft' },
      acc: { kind: 'altitude', value: 3200, unit: 'ft' },
    },
    states: [],
  },
  {
    ...{
      id: 'z06',
      kind: 'value',
      seen: 'Challenge: "Localiser?"  Card: LOCALISER ........ FREQUENCY __ , COURSE __',
    },
    facts: 'frequency 110.35, inbound course 247',
    ...{ challenge: 'localiser', response: '[frequency] <loc> [course] <crs> [set]' },
    figures: { loc: { kind: 'frequency', value: 110.35 }, crs: { kind: 'heading', value: 247 } },
    states: [],
  },
  {
    ...{ id: 'z07', kind: 'value', seen: 'Challenge: "Technical log?"  Card: TECHNICAL LOG ........ PAGE __ , SIGNED' },
    ...{ facts: 'page 7 0 3 8, it is signed', challenge: 'technical log', response: '[page] <page> signed {signed}' },
    ...{
      figures: { page: { kind: 'digits', value: '7038', length: 4 } },
      states: [['signed'], ['not signed', 'open']],
    },
  },
  {
    ...{
      id: 'z08',
      kind: 'value',
      seen: 'Challenge: "Assumed temperature?"  Card: ASSUMED TEMPERATURE ........ __ ENTERED',
    },
    ...{ facts: '48 degrees, entered', challenge: 'assumed temperature', response: '<temp> [degrees] [entered]' },
    ...{ figures: { temp: { kind: 'temperature', value: 48, unit: 'C' } }, states: [] },
  },
  {
    ...{ id: 'z09', kind: 'value', seen: 'Challenge: "Off blocks?"  Card: OFF BLOCKS ........ TIME __ , FUEL __ KG' },
    facts: 'off blocks at 1437, 7,250 kilograms of fuel at that moment',
    ...{ challenge: 'off blocks', response: '[time] <time> [fuel] <fuel> [kilograms]' },
    figures: { time: { kind: 'time', value: '1437' }, fuel: { kind: 'weight', value: 7250, unit: 'kg' } },
    states: [],
  },
  {
    ...{ id: 'z10', kind: 'words', seen: 'Challenge: "Yaw damper?"  Card: YAW DAMPER ........ ENGAGED' },
    ...{ facts: 'engaged', challenge: 'yaw damper', response: 'engaged', figures: {} },
    states: [
      ['engaged', 'on'],
      ['disengaged', 'off'],
    ],
  },
  {
    ...{ id: 'z11', kind: 'words', seen: 'Challenge: "Weather radar?"  Card: WEATHER RADAR ........ STANDBY' },
    ...{ facts: 'in standby', challenge: 'weather radar', response: 'standby', figures: {} },
    states: [['standby'], ['on', 'transmitting'], ['off']],
  },
  {
    ...{
      id: 'z12',
      kind: 'words',
      seen: 'Challenge: "Carburettor heat?" (piston) Card: CARBURETTOR HEAT ........ COLD',
    },
    ...{ facts: 'the lever is at cold', challenge: 'carburettor heat', response: 'cold', figures: {} },
    states: [
      ['cold', 'off'],
      ['hot', 'on'],
    ],
  },
  {
    ...{
      id: 'z13',
      kind: 'words',
      seen: 'Challenge: "Propeller levers?" (twin) Card: PROPELLER LEVERS ........ BOTH FULL FORWARD',
    },
    ...{ facts: 'both levers full forward', challenge: 'propeller levers', response: 'both [full] forward' },
    ...{ figures: {}, states: [['forward'], ['back', 'aft'], ['feathered']] },
  },
  {
    ...{ id: 'z14', kind: 'words', seen: 'Challenge: "Air?"  Card: AIR ........ PACKS OFF, BLEEDS OPEN' },
    ...{ facts: 'both packs off, both bleed valves open', challenge: 'air' },
    ...{ response: 'packs off {packs} bleeds open {bleeds}', figures: {} },
    states: [['on'], ['off'], ['open'], ['closed', 'shut']],
  },
  {
    ...{ id: 'z15', kind: 'words', seen: 'Challenge: "Oxygen masks?"  Card: OXYGEN MASKS ........ TESTED, STOWED' },
    ...{ facts: 'both masks tested and stowed again', challenge: 'oxygen masks' },
    ...{ response: 'tested {tested} stowed {stowed}', figures: {} },
    states: [['tested', 'checked'], ['not tested', 'untested'], ['stowed'], ['out', 'unstowed']],
  },
  {
    ...{
      id: 'z16',
      kind: 'words',
      seen: 'Challenge: "Autobrake?"  Card: AUTOBRAKE ........ TAKEOFF (the others: off, low, medium)',
    },
    ...{ facts: 'the selector is at takeoff', challenge: 'autobrake', response: 'takeoff', figures: {} },
    states: [['takeoff'], ['off'], ['low'], ['medium']],
  },
  {
    ...{ id: 'z17', kind: 'words', seen: 'Challenge: "Canopy?" (piston) Card: CANOPY ........ CLOSED AND LATCHED' },
    ...{ facts: 'closed and latched', challenge: 'canopy', response: 'closed {c} [and] latched {l}', figures: {} },
    states: [['closed', 'shut'], ['open'], ['latched'], ['unlatched']],
  },
  {
    ...{ id: 'z18', kind: 'clearance' },
    seen: 'Call sign Marsh four two one. Delivery says (ICAO): "Marsh four two one, cleared to Larkmoor via Brack one Foxtrot departure, runway one six right, climb to altitude four thousand feet, QNH niner niner eight, squawk two seven five three."',
    facts: 'read back limit, departure, runway, level, QNH, squawk',
    elements: [
      ['limit', '[cleared] [to] <limit> [airport]'],
      ['dep', '[via] <dep> [departure]'],
      ['rwy', '[runway] <rwy>'],
      ['lvl', '[climb] [to] [altitude] <lvl> [feet]'],
      ['qnh', '[q n h | altimeter] <qnh>'],
      ['sq', '[squawk] <sq>'],
    ],
    figures: {
      limit: { kind: 'choice', value: 'Larkmoor', options: LIMITS },
      dep: { kind: 'choice', value: 'BRACK1F', options: DEPARTURES },
      rwy: { kind: 'runway', value: '16R' },
      lvl: { kind: 'altitude', value: 4000, unit: 'ft' },
      qnh: { kind: 'altimeter', value: 998, unit: 'hPa' },
      sq: { kind: 'digits', value: '2753', length: 4 },
    },
  },
  {
    ...{ id: 'z19', kind: 'clearance' },
    seen: 'Call sign Pipit two seven. Clearance says (FAA): "Pipit two seven, cleared to Quillhaven airport, on departure turn left heading two one zero, climb and maintain three thousand, departure frequency one three three point four, squawk zero four one seven."',
    facts: 'read back limit, left turn and heading, altitude, frequency, squawk',
    elements: [
      ['limit', '[cleared] [to] <limit> [airport]'],
      ['hdg', '[on departure] [turn] left {left} [heading] <hdg>'],
      ['lvl', '[climb] [and] [maintain] <lvl> [feet]'],
      ['frq', '[departure frequency | frequency | departure] <frq>'],
      ['sq', '[squawk] <sq>'],
    ],
    figures: {
      limit: { kind: 'choice', value: 'Quillhaven', options: LIMITS },
      hdg: { kind: 'heading', value: 210 },
      lvl: { kind: 'altitude', value: 3000, unit: 'ft' },
      frq: { kind: 'frequency', value: 133.4 },
      sq: { kind: 'digits', value: '0417', length: 4 },
    },
  },
  {
    ...{ id: 'z20', kind: 'clearance' },
    seen: 'Call sign Pipit two seven, at a field without a tower. Clearance says (FAA): "Pipit two seven, cleared to Skerry Isle airport as filed, climb and maintain five thousand, squawk one six three zero, clearance void if not off by one five two zero."',
    facts: 'read back limit, altitude, squawk, void time',
    elements: [
      ['limit', '[cleared] [to] <limit> [airport] [as filed]'],
      ['lvl', '[climb] [and] [maintain] <lvl> [feet]'],
      ['sq', '[squawk] <sq>'],
      ['void', '[clearance] void [if not off] [by | at] <time>'],
    ],
    figures: {
      limit: { kind: 'choice', value: 'Skerry Isle', options: LIMITS },
      lvl: { kind: 'altitude', value: 5000, unit: 'ft' },
      sq: { kind: 'digits', value: '1630', length: 4 },
      time: { kind: 'time', value: '1520' },
    },
  },
  {
    ...{ id: 'z21', kind: 'clearance' },
    seen: 'Call sign Marsh four two one. Delivery says (ICAO): "Marsh four two one, cleared to Quillhaven, Sedge four Golf departure, climb to flight level niner zero, squawk two two zero six, when ready contact ground one two one decimal seven five."',
    facts: 'read back limit, departure, level, squawk, frequency of ground',
    elements: [
      ['limit', '[cleared] [to] <limit> [airport]'],
      ['dep', '[via] <dep> [departure]'],
      ['lvl', '[climb] [to] <lvl>'],
      ['sq', '[squawk] <sq>'],
      ['frq', '[when ready] [contact] [ground] [on] <frq>'],
    ],
    figures: {
      limit: { kind: 'choice', value: 'Quillhaven', options: LIMITS },
      dep: { kind: 'choice', value: 'SEDGE4G', options: DEPARTURES },
      lvl: { kind: 'flightLevel', value: 90 },
      sq: { kind: 'digits', value: '2206', length: 4 },
      frq: { kind: 'frequency', value: 121.75 },
    },
  },
  {
    ...{ id: 'z22', kind: 'taxi' },
    seen: 'Call sign Marsh four two one. Ground says (ICAO): "Marsh four two one, taxi to holding point Kilo three, runway one six right, via Lima, November, cross runway zero niner."',
    facts: 'read back holding point, runway, route, and that you cross runway zero niner',
    elements: [
      ['hp', '[taxi] [to | at] [holding point] <hp>'],
      ['rwy', '[runway] <rwy>'],
      ['route', '[via] <route>'],
      ['cross', '(cross | crossing) {crossing} [runway] <cross>'],
    ],
    figures: {
      hp: { kind: 'identifier', value: 'K3' },
      rwy: { kind: 'runway', value: '16R' },
      route: { kind: 'route', value: 'L N' },
      cross: { kind: 'runway', value: '09' },
    },
  },
  {
    ...{ id: 'z23', kind: 'taxi' },
    seen: 'Call sign Pipit two seven. Ground says: "Pipit two seven, taxi to de-icing pad two via Hotel, Papa, then monitor de-icing on one two one decimal six five."',
    facts: 'read back pad, route, frequency',
    elements: [
      ['pad', '[taxi] [to] [de icing] pad <pad>'],
      ['route', '[via] <route>'],
      ['frq', '[then] [monitor | monitoring] [de icing] [on] <frq>'],
    ],
    figures: {
      pad: { kind: 'integer', value: 2, min: 1, max: 9 },
      route: { kind: 'route', value: 'H P' },
      frq: { kind: 'frequency', value: 121.65 },
    },
  },
  {
    ...{ id: 'z24', kind: 'taxi' },
    seen: 'Call sign Pipit two seven. Tower says: "Pipit two seven, backtrack runway zero niner, vacate right via Juliett."',
    facts: 'read back the backtrack with its runway, and vacate right via Juliett',
    elements: [
      ['back', '(backtrack | backtracking) {back} [runway] <rwy>'],
      ['vacate', '[vacate | vacating] right {right} [via | on] <tw>'],
    ],
    figures: { rwy: { kind: 'runway', value: '09' }, tw: { kind: 'identifier', value: 'J' } },
  },
  {
    ...{
      id: 'z25',
      kind: 'ground',
      seen: 'Headset. The ground crew asks: "We connect the tow bar now. Confirm hydraulics off?" They are off.',
    },
    ...{ facts: 'answer that the hydraulics are off', challenge: '' },
    ...{ response: '(hydraulics off | hydraulics are off)', figures: {}, states: [['on'], ['off']] },
  },
  {
    ...{
      id: 'z26',
      kind: 'ground',
      seen: 'Headset. The ground crew says: "Air start unit is connected. What pressure do you see?"',
    },
    ...{ facts: 'the duct pressure gauge shows 38 psi', challenge: '' },
    ...{ response: '[duct] [pressure] <p> [p s i]', figures: { p: { kind: 'integer', value: 38, min: 0, max: 60 } } },
    states: [],
  },
]
