/** Look-up by a name from outside: "constructor" and its like are in every object, and nobody put them there. */

const INHERITED: ReadonlySet<string> = new Set(Object.getOwnPropertyNames(Object.prototype))

/** What was put there by that name; undefined where nothing was. */
export function ownOf<T>(record: Readonly<Record<string, T>> | undefined, name: string): T | undefined {
  // Whose a property is takes long to ask, and only these names can be another's.
  return record === undefined || (INHERITED.has(name) && !Object.hasOwn(record, name)) ? undefined : record[name]
}
