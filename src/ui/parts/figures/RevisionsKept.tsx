/** Every revision of this departure as it was entered, newest first; an earlier one can be taken up as a draft again. */

import type { Revision } from '../../../app/run/revision.ts'
import { useActions } from '../../useApp.ts'

export function RevisionsKept({ revisions }: { readonly revisions: readonly Revision[] }) {
  const actions = useActions()
  if (revisions.length === 0) return null
  return (
    <details>
      <summary>Revisions so far ({revisions.filter(({ isGiven }) => !isGiven).length})</summary>
      <ol class="values" aria-label="Revisions so far">
        {revisions.toReversed().map(({ revision, accepted, isGiven, inputs, changes, reopened }) => (
          <li key={revision}>
            <div class="head-line">
              <span>
                Revision {accepted}, {inputs.label ?? inputs.status}
                {isGiven && ', with what a station gave'}
              </span>
              <button type="button" onClick={() => actions.draft(inputs)}>
                Use again{' '}
                <span class="hidden-label">
                  revision {accepted}
                  {isGiven && ', with what a station gave'}
                </span>
              </button>
            </div>
            {revision > 1 && (
              <div class="soft small">
                {changes.filter(({ spoken }) => spoken).length} values changed
                {reopened.length > 0 && `; opened again: ${reopened.join(', ')}`}
              </div>
            )}
          </li>
        ))}
      </ol>
    </details>
  )
}
