/** Look-up by a name from outside: "constructor" and its like are in every object, and nobody put them there. */

/** What was put there by that name; undefined where nothing was. */
export function ownOf<T>(record: Readonly<Record<string, T>> | undefined, name: string): T | undefined {
  return record !== undefined && Object.hasOwn(record, name) ? record[name] : undefined
}
