/** A list as the pilot sees it, with its responses beside the challenges as on a card. */

import type { BesideList } from '../../../../app/view/packBeside.ts'
import { Mark } from '../../shell/Mark.tsx'

interface ListBesideProps {
  readonly list: BesideList
  /** The item at the cursor. */
  readonly open: string | undefined
}

export function ListBeside({ list: { name, caution, entries }, open }: ListBesideProps) {
  return (
    <section aria-labelledby="beside-list">
      <h2 id="beside-list" class="cap">
        {name}
      </h2>
      {caution && <p class="small">Caution: {caution}</p>}
      <ol class="thread">
        {entries.map(({ id, type, challenge, response, when, caution }) => (
          <li key={id} class={type === 'item' ? '' : type} aria-current={id === open ? 'step' : undefined}>
            {(type === 'item' || type === 'line') && <Mark name={type === 'line' ? 'bar' : 'ring'} />}
            <span class={type === 'note' ? '' : 'cap'}>{challenge}</span>
            {response && <span class="state">{response}</span>}
            {when && <span class="state">only with {when}</span>}
            {caution && <span class="state">Caution: {caution}</span>}
          </li>
        ))}
      </ol>
    </section>
  )
}
