/** Items of the last check: the rules for wordings were finished before anybody wrote an answer to them. All invented. */

import type { WordedItem } from './items.ts'

const SIDES = { east: ['east'], west: ['west'], north: ['north'], south: ['south'] }

export const LAST_ITEMS: readonly WordedItem[] = [
  {
    ...{ id: 'y01', kind: 'value', seen: 'Challenge: "Takeoff weight?"  Card: TAKEOFF WEIGHT ........ __ KG' },
    ...{ facts: '61,870 kilograms', challenge: 'takeoff weight', response: '<tow> [kilograms]' },
    ...{ figures: { tow: { kind: 'weight', value: 61870, unit: 'kg' } }, states: [] },
  },
  {
    ...{ id: 'y02', kind: 'value', seen: 'Challenge: "Stabiliser trim?"  Card: STABILISER TRIM ........ __ UNITS' },
    ...{ facts: '4.3 units up', challenge: 'stabiliser trim', response: '<trim> [units]' },
    ...{ figures: { trim: { kind: 'trim', decimals: 1, value: 4.3 } }, states: [] },
  },
  {
    ...{ id: 'y03', kind: 'value', seen: 'Challenge: "Speeds?"  Card: V1 __  VR __  V2 __ ........ SET' },
    facts: 'V1 131, VR 136, V2 144; the bugs are set',
    ...{ challenge: 'speeds', response: '[v one] <v1> [v r | rotate] <vr> [v two] <v2> [set]' },
    figures: {
      v1: { kind: 'speed', value: 131, unit: 'kt' },
      vr: { kind: 'speed', value: 136, unit: 'kt' },
      v2: { kind: 'speed', value: 144, unit: 'kt' },
    },
    states: [],
  },
  {
    ...{ id: 'y04', kind: 'value', seen: 'Challenge: "Altimeters?"  Card: ALTIMETERS ........ QNH __ , __ FEET' },
    facts: 'QNH 1008, the altimeter shows 240 feet',
    ...{ challenge: 'altimeters', response: '[q n h] <qnh> <alt> [feet]' },
    figures: {
      qnh: { kind: 'altimeter', value: 1008, unit: 'hPa' },
      alt: { kind: 'altitude', value: 240, unit: 'ft' },
    },
    states: [],
  },
  {
    ...{ id: 'y05', kind: 'value', seen: 'Challenge: "Transponder?"  Card: TRANSPONDER ........ CODE __' },
    ...{ facts: '4 6 2 1', challenge: 'transponder', response: '[code | squawk] <code> [set]' },
    ...{ figures: { code: { kind: 'digits', value: '4621', length: 4 } }, states: [] },
  },
  {
    ...{
      id: 'y06',
      kind: 'value',
      seen: 'Challenge: "Departure runway?"  Card: DEPARTURE RUNWAY ........ __ , HEADING __',
    },
    facts: 'runway 33 left, the compass says 328',
    ...{ challenge: 'departure runway', response: '[runway] <rwy> [heading] <hdg>' },
    figures: { rwy: { kind: 'runway', value: '33L' }, hdg: { kind: 'heading', value: 328 } },
    states: [],
  },
  {
    ...{ id: 'y07', kind: 'value', seen: 'Challenge: "Cabin?"  Card: CABIN ........ __ ON BOARD, SECURE' },
    ...{ facts: '86 people on board, the cabin is secure', challenge: 'cabin' },
    ...{ response: '<pob> [on board] (secure | cabin secure)' },
    ...{
      figures: { pob: { kind: 'integer', value: 86, min: 0, max: 120 } },
      states: [['secure'], ['not secure', 'open']],
    },
  },
  {
    ...{ id: 'y08', kind: 'value', seen: 'Challenge: "Cleared level?"  Card: CLEARED LEVEL ........ __ FEET, SET' },
    ...{ facts: '6,000 feet, set in the window', challenge: 'cleared level', response: '<alt> [feet] [set]' },
    ...{ figures: { alt: { kind: 'altitude', value: 6000, unit: 'ft' } }, states: [] },
  },
  {
    ...{ id: 'y09', kind: 'words', seen: 'Challenge: "Windows?"  Card: WINDOWS ........ CLOSED AND LOCKED' },
    ...{ facts: 'closed and locked', challenge: 'windows', response: 'closed and locked', figures: {} },
    states: [['closed'], ['open'], ['locked'], ['unlocked']],
  },
  {
    ...{ id: 'y10', kind: 'words', seen: 'Challenge: "Fuel pumps?"  Card: FUEL PUMPS ........ ALL ON' },
    ...{ facts: 'all on', challenge: 'fuel pumps', response: 'all on', figures: {}, states: [['on'], ['off']] },
  },
  {
    ...{ id: 'y11', kind: 'words', seen: 'Challenge: "Parking brake?"  Card: PARKING BRAKE ........ SET' },
    ...{
      facts: 'set',
      challenge: 'parking brake',
      response: 'set',
      figures: {},
      states: [['set'], ['released', 'off']],
    },
  },
  {
    ...{
      id: 'y12',
      kind: 'words',
      seen: 'Challenge: "Flight controls?"  Card: FLIGHT CONTROLS ........ FULL AND FREE',
    },
    ...{ facts: 'full and free, all of them moved', challenge: 'flight controls' },
    ...{ response: '(full and free | checked full and free)', figures: {}, states: [['free'], ['stiff', 'jammed']] },
  },
  {
    ...{ id: 'y13', kind: 'words', seen: 'Challenge: "Anti-ice?"  Card: ENGINE ANTI-ICE ........ OFF' },
    ...{ facts: 'off', challenge: 'engine anti-ice', response: 'off', figures: {}, states: [['on'], ['off']] },
  },
  {
    ...{ id: 'y14', kind: 'words', seen: 'Challenge: "Seat belts sign?"  Card: SIGNS ........ ON' },
    ...{
      facts: 'the signs are on',
      challenge: 'signs',
      response: 'on',
      figures: {},
      states: [['on'], ['off', 'auto']],
    },
  },
  {
    ...{ id: 'y15', kind: 'words', seen: 'Challenge: "Flap lever?"  Card: FLAP LEVER ........ UP' },
    ...{ facts: 'up', challenge: 'flap lever', response: 'up', figures: {}, states: [['up'], ['down', 'extended']] },
  },
  {
    ...{ id: 'y16', kind: 'words', seen: 'Challenge: "Takeoff briefing?"  Card: TAKEOFF BRIEFING ........ COMPLETE' },
    ...{
      facts: 'complete',
      challenge: 'takeoff briefing',
      response: '(complete | completed)',
      figures: {},
      states: [],
    },
  },
  {
    ...{ id: 'y17', kind: 'clearance' },
    seen: 'Call sign Marsh four two one. Delivery says (ICAO): "Marsh four two one, cleared to Sandhaven via Reed two Charlie departure, runway three three, climb five thousand feet, squawk three one four six."',
    facts: 'read back limit, departure, runway, level, squawk',
    elements: [
      ['limit', '[cleared] [to] <limit> [airport]'],
      ['dep', '[via] <dep> [departure]'],
      ['rwy', '[runway] <rwy>'],
      ['lvl', '[climb] [to] <lvl> [feet]'],
      ['sq', '[squawk] <sq>'],
    ],
    figures: {
      limit: {
        ...{ kind: 'choice', value: 'Sandhaven' },
        options: { 'Heron Hill': ['heron hill'], 'Gull Point': ['gull point'], Sandhaven: ['sandhaven'] },
      },
      dep: {
        ...{ kind: 'choice', value: 'REED2C' },
        options: { OTTER3C: ['otter three charlie'], OTTER3D: ['otter three delta'], REED2C: ['reed two charlie'] },
      },
      rwy: { kind: 'runway', value: '33' },
      lvl: { kind: 'altitude', value: 5000, unit: 'ft' },
      sq: { kind: 'digits', value: '3146', length: 4 },
    },
  },
  {
    ...{ id: 'y18', kind: 'clearance' },
    seen: 'Call sign Pipit two seven. Clearance says (FAA): "Pipit two seven, cleared to Gull Point airport, Otter three delta departure, then as filed, maintain four thousand, expect flight level two three zero one zero minutes after departure, departure frequency one two five point one five, squawk six three zero two."',
    facts: 'read back limit, departure, altitude, frequency, squawk (the expected level may be read back too)',
    elements: [
      ['limit', '[cleared] [to] <limit> [airport]'],
      ['dep', '[via] <dep> [departure]'],
      ['lvl', '[maintain] <lvl> [feet]'],
      ['exp', '[expect <fl> [[one zero] minutes] [after departure]]'],
      ['frq', '[departure frequency | frequency | departure] <frq>'],
      ['sq', '[squawk] <sq>'],
    ],
    figures: {
      limit: {
        ...{ kind: 'choice', value: 'Gull Point' },
        options: { 'Heron Hill': ['heron hill'], 'Gull Point': ['gull point'], Sandhaven: ['sandhaven'] },
      },
      dep: {
        ...{ kind: 'choice', value: 'OTTER3D' },
        options: { OTTER3C: ['otter three charlie'], OTTER3D: ['otter three delta'], REED2C: ['reed two charlie'] },
      },
      lvl: { kind: 'altitude', value: 4000, unit: 'ft' },
      fl: { kind: 'flightLevel', value: 230 },
      frq: { kind: 'frequency', value: 125.15 },
      sq: { kind: 'digits', value: '6302', length: 4 },
    },
  },
  {
    ...{ id: 'y19', kind: 'clearance' },
    seen: 'Call sign Marsh four two one. Tower says: "Marsh four two one, contact departure one two four decimal six seven five."',
    facts: 'read back the frequency',
    elements: [['frq', '[contact] [departure] <frq>']],
    figures: { frq: { kind: 'frequency', value: 124.675 } },
  },
  {
    ...{ id: 'y20', kind: 'taxi' },
    seen: 'Call sign Marsh four two one. Ground says: "Marsh four two one, taxi to holding point Charlie two, runway three three, via Alfa, hold short of runway two four."',
    facts: 'read back holding point, runway, route, and hold short of runway two four',
    elements: [
      ['hp', '[taxi] [to | at] [holding point] <hp>'],
      ['rwy', '[runway] <rwy>'],
      ['route', '[via] <route>'],
      ['short', 'hold short [of] [runway] <cross>'],
    ],
    figures: {
      hp: { kind: 'identifier', value: 'C2' },
      rwy: { kind: 'runway', value: '33' },
      route: { kind: 'route', value: 'A' },
      cross: { kind: 'runway', value: '24' },
    },
  },
  {
    ...{ id: 'y21', kind: 'taxi' },
    seen: 'Call sign Pipit two seven. Ground says: "Pipit two seven, cross runway two four, report vacated."',
    facts: 'read back that you cross runway two four (and will report vacated)',
    elements: [['cross', '(cross | crossing) [runway] <rwy> [report vacated]']],
    figures: { rwy: { kind: 'runway', value: '24' } },
  },
  {
    ...{ id: 'y22', kind: 'push' },
    seen: 'Call sign Marsh four two one. Ground says: "Marsh four two one, push and start approved, facing west."',
    facts: 'read back push and start approved, and the direction (facing west)',
    elements: [
      ['push', '(push and start | pushback and start | push) approved'],
      ['dir', '[facing] <dir>'],
    ],
    figures: { dir: { kind: 'choice', value: 'west', options: SIDES } },
  },
  {
    ...{
      id: 'y23',
      kind: 'ground',
      seen: 'Headset. The ground crew says: "Push complete, set parking brake." You have set it.',
    },
    ...{ facts: 'say that the parking brake is set', challenge: '' },
    ...{ response: '(brake set | brakes set | parking brake set)', figures: {} },
    states: [['set'], ['released', 'off']],
  },
  {
    ...{
      id: 'y24',
      kind: 'ground',
      seen: 'Headset. Both engines run. You tell the ground crew to take everything away.',
    },
    ...{ facts: 'tell them to disconnect', challenge: '' },
    ...{ response: '(disconnect | clear to disconnect | you may disconnect)', figures: {}, states: [] },
  },
]
