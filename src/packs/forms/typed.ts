/** Numbers as people and spreadsheets write them. */

const PLAIN = /^[-+]?(\d+\.?\d*|\.\d+)$/
const IN_THOUSANDS = /^[-+]?\d{1,3}(,\d{3})+(\.\d*)?$/

/** "1960", "-3.5", "1,960"; undefined for anything else, "1,96" and "5e3" among it. */
export function numberTyped(typed: string): number | undefined {
  const text = typed.trim().replace('\u2212', '-')
  if (IN_THOUSANDS.test(text)) return Number(text.replaceAll(',', ''))
  return PLAIN.test(text) ? Number(text) : undefined
}
