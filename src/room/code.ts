/** The code of a room: six signs, none of which is taken for another when read out or written down. */

export const CODE_SIGNS = 'ACDEFGHJKMNPQRTUVWXY34679'
export const CODE_LENGTH = 6

/** As somebody typed it -> as it is; undefined where it cannot be one. */
export function codeIn(typed: string): string | undefined {
  const code = typed.toUpperCase().replace(/[\s-]/g, '')
  return code.length === CODE_LENGTH && [...code].every((sign) => CODE_SIGNS.includes(sign)) ? code : undefined
}

/** "ACD EFG". */
export const shownCode = (code: string): string => `${code.slice(0, 3)} ${code.slice(3)}`
