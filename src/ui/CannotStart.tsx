/** What is left when the app cannot start. It uses no store and no action, because they may be what failed. */

import { Notice } from './parts/shell/Notice.tsx'

export function CannotStart({ message }: { readonly message: string }) {
  return (
    <main class="page narrow stack wide">
      <h1>Otherseat cannot start</h1>
      <p role="alert">{message}</p>
      <p>Reload the page. If it fails again, try a current browser, outside a private window, with storage allowed.</p>
      <div>
        <button type="button" class="first" onClick={() => globalThis.location.reload()}>
          Reload
        </button>
      </div>
      <Notice />
    </main>
  )
}
