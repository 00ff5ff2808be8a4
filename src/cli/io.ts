/** What a command may touch: streams and the exit status. Tests hand in their own. */

import type { Readable, Writable } from 'node:stream'

export interface Io {
  readonly input: Readable
  readonly output: Writable
  readonly errors: Writable
}

/** 0 done, 1 an error in what was handed in, 2 wrong usage. */
export type ExitStatus = 0 | 1 | 2

/** Arguments behind the command's name. */
export type CommandRun = (args: readonly string[], io: Io) => Promise<ExitStatus>

/** Wrong usage: one line, and what would be right. */
export function usage(io: Io, line: string): ExitStatus {
  io.errors.write(`usage: ${line}\n`)
  return 2
}
