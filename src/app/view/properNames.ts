/** Proper names on the screen: what is said and heard is in small letters all through, names are shown as the pack writes them. */

import type { KindSpec } from '../../kernel/kinds/kind.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'

/** The text with the names of stations, their places and the operators' call signs in it as the pack writes them. */
export function withProperNames(pack: Pack, text: string): string {
  const written = new Map(namesOf(pack).map((name) => [name.toLowerCase(), name]))
  if (written.size === 0) return text
  // The longest first: "Heron Hill Ground" before "Heron Hill".
  const either = [...written.keys()].sort((one, other) => other.length - one.length).map(escaped)
  return text.replace(
    new RegExp(`\\b(?:${either.join('|')})\\b`, 'gi'),
    (name) => written.get(name.toLowerCase()) ?? name,
  )
}

function namesOf({ phases, figures }: Pack): string[] {
  const stations = phases.flatMap(({ activities }) =>
    activities.flatMap((activity) => (activity.type === 'exchange' ? activity.station : [])),
  )
  const onRadio = stations.filter(({ role }) => role === 'controller' || role === 'broadcast').map(({ name }) => name)
  // "Heron Hill Ground" speaks from Heron Hill.
  const places = onRadio.map((name) => name.split(' ').slice(0, -1).join(' ')).filter((name) => name !== '')
  return [...onRadio, ...places, ...Object.values(figures.declarations).flatMap(({ spec }) => callNames(spec))]
}

const callNames = (spec: KindSpec) => (spec.kind === 'callsign' ? (spec.telephony ?? []) : [])

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
