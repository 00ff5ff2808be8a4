/** Stands in for blob-polyfill, which cannot load in a worker; every browser we run in has its own. */
export const Blob = globalThis.Blob
