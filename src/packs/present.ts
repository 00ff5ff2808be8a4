/** Optional entries, left out where they are undefined: what the compiler's exact optional types ask for. */

/** Without the entries that are undefined: what is optional is left out. */
type Present<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>
}
export function present<T extends object>(entries: T): Present<T> {
  return Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)) as Present<T>
}
