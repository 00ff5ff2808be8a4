/** Who challenges, who reads back, whether the partner errs, and whether the pilot is interrupted on purpose. */

import { caughtByDose, nextDose } from '../../../kernel/run/partner/dose.ts'
import { useActions, useApp } from '../../useApp.ts'
import { Choices } from './Choices.tsx'

const ROLES = [
  { value: 'pilotAnswers', label: 'Otherseat challenges', about: 'you answer' },
  {
    value: 'pilotChallenges',
    label: 'You challenge',
    about: 'Otherseat answers, its side simulated; you go on or object',
  },
] as const
const READ_BACKS = [
  { value: 'pilot', label: 'You read back' },
  { value: 'colleague', label: 'Your colleague reads back', about: 'you call, listen to both, and object' },
] as const
const ERRS = [
  { value: 'no', label: 'Does not err' },
  { value: 'yes', label: 'Errs', about: 'you object; nobody says when, and the debrief tells all' },
] as const
const BREAKS = [
  { value: 'off', label: 'None' },
  { value: 'with', label: 'With a word to hold on to', about: 'Otherseat names the item that it holds at' },
  { value: 'without', label: 'Without', about: 'you know where the list was' },
  { value: 'mixed', label: 'Now one, now the other' },
] as const

export function PartnerSettings() {
  const { roles, readBacks, stations, partnerErrs, breaks, partnerRuns } = useApp((state) => state.settings)
  const { settings: set } = useActions()
  return (
    <>
      <Choices legend="Roles in a list" options={ROLES} value={roles} choose={(value) => set({ roles: value })} />
      {stations && (
        <Choices
          legend="The radio"
          options={READ_BACKS}
          value={readBacks}
          choose={(value) => set({ readBacks: value })}
        />
      )}
      <Choices
        legend="Your partner"
        options={ERRS}
        value={partnerErrs ? 'yes' : 'no'}
        choose={(value) => set({ partnerErrs: value === 'yes' })}
      />
      {partnerErrs && <Caught runs={partnerRuns} />}
      <Choices
        legend="Interruptions on purpose"
        options={BREAKS}
        value={breaks}
        choose={(value) => set({ breaks: value })}
      />
      <p class="soft">These take effect from the next run.</p>
    </>
  )
}

const percent = (share = 0) => `${Math.round(share * 100)} %`

/** The rarer it is, the more is missed: so each dose is told by itself. */
function Caught({ runs }: { readonly runs: Parameters<typeof nextDose>[0] }) {
  const rows = caughtByDose(runs)
  return (
    <>
      <p class="soft">
        In the next run it errs in about {percent(nextDose(runs))} of its chances: dense at first, rarer as you catch
        them.
      </p>
      {rows.length > 0 && (
        <table>
          <caption>Faults caught, by how rare they were</caption>
          <thead>
            <tr>
              <th scope="col">Of its chances</th>
              <th scope="col">Faults</th>
              <th scope="col">Caught (95 % interval)</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ dose, caught: { n, value, low, high } }) => (
              <tr key={dose}>
                <th scope="row">{percent(dose)}</th>
                <td>{n}</td>
                <td>
                  {percent(value)} ({percent(low)} to {percent(high)})
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  )
}
