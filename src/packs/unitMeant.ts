/** The unit of a pack that is meant by a unit as crews and cards write it: "volts", "FT-LB", "pph". */

import type { Unit } from '../kernel/units.ts'
import { UNITS_WRITTEN, type WrittenUnit } from './paper/answerWords.ts'
import { withUnitTokens } from './paper/unitTokens.ts'

const UNITS: Readonly<Partial<Record<WrittenUnit['dimension'], Unit>>> = {
  ...{ speed: 'kt', kg: 'kg', lb: 'lb', trim: 'trim', hPa: 'hPa', inHg: 'inHg', inches: 'in', ft: 'ft' },
  ...{ celsius: 'C', fahrenheit: 'F', percent: 'percent', mac: 'percentMac', usgal: 'usgal', l: 'l', degrees: 'deg' },
  ...{ torque: 'ft lb', newtonMetres: 'N m', poundsAnHour: 'lb/h', kilogramsAnHour: 'kg/h', litresAnHour: 'l/h' },
  ...{ gallonsAnHour: 'usgal/h', psi: 'psi', bar: 'bar', volts: 'V', amps: 'A', rpm: 'rpm', minutes: 'min' },
  seconds: 's',
}

export function unitMeant(given: string): Unit | undefined {
  const written = UNITS_WRITTEN.get(withUnitTokens(given.slice(0, LONGEST)).trim().toLowerCase())
  return written && UNITS[written.dimension]
}

const LONGEST = 40
