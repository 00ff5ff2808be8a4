/**
 * Keeps the app for use without a network: a service worker holds every file of this edition. A later
 * edition waits until no tab has this one open, so nothing changes in the middle of a run.
 */

/** After the page has loaded, so that the two do not fetch the same files side by side. */
export function keepOffline(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return
  const register = () => {
    // Refused in some private windows; the app then needs the network the next time, and works all the same.
    navigator.serviceWorker.register(new URL('sw.js', document.baseURI)).catch(() => undefined)
  }
  if (document.readyState === 'complete') register()
  else window.addEventListener('load', register, { once: true })
}
