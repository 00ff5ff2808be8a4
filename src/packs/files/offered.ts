/** Files as a person hands them in, not trusted yet: of a zip, of a folder, chosen one by one. */

/** Why something cannot be taken: one sentence. */
export interface Refused {
  readonly wrong: string
  /** The end is missing; what is before it may be whole. */
  readonly isCut?: boolean
}

export interface OfferedFile {
  /** With the folders around it, as it was written: "marram/pack.yaml". */
  readonly path: string
  /** In bytes, as far as it is known before reading. */
  readonly size: number
  /** No more than `size` bytes; refused where there are more, or where they cannot be had. */
  bytes(): Promise<Uint8Array | Refused>
}

export function isRefused(it: object): it is Refused {
  return 'wrong' in it
}
