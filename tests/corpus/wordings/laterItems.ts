/** Items that the rules for wordings were not written with: only later writers saw them. All invented. */

import type { WordedItem } from './items.ts'

const SIDES = { east: ['east'], west: ['west'], north: ['north'], south: ['south'] }

export const LATER_ITEMS: readonly WordedItem[] = [
  {
    ...{ id: 'x01', kind: 'value', seen: 'Challenge: "V two?"  Card: V2 ........ __', facts: 'V2 is 143 knots' },
    ...{ challenge: 'V two', response: '<v2>', figures: { v2: { kind: 'speed', value: 143, unit: 'kt' } }, states: [] },
  },
  {
    ...{ id: 'x02', kind: 'value', seen: 'Challenge: "Zero fuel weight?"  Card: ZERO FUEL WEIGHT ........ __ KG' },
    ...{ facts: '51,340 kilograms', challenge: 'zero fuel weight', response: '<zfw> [kilograms]' },
    ...{ figures: { zfw: { kind: 'weight', value: 51340, unit: 'kg' } }, states: [] },
  },
  {
    ...{ id: 'x03', kind: 'value', seen: 'Challenge: "Cruising level?"  Card: CRUISING LEVEL ........ __ SET' },
    ...{ facts: 'flight level 340, set', challenge: 'cruising level', response: '<fl> [set]' },
    ...{ figures: { fl: { kind: 'flightLevel', value: 340 } }, states: [] },
  },
  {
    ...{ id: 'x04', kind: 'value', seen: 'Challenge: "Takeoff flap?"  Card: TAKEOFF FLAP ........ __ , INDICATING' },
    ...{ facts: 'flap 15, the gauge shows it', challenge: 'takeoff flap', response: '[flap] <flap> [indicating]' },
    figures: {
      flap: {
        ...{ kind: 'choice', value: '15' },
        options: {
          up: ['up', 'zero'],
          '5': ['five'],
          '15': ['fifteen', 'one five'],
          '25': ['twenty five', 'two five'],
        },
      },
    },
    states: [],
  },
  {
    ...{ id: 'x05', kind: 'value', seen: 'Challenge: "Temperature?"  Card: OUTSIDE AIR TEMPERATURE ........ __' },
    ...{ facts: 'minus 4 degrees', challenge: 'outside air temperature', response: '<oat> [degrees]' },
    ...{ figures: { oat: { kind: 'temperature', value: -4, unit: 'C' } }, states: [] },
  },
  {
    ...{ id: 'x06', kind: 'value', seen: 'Challenge: "Fuel?" (twin) Card: FUEL ........ LEFT __ RIGHT __ (litres)' },
    ...{ facts: 'left 180, right 175 litres', challenge: 'fuel', response: 'left <l> right <r>' },
    figures: {
      l: { kind: 'integer', value: 180, min: 0, max: 400, step: 5 },
      r: { kind: 'integer', value: 175, min: 0, max: 400, step: 5 },
    },
    states: [],
  },
  {
    ...{ id: 'x07', kind: 'value', seen: 'Challenge: "Minimum altitude?"  Card: MINIMUM SECTOR ALTITUDE ........ __' },
    ...{ facts: '3,700 feet', challenge: 'minimum sector altitude', response: '<msa> [feet]' },
    ...{ figures: { msa: { kind: 'altitude', value: 3700, unit: 'ft' } }, states: [] },
  },
  {
    ...{ id: 'x08', kind: 'value', seen: 'Challenge: "Rudder trim?"  Card: RUDDER TRIM ........ __ UNITS' },
    ...{ facts: '2.5 units right', challenge: 'rudder trim', response: '<trim> [units]' },
    ...{ figures: { trim: { kind: 'trim', decimals: 1, value: 2.5, axis: 'yaw' } }, states: [] },
  },
  {
    ...{ id: 'x09', kind: 'words', seen: 'Challenge: "Wing lights?"  Card: WING LIGHTS ........ LIGHTS ON' },
    ...{ facts: 'on', challenge: 'wing lights', response: 'lights on', figures: {}, states: [['on'], ['off']] },
  },
  {
    ...{ id: 'x10', kind: 'words', seen: 'Challenge: "Hydraulic pumps?"  Card: HYDRAULIC PUMPS ........ FOUR ON' },
    ...{ facts: 'all four pumps on', challenge: 'hydraulic pumps', response: '(four | all) [pumps] on', figures: {} },
    states: [['on'], ['off']],
  },
  {
    ...{ id: 'x11', kind: 'words', seen: 'Challenge: "Windows?"  Card: WINDOWS ........ CLOSED AND LOCKED' },
    ...{ facts: 'both side windows closed and locked', challenge: 'windows', response: 'closed {c} locked {l}' },
    ...{ figures: {}, states: [['closed', 'shut'], ['open'], ['locked'], ['unlocked']] },
  },
  {
    ...{ id: 'x12', kind: 'words', seen: 'Challenge: "Spoilers?"  Card: SPOILERS ........ RETRACTED, LEVER DOWN' },
    ...{ facts: 'spoilers in, lever down', challenge: 'spoilers', response: 'retracted {s} lever down {l}' },
    ...{ figures: {}, states: [['retracted'], ['extended', 'armed'], ['down'], ['up']] },
  },
  {
    ...{ id: 'x13', kind: 'words', seen: 'Challenge: "Mixture?" (twin) Card: MIXTURES ........ BOTH RICH' },
    ...{ facts: 'both rich', challenge: 'mixtures', response: 'both rich', figures: {} },
    states: [['rich'], ['lean'], ['cut off']],
  },
  {
    ...{ id: 'x14', kind: 'words', seen: 'Challenge: "Pitot heat?"  Card: PITOT HEAT ........ HEAT ON' },
    ...{ facts: 'on, current shows', challenge: 'pitot heat', response: 'heat on', figures: {} },
    states: [['on'], ['off']],
  },
  {
    ...{ id: 'x15', kind: 'words', seen: 'Challenge: "External power?"  Card: EXTERNAL POWER ........ DISCONNECTED' },
    ...{ facts: 'disconnected, the cart is gone', challenge: 'external power', response: 'disconnected', figures: {} },
    states: [['disconnected'], ['connected', 'available']],
  },
  {
    ...{ id: 'x16', kind: 'words', seen: 'Challenge: "Thrust levers?"  Card: THRUST LEVERS ........ BOTH IDLE' },
    ...{ facts: 'both at idle', challenge: 'thrust levers', response: 'both idle', figures: {} },
    states: [['idle'], ['open', 'advanced']],
  },
  {
    ...{ id: 'x17', kind: 'words', seen: 'Challenge: "Chocks?"  Card: CHOCKS ........ REMOVED' },
    ...{ facts: 'the chocks are out', challenge: 'chocks', response: '(removed | out | chocks away)', figures: {} },
    states: [
      ['removed', 'out', 'away'],
      ['in place', 'in'],
    ],
  },
  {
    ...{ id: 'x18', kind: 'words', seen: 'Challenge: "Autothrottle?"  Card: AUTOTHROTTLE ........ ARMED' },
    ...{ facts: 'armed', challenge: 'autothrottle', response: 'armed', figures: {} },
    states: [['armed'], ['off', 'disarmed']],
  },
  {
    ...{ id: 'x19', kind: 'clearance' },
    seen: 'Call sign Pipit two seven. Delivery says (ICAO): "Pipit two seven, cleared to Heron Hill via Otter three Charlie departure, runway zero six, climb to flight level seven zero, squawk five one two zero, departure frequency one one niner decimal four."',
    facts: 'read back limit, departure, runway, level, squawk, frequency',
    elements: [
      ['limit', '[cleared] [to] <limit> [airport]'],
      ['dep', '[via] <dep> [departure]'],
      ['rwy', '[runway] <rwy>'],
      ['lvl', '[climb] [to] <lvl>'],
      ['sq', '[squawk] <sq>'],
      ['frq', '[departure frequency | frequency] <frq>'],
    ],
    figures: {
      limit: {
        ...{ kind: 'choice', value: 'Heron Hill' },
        options: { 'Heron Hill': ['heron hill'], 'Gull Point': ['gull point'], Sandhaven: ['sandhaven'] },
      },
      dep: {
        ...{ kind: 'choice', value: 'OTTER3C' },
        options: { OTTER3C: ['otter three charlie'], OTTER3D: ['otter three delta'], REED2C: ['reed two charlie'] },
      },
      rwy: { kind: 'runway', value: '06' },
      lvl: { kind: 'flightLevel', value: 70 },
      sq: { kind: 'digits', value: '5120', length: 4 },
      frq: { kind: 'frequency', value: 119.4 },
    },
  },
  {
    ...{ id: 'x20', kind: 'taxi' },
    seen: 'Call sign Pipit two seven. Ground says: "Pipit two seven, taxi to holding point Bravo one, runway zero six, via Delta, Foxtrot, QNH one zero two one."',
    facts: 'read back holding point, runway, route, QNH',
    elements: [
      ['hp', '[taxi] [to | at] [holding point] <hp>'],
      ['rwy', '[runway] <rwy>'],
      ['route', '[via] <route>'],
      ['qnh', '[q n h | altimeter] <qnh>'],
    ],
    figures: {
      hp: { kind: 'identifier', value: 'B1' },
      rwy: { kind: 'runway', value: '06' },
      route: { kind: 'route', value: 'D F' },
      qnh: { kind: 'altimeter', value: 1021, unit: 'hPa' },
    },
  },
  {
    ...{ id: 'x21', kind: 'taxi' },
    seen: 'Call sign Marsh four two one. Tower says: "Marsh four two one, behind the landing aircraft, line up and wait runway two four, behind."',
    facts: 'read back line up and wait, the runway, and behind the landing aircraft',
    elements: [['line', 'behind [the] landing (aircraft | traffic) line up {line} [and wait] [runway] <rwy> [behind]']],
    figures: { rwy: { kind: 'runway', value: '24' } },
  },
  {
    ...{ id: 'x22', kind: 'push' },
    seen: 'Call sign Pipit two seven. Ground says: "Pipit two seven, push approved, tail north."',
    facts: 'read back push approved, and the direction (tail north)',
    elements: [
      ['push', '(push | pushback) approved'],
      ['dir', '[tail] <dir>'],
    ],
    figures: { dir: { kind: 'choice', value: 'north', options: SIDES } },
  },
  {
    ...{ id: 'x23', kind: 'ground', seen: 'Headset. The ground crew asks: "Confirm parking brake released?" It is.' },
    ...{ facts: 'answer that the brake is released', challenge: '' },
    ...{ response: '(brake released | brakes released | parking brake released)', figures: {} },
    states: [['set'], ['released', 'off']],
  },
  {
    ...{
      id: 'x24',
      kind: 'ground',
      seen: 'Headset. You tell the ground crew that you start engine two (the right one).',
    },
    ...{ facts: 'say that you start engine two', challenge: '' },
    ...{ response: 'starting (engine two | number two | the right engine | two)', figures: {}, states: [] },
  },
]
