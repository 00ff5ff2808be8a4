/** What is wrong with sound that is kept with the runs, in one line. */

import { useApp } from '../../useApp.ts'

export function SoundWrong() {
  const wrong = useApp((state) => state.sounds.wrong)
  return (
    <div role="status" class="sound-wrong">
      {wrong !== '' && <p class="notice">{wrong}</p>}
    </div>
  )
}
