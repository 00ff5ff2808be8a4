/** What one version of a pack says otherwise than another, by the part of the pack. */

import type { Compared } from '../../../app/packs/shelfState.ts'

/** More are counted. */
const MOST_SHOWN = 200

export function Differences({ differences }: Compared) {
  if (differences.length === 0) return <p>Both say the same.</p>
  const parts = [...new Set(differences.map(({ part }) => part))]
  const few = differences.slice(0, MOST_SHOWN)
  return (
    <div class="stack differences">
      {parts.map((part) => {
        const here = few.filter((one) => one.part === part)
        return here.length === 0 ? null : (
          <div key={part}>
            <h3>{part}</h3>
            <ul>
              {here.map(({ words }) => (
                <li key={words}>{words}</li>
              ))}
            </ul>
          </div>
        )
      })}
      {differences.length > MOST_SHOWN && <p class="soft">And {differences.length - MOST_SHOWN} more.</p>}
    </div>
  )
}
