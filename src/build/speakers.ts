/** Which voice of flite speaks for whom, in the recordings and in what is synthesised: voices that nobody takes for one another. */

import type { Role } from '../kernel/pack/roles.ts'

export const SPEAKERS: Readonly<Record<Role, string>> = {
  otherseat: 'slt',
  controller: 'rms',
  broadcast: 'kal16',
  groundCrew: 'awb',
}
