/** Numbers of a pasted table: which sign parts decimals and which thousands, as far as the table itself settles it. */

/** How commas and points are meant; `unclear` where both ways fit all of the table. */
export interface Signs {
  readonly decimal: '.' | ','
  readonly unclear: boolean
}

const CERTAIN_COMMA = /^[+-]?\d+,(\d{1,2}|\d{4,})$|^[+-]?0,\d+$|^[+-]?\d{1,3}(\.\d{3})+,\d+$|^[+-]?\d{4,},\d+$/
const CERTAIN_POINT =
  /^[+-]?\d+\.(\d{1,2}|\d{4,})$|^[+-]?0\.\d+$|^[+-]?\d{1,3}(,\d{3})+\.\d+$|^[+-]?\d{4,}\.\d+$|^[+-]?\d{1,3}(,\d{3}){2,}$/
const EITHER = /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/

/** Undefined where some cells have decimal commas and others decimal points. */
export function signsOf(cells: readonly string[]): Signs | undefined {
  const comma = cells.some((cell) => CERTAIN_COMMA.test(cell))
  const point = cells.some((cell) => CERTAIN_POINT.test(cell))
  if (comma && point) return undefined
  if (comma) return { decimal: ',', unclear: false }
  return { decimal: '.', unclear: !point && cells.some((cell) => EITHER.test(cell)) }
}

/** Without spaces, and signs that stand for the same. */
export const tidyNumber = (cell: string): string => cell.replace(/[\s'’]/gu, '').replace(/[−–]/g, '-')

/** Undefined for what is no number. */
export function numberOf(cell: string, { decimal }: Signs): number | undefined {
  const thousands = decimal === ',' ? '.' : ','
  const text = tidyNumber(cell)
  const whole = text.split(decimal)[0] ?? ''
  if (text.includes(thousands) && !/^[+-]?\d{1,3}([.,]\d{3})+$/.test(whole)) return undefined
  const plain = text.replaceAll(thousands, '').replace(decimal, '.')
  return /^[+-]?(\d{1,12}(\.\d{0,9})?|\.\d{1,9})$/.test(plain) ? Number(plain) : undefined
}
