/** All that a judgement tells of an answer, as a line: verdict and reason, and of each part what was heard, read and lacks. */

import type { Figures } from '../../../src/kernel/kinds/kind.ts'
import { judgeText, type TextInput } from '../../corpus/judgeText.ts'

const FIGURES: Figures = {
  trim: { kind: 'trim', decimals: 1, value: 5.2 },
  down: { kind: 'trim', decimals: 1, value: -5.2 },
  even: { kind: 'trim', decimals: 1, value: 5 },
  rudder: { kind: 'trim', decimals: 1, axis: 'yaw', value: 1.5 },
  level: { kind: 'altitude', unit: 'ft', value: 5000 },
  squawk: { kind: 'digits', length: 4, value: '4271' },
  v1: { kind: 'speed', value: 128 },
  vr: { kind: 'speed', value: 134 },
  qnh: { kind: 'altimeter', unit: 'hPa', value: 1013 },
  sign: { kind: 'callsign', telephony: ['Tidewick'], value: 'TIDEWICK 421' },
  reg: { kind: 'callsign', value: 'QX-MRA' },
  runway: { kind: 'runway', value: '27L' },
  heading: { kind: 'heading', value: 90 },
  time: { kind: 'time', value: '0915' },
  freq: { kind: 'frequency', value: 121.5 },
  wind: { kind: 'wind', value: '240/08' },
  fuel: { kind: 'weight', unit: 'kg', value: 8400, accept: { tolerance: 100 } },
  flow: { kind: 'integer', value: 5, accept: { min: 3, max: 7 } },
  least: { kind: 'integer', value: 5, accept: { min: 3 } },
  most: { kind: 'integer', value: 5, accept: { max: 7 } },
  near: { kind: 'integer', value: 5, accept: { tolerance: 1, min: 8 } },
  none: { kind: 'integer', value: Number.NaN },
}

export type More = Partial<Pick<TextInput, 'held' | 'begun' | 'implausibleBefore' | 'phraseology' | 'states'>>

/** "incomplete missing: trim missing "five" =5 lacks decimals". */
export function outcome(response: string, heard: string, more: More = {}): string {
  const { verdict, command, because, form, parts } = judgeText({ response, figures: FIGURES, heard, ...more })
  const reason = [verdict, command, because, form && `(${form})`].filter((word) => word !== undefined).join(' ')
  const told = parts.map(({ name, state, heard: words, read, lacks }) =>
    [
      ...[name, state],
      ...[words !== undefined && `"${words}"`, read !== undefined && `=${read}`, lacks && `lacks ${lacks}`],
    ]
      .filter((word) => word)
      .join(' '),
  )
  return `${reason}: ${told.join(', ')}`
}
