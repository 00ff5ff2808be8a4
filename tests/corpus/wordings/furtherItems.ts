/** Items of a further check: the rules for wordings were finished before anybody wrote an answer to them. All invented. */

import type { WordedItem } from './items.ts'

const LIMITS = { 'Ember Point': ['ember point'], Gannet: ['gannet'], Larkmoor: ['larkmoor'] }
const DEPARTURES = {
  OSPREY2D: ['osprey two delta'],
  OSPREY2C: ['osprey two charlie'],
  MERLE1A: ['merle one alfa'],
  MERLE3A: ['merle three alfa'],
}

const item = (
  id: string,
  kind: WordedItem['kind'],
  seen: string,
  facts: string,
  more: Partial<WordedItem>,
): WordedItem => ({ id, kind, seen, facts, figures: {}, states: [], ...more })

export const FURTHER_ITEMS: readonly WordedItem[] = [
  item('f01', 'value', 'Challenge: "Takeoff fuel?"  Card: TAKEOFF FUEL ........ __ KG', '6,480 kilograms', {
    ...{ challenge: 'takeoff fuel', response: '<fuel> [kilograms]' },
    figures: { fuel: { kind: 'weight', value: 6480, unit: 'kg' } },
  }),
  item('f02', 'value', 'Challenge: "Rudder trim?"  Card: RUDDER TRIM ........ __ UNITS', '0.8 units right', {
    ...{ challenge: 'rudder trim', response: '<trim> [units]' },
    figures: { trim: { kind: 'trim', decimals: 1, value: 0.8, axis: 'yaw' } },
  }),
  item(
    'f03',
    'value',
    'Challenge: "Radios?"  Card: RADIOS ........ ACTIVE __ , STANDBY __',
    'active 119.725, standby 126.4',
    {
      ...{ challenge: 'radios', response: '[active] <active> [standby] <other>' },
      figures: { active: { kind: 'frequency', value: 119.725 }, other: { kind: 'frequency', value: 126.4 } },
    },
  ),
  item('f04', 'value', 'Challenge: "Takeoff flap?"  Card: TAKEOFF FLAP ........ __ , SET', '10 degrees, set', {
    ...{ challenge: 'takeoff flap', response: '<flap> [degrees] [set]' },
    figures: { flap: { kind: 'integer', value: 10, min: 0, max: 40 } },
  }),
  item(
    'f05',
    'value',
    'Challenge: "Minimums?"  Card: MINIMUMS ........ __ FEET, SET BOTH SIDES',
    '1,240 feet, both sides',
    {
      ...{ challenge: 'minimums', response: '<min> [feet] [set] [both sides]' },
      figures: { min: { kind: 'altitude', value: 1240, unit: 'ft' } },
    },
  ),
  item('f06', 'value', 'Challenge: "Persons on board?"  Card: PERSONS ON BOARD ........ __', '94', {
    ...{ challenge: 'persons on board', response: '<pob> [on board]' },
    figures: { pob: { kind: 'integer', value: 94, min: 1, max: 200 } },
  }),
  item(
    'f07',
    'value',
    'Challenge: "Takeoff speeds?"  Card: TAKEOFF SPEEDS ........ V1 __ VR __ V2 __',
    'V1 131, VR 134, V2 141',
    {
      ...{ challenge: 'takeoff speeds', response: '[v one] <v1> [v r | rotate] <vr> [v two] <v2>' },
      figures: {
        v1: { kind: 'speed', value: 131, unit: 'kt' },
        vr: { kind: 'speed', value: 134, unit: 'kt' },
        v2: { kind: 'speed', value: 141, unit: 'kt' },
      },
    },
  ),
  item('f08', 'value', 'Challenge: "Heading bug?"  Card: HEADING BUG ........ __ , SET', 'runway heading, 063, set', {
    ...{ challenge: 'heading bug', response: '<hdg> [degrees] [set]' },
    figures: { hdg: { kind: 'heading', value: 63 } },
  }),
  item('f09', 'words', 'Challenge: "Weather radar?"  Card: WEATHER RADAR ........ OFF', 'off', {
    ...{ challenge: 'weather radar', response: 'off' },
    states: [['off'], ['standby'], ['on']],
  }),
  item('f10', 'words', 'Challenge: "Fuel pumps?"  Card: FUEL PUMPS ........ ALL ON', 'all four are on', {
    ...{ challenge: 'fuel pumps', response: 'all on' },
    states: [['on'], ['off']],
  }),
  item('f11', 'words', 'Challenge: "Speedbrake?"  Card: SPEEDBRAKE ........ STOWED', 'stowed, lever in its detent', {
    ...{ challenge: 'speedbrake', response: 'stowed' },
    states: [['stowed'], ['armed'], ['extended']],
  }),
  item('f12', 'words', 'Challenge: "Windows?"  Card: WINDOWS ........ CLOSED AND LOCKED', 'both closed and locked', {
    ...{ challenge: 'windows', response: 'closed and locked' },
    states: [['closed'], ['open'], ['locked'], ['unlocked']],
  }),
  item('f13', 'words', 'Challenge: "Fuel selector?"  Card: FUEL SELECTOR ........ FULLEST TANK (LEFT)', 'left', {
    ...{ challenge: 'fuel selector', response: '[fullest tank] left' },
    states: [['left'], ['right'], ['off'], ['both']],
  }),
  item('f14', 'words', 'Challenge: "Pressurisation?"  Card: PRESSURISATION ........ AUTO', 'automatic', {
    ...{ challenge: 'pressurisation', response: 'auto' },
    states: [['auto'], ['manual']],
  }),
  item(
    'f15',
    'words',
    'Challenge: "Flight controls?"  Card: FLIGHT CONTROLS ........ FREE AND CORRECT',
    'moved through, free and correct',
    {
      ...{ challenge: 'flight controls', response: 'free and correct' },
      states: [['free'], ['stiff'], ['correct'], ['reversed']],
    },
  ),
  item('f16', 'words', 'Challenge: "Cabin?"  Card: CABIN ........ REPORTED READY', 'the purser has reported ready', {
    ...{ challenge: 'cabin', response: '[reported] ready' },
    states: [['ready'], ['not ready']],
  }),
  item(
    'f17',
    'clearance',
    'Call sign Marsh four two one. Delivery says: "Marsh four two one, cleared to Ember Point, Osprey two delta departure, runway zero six, climb six thousand feet, squawk four one one five, departure frequency one two four decimal seven."',
    'read back limit, departure, runway, level, squawk, frequency',
    {
      elements: [
        ['limit', '[cleared] [to] <limit>'],
        ['dep', '<dep> [departure]'],
        ['rwy', '[runway] <rwy>'],
        ['lvl', '[climb] <lvl> [feet]'],
        ['sq', '[squawk] <sq>'],
        ['frq', '[departure] [frequency] <frq>'],
      ],
      figures: {
        limit: { kind: 'choice', options: LIMITS, value: 'Ember Point' },
        dep: { kind: 'choice', options: DEPARTURES, value: 'OSPREY2D' },
        rwy: { kind: 'runway', value: '06' },
        lvl: { kind: 'altitude', value: 6000, unit: 'ft' },
        sq: { kind: 'digits', length: 4, value: '4115' },
        frq: { kind: 'frequency', value: 124.7 },
      },
    },
  ),
  item(
    'f18',
    'taxi',
    'Call sign Pipit two seven. Ground says: "Pipit two seven, taxi to holding point Alfa two, runway three one, via Charlie and Delta."',
    'read back holding point, runway, route',
    {
      elements: [
        ['hp', '[taxi] [to] [holding point] <hp>'],
        ['rwy', '[runway] <rwy>'],
        ['route', '[via] <route>'],
      ],
      figures: {
        hp: { kind: 'identifier', value: 'A2' },
        rwy: { kind: 'runway', value: '31' },
        route: { kind: 'route', value: 'C D' },
      },
    },
  ),
  item(
    'f19',
    'taxi',
    'Call sign Marsh four two one. Tower says: "Marsh four two one, line up and wait, runway zero six."',
    'read back line up and wait with the runway',
    {
      elements: [['line', '(line up and wait | lining up and waiting | line up) {line} [runway] <rwy>']],
      figures: { rwy: { kind: 'runway', value: '06' } },
    },
  ),
  item(
    'f20',
    'push',
    'Call sign Pipit two seven. Ground says: "Pipit two seven, push back approved, face south, hold position abeam stand eight."',
    'read back push approved, facing south, stop abeam stand 8',
    {
      elements: [
        ['push', '(push [back] approved | pushing) {push}'],
        ['face', '(face | facing) <side>'],
        ['stop', '[hold] [position] abeam {abeam} [stand] <stand>'],
      ],
      figures: {
        side: {
          kind: 'choice',
          options: { north: ['north'], south: ['south'], east: ['east'], west: ['west'] },
          value: 'south',
        },
        stand: { kind: 'identifier', value: '8' },
      },
    },
  ),
]
