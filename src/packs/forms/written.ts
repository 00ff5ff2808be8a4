/** Values as they are written into a pack's file. */

import { parseDocument } from 'yaml'

export type Written = string | number | boolean | readonly Written[] | { readonly [name: string]: Written }

/** In one line; lists and names with values in brackets, so that it can stand anywhere. */
export function writtenInLine(value: Written, quote: '"' | "'" | '' = ''): string {
  if (typeof value === 'string') return textWritten(value, quote)
  if (!(value instanceof Object)) return String(value)
  if (Array.isArray(value)) return `[${value.map((one) => writtenInLine(one)).join(', ')}]`
  const pairs = Object.entries(value).map(([name, inner]) => `${textWritten(name)}: ${writtenInLine(inner)}`)
  return `{${pairs.join(', ')}}`
}

/** In the quotes that stood there; without any only where nobody could take it for something else. */
export function textWritten(text: string, quote: '"' | "'" | '' = ''): string {
  if (quote === "'" && /^[ -~]*$/.test(text)) return `'${text.replaceAll("'", "''")}'`
  return quote === '' && isPlain(text) ? text : JSON.stringify(text)
}

function isPlain(text: string): boolean {
  if (!/^[A-Za-z]([\w ./()+-]*[\w.)])?$/.test(text) || /^(true|false|null|yes|no|on|off|y|n)$/i.test(text)) return false
  return parseDocument(text, { logLevel: 'silent' }).toJS() === text
}
