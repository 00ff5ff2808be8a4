/** One exchange in the debrief: its turns with every call and read-back, and whether a controller's slip was noticed. */

import { listed } from '../../../kernel/run/core/phrases.ts'
import type { DebriefExchange, DebriefTurn } from '../../../kernel/run/debrief/debriefTalk.ts'
import { Mark } from '../shell/Mark.tsx'
import { Tries } from './Tries.tsx'

export function ExchangeSection({ exchange }: { readonly exchange: DebriefExchange }) {
  const { name, station, role, done, turns } = exchange
  return (
    <section aria-label={`Exchange ${name}`}>
      <h3 class="cap">{name}</h3>
      <p class="soft">
        {role === 'otherseat' ? 'order between the seats' : station}, {done ? 'done' : 'not done'}
      </p>
      <ol class="values">
        {turns.map((turn) => (
          <TurnDebrief key={turn.id} turn={turn} />
        ))}
      </ol>
    </section>
  )
}

const SLIPS = {
  acceptsWrong: 'The controller called a wrong read-back correct.',
  saysAnother: 'The controller said a different value after a correct read-back.',
} as const

function TurnDebrief({ turn }: { readonly turn: DebriefTurn }) {
  const { label, done, tries, misses, sayAgains, asked, unsigned, acknowledged, shown, insisted, waived, slip, byKey } =
    turn
  const notes = [
    done ? 'done' : 'not done',
    byKey ? 'by key' : '',
    misses > 0 ? `${misses} missed` : '',
    sayAgains > 0 ? `${sayAgains} say again` : '',
    asked > 0 ? `you asked again ${asked === 1 ? 'once' : `${asked} times`}` : '',
    unsigned > 0 ? `${unsigned} without call sign` : '',
    acknowledged > 0 ? `${acknowledged} acknowledged, not read back` : '',
    shown ? 'words shown' : '',
    insisted === undefined ? '' : `kept to “${insisted}” against the figure`,
    waived.length > 0 ? `insisted without ${listed(waived)}` : '',
  ].filter((note) => note)
  return (
    <li>
      <div class="head-line">
        <span>
          <Mark name={done ? 'full' : 'ring'} /> <strong class="cap">{label}</strong>
        </span>
        <span class="soft small">{notes.join(', ')}</span>
      </div>
      {slip && (
        <p>
          <Mark name={slip.noticed ? 'full' : 'unequal'} /> {SLIPS[slip.kind]}{' '}
          <strong>{slip.noticed ? 'You noticed.' : 'You did not notice.'}</strong>
        </p>
      )}
      <Tries tries={tries} open={misses > 0} about={`of ${label}`} />
    </li>
  )
}
