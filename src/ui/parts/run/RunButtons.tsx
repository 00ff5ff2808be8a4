/** What may be pressed now, each with the phrase to say instead. Passing an item is one step further away. */

import type { ViewButton } from '../../../app/view/press.ts'
import { useActions } from '../../useApp.ts'
import { Mark } from '../shell/Mark.tsx'

export function RunButtons({ buttons }: { readonly buttons: readonly ViewButton[] }) {
  const passes = buttons.filter(({ isPass }) => isPass)
  return (
    <div class="buttons">
      <fieldset class="row">
        <legend class="hidden-label">Press, or say the words</legend>
        {buttons
          .filter(({ isPass }) => !isPass)
          .map((button) => (
            <PressButton key={button.label} button={button} />
          ))}
      </fieldset>
      {passes.length > 0 && (
        <details>
          <summary>Pass this item, with a reason</summary>
          <fieldset class="row">
            <legend class="hidden-label">Reasons for passing the item</legend>
            {passes.map((button) => (
              <PressButton key={button.label} button={button} />
            ))}
          </fieldset>
        </details>
      )}
    </div>
  )
}

function PressButton({ button }: { readonly button: ViewButton }) {
  const actions = useActions()
  const { label, phrase, press, waitsFor } = button
  const isFirst = press.type !== 'command' && press.type !== 'confirmItem'
  // It can be pressed all the same: that it is too early is for the pilot to notice.
  const look = waitsFor !== undefined ? 'waits' : isFirst ? 'first' : ''
  const isPhrase = label.toLowerCase() === phrase.toLowerCase()
  return (
    <button type="button" class={look} onClick={() => actions.press(press)}>
      {waitsFor !== undefined && <Mark name="ring" />} {isPhrase ? `“${label}”` : label}
      {!isPhrase && (
        <>
          {' '}
          <small>{waitsFor === undefined ? sayInstead(phrase) : `waits: ${waitsFor}`}</small>
        </>
      )}
    </button>
  )
}

const sayInstead = (phrase: string) => (phrase === '' ? 'or answer' : `or say “${phrase}”`)
