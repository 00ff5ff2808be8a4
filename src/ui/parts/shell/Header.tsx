/** The name, the way to the screens, and which figures are in force. */

import { useLayoutEffect, useRef } from 'preact/hooks'
import { inForce, isScreenThere } from '../../../app/selectors.ts'
import type { Screen } from '../../../app/store.ts'
import { figuresWords } from '../../../app/view/figuresWords.ts'
import { useActions, useApp } from '../../useApp.ts'

const LINKS: readonly { readonly screen: Screen; readonly label: string }[] = [
  { screen: 'start', label: 'Start' },
  { screen: 'packs', label: 'Packs' },
  { screen: 'figures', label: 'Figures' },
  { screen: 'papers', label: 'Papers' },
  { screen: 'run', label: 'Run' },
  { screen: 'debrief', label: 'Debrief' },
  { screen: 'runs', label: 'Runs' },
  { screen: 'progress', label: 'Progress' },
  { screen: 'room', label: 'Room' },
  { screen: 'settings', label: 'Settings' },
]

export function Header() {
  const screen = useApp((state) => state.screen)
  // In one word: what is selected must not be a new thing each time.
  const there = useApp((state) =>
    LINKS.filter((link) => isScreenThere(state, link.screen))
      .map(({ screen }) => screen)
      .join(' '),
  )
  const isWelcomed = useApp((state) => state.settings.welcomed)
  const revision = useApp(inForce)
  const actions = useActions()
  const nav = useRef<HTMLElement>(null)
  // Where not all screens fit in the line, the one that is on is in its middle.
  useLayoutEffect(() => {
    const link = nav.current?.querySelector<HTMLElement>('[aria-current]')
    if (nav.current && link) nav.current.scrollLeft = link.offsetLeft - (nav.current.clientWidth - link.offsetWidth) / 2
  }, [screen, there])
  if (!isWelcomed) return <div />
  const go = (to: Screen) => (to === 'debrief' ? void actions.showDebrief() : actions.show(to))
  return (
    <header class="head">
      <span class="name">Otherseat</span>
      <nav aria-label="Screens" ref={nav}>
        {LINKS.filter((link) => there.split(' ').includes(link.screen)).map((link) => (
          <button
            key={link.screen}
            type="button"
            class="plain"
            aria-current={link.screen === screen ? 'page' : undefined}
            onClick={() => go(link.screen)}
          >
            {link.label}
          </button>
        ))}
      </nav>
      <span class="state small">
        Simulation only
        {revision && `; ${figuresWords(revision.inputs.status, revision.accepted)}`}
      </span>
    </header>
  )
}
