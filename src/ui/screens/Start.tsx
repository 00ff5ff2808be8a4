/** The first screen: three sentences once, then which pack, and whether an unfinished run goes on. */

import { SoundInvitation } from '../parts/settings/SoundInvitation.tsx'
import { NewerEdition } from '../parts/shell/NewerEdition.tsx'
import { Notice } from '../parts/shell/Notice.tsx'
import { Problems } from '../parts/shell/Problems.tsx'
import { PackChoice } from '../parts/start/PackChoice.tsx'
import { Unfinished } from '../parts/start/Unfinished.tsx'
import { Welcome } from '../parts/start/Welcome.tsx'
import { useApp } from '../useApp.ts'

export function Start() {
  const isWelcomed = useApp((state) => state.settings.welcomed)
  const caution = useApp((state) => state.pack?.caution)
  const problems = useApp((state) => state.problems)
  return (
    <main class="page narrow stack wide">
      {isWelcomed ? (
        <>
          <h1 tabIndex={-1}>Choose a departure</h1>
          <NewerEdition />
          <Unfinished />
          <PackChoice />
          <SoundInvitation />
          <Problems title="This pack cannot be used yet" problems={problems} />
        </>
      ) : (
        <Welcome />
      )}
      <Notice caution={caution} />
    </main>
  )
}
