/** What the tool is not for, with the pack's own caution. Shown before anything is begun, always. */

export function Notice({ caution }: { readonly caution?: string | undefined }) {
  return (
    <aside class="notice" aria-label="Safety notice">
      <strong>For training and simulation only. Not for use in flight or on a real aircraft.</strong>
      <p>
        The approved flight manual, the operator's procedures, local rules and a licensed instructor come first.
        Otherseat hears; it does not see: it cannot know that a switch was moved.
      </p>
      {caution && <p class="soft">{caution}</p>}
    </aside>
  )
}
