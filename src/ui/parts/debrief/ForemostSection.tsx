/** The first page of a debrief: three things at most to take away, each with the way to do it again, and what went well. */

import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import type { Debrief } from '../../../kernel/run/debrief/debrief.ts'
import type { Foremost } from '../../../kernel/run/debrief/foremost.ts'
import { AgainButton } from './AgainButton.tsx'
import { HearIt } from './HearIt.tsx'

export function ForemostSection({ foremost, wentWell }: Pick<Debrief, 'foremost' | 'wentWell'>) {
  return (
    <section aria-labelledby="foremost">
      <h2 id="foremost">To take away</h2>
      {foremost.length === 0 ? (
        <p>Nothing was missed.</p>
      ) : (
        <ol class="foremost">
          {foremost.map((one) => (
            <li key={one.kind} class="card">
              <OneThing one={one} />
            </li>
          ))}
        </ol>
      )}
      {wentWell !== '' && <p class="went-well">{wentWell}</p>}
    </section>
  )
}

function OneThing({ one }: { readonly one: Foremost }) {
  const { about, t, said, saidIn, why, more, from } = one
  return (
    <>
      <p>
        <strong class="cap">{about}</strong>
        {t !== undefined && <span class="soft small"> at {clockTime(t)}</span>}
      </p>
      {said !== undefined && (
        <p>
          “{said}” <HearIt seq={saidIn} about={`“${said}”`} />
        </p>
      )}
      <p>
        {why}
        {more > 0 && <span class="soft"> And {more} more of the kind in this run.</span>}
      </p>
      {from !== undefined && <AgainButton from={from} about={about} />}
    </>
  )
}
