/**
 * What every answer of a server of Otherseat says to the browser: ask no other origin, run no foreign script, be in nobody's
 * frame. A page on its own server has to be sent with the same (`README.md`); `serve.ts` sends them.
 */

/** Content Security Policy (W3C), also of the workers, which a policy in the page alone would not bind. */
const DIRECTIVES = [
  "default-src 'self'",
  "script-src 'self' 'wasm-unsafe-eval'",
  // A recording to be read, and the sound made of it, are blobs of the page's own.
  "connect-src 'self' blob:",
  "img-src 'self' data: blob:",
  // The silence that makes a browser send a headset's keys.
  "media-src 'self' blob:",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
]

/** In the page itself, for a server that sends no headers. (Frames can only be forbidden by a header.) */
export const PAGE_POLICY = DIRECTIVES.join('; ')

export const HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': [...DIRECTIVES, "frame-ancestors 'none'"].join('; '),
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(), display-capture=(), geolocation=(), microphone=(self), payment=(), usb=()',
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
}

/** Files named by their content never change; of all others the browser asks whether they have. */
export const IMMUTABLE = 'public, max-age=31536000, immutable'
export const cacheControl = (path: string): string => (path.startsWith('/assets/') ? IMMUTABLE : 'no-cache')
