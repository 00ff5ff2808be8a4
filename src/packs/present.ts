/** From what schemas read to what the kernel knows: nothing that is undefined, and nothing that would be dropped. */

/** Without the entries that are undefined: what is optional is left out. */
export type Present<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>
}

/** Optional entries, left out where they are undefined: what the compiler's exact optional types ask for. */
export function present<T extends object>(entries: T): Present<T> {
  return Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)) as Present<T>
}

/** Of all members of a union. */
type KeysOf<T> = T extends unknown ? keyof T : never

/**
 * The same for something of the kernel's: an entry that its type does not have does not compile. So a field that a schema
 * accepts, and that goes on in the rest of what was read, is one that the kernel knows.
 */
export function exactly<Built>() {
  return <Given extends object>(entries: Given & Partial<Record<Exclude<KeysOf<Given>, KeysOf<Built>>, never>>) =>
    present<Given>(entries)
}

/** The rest of what a schema reads, where all of it was taken one by one. */
export const nothingMore = exactly<Record<never, never>>()
