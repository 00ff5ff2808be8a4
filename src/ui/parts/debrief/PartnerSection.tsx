/** A partner who erred: every fault and whether it was caught, false objections, and the interruptions. */

import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import {
  breakWords,
  type DebriefPartner,
  rolesWords,
  sensitivityWords,
} from '../../../kernel/run/debrief/debriefPartner.ts'

/** In short, beside the heading. */
export function partnerHead({ faults }: DebriefPartner): string {
  return faults.length === 0
    ? 'no faults'
    : `${faults.filter(({ caught }) => caught).length} of ${faults.length} caught`
}

export function PartnerSection({ partner }: { readonly partner: DebriefPartner }) {
  const { rate, faults, falseObjections, breaks } = partner
  return (
    <>
      <p>
        {rolesWords(partner, 'You')}
        {rate !== undefined &&
          ` It was to err in ${Math.round(rate * 100)} % of its chances. ${sensitivityWords(partner)}`}
      </p>
      {faults.length > 0 && (
        <ol class="values">
          {faults.map(({ t, kind, grade, told, caught, caughtAt, text }) => (
            <li key={`${t} ${kind} ${told}`}>
              {clockTime(t)} <strong>{caught ? 'Caught' : 'Missed'}</strong>, {grade}. {told}
              {caughtAt !== undefined && (
                <div>
                  at {clockTime(caughtAt)}
                  {text && `: “${text}”`}
                </div>
              )}
            </li>
          ))}
        </ol>
      )}
      {falseObjections.length > 0 && (
        <>
          <h3>Objected to, and right</h3>
          <ol class="values">
            {falseObjections.map(({ t, text, about }) => (
              <li key={t}>
                {clockTime(t)} {about}: “{text}”
              </li>
            ))}
          </ol>
        </>
      )}
      {breaks.length > 0 && (
        <>
          <h3>Interrupted on purpose</h3>
          <ol class="values">
            {breaks.map((one) => (
              <li key={one.t}>
                {clockTime(one.t)} {breakWords(one)}
              </li>
            ))}
          </ol>
        </>
      )}
    </>
  )
}
