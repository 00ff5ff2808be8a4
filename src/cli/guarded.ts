/**
 * The outermost handler: whatever goes wrong in a command is one line for who called it. What people hand in is refused
 * where it is read; what comes here is what the system refuses, or a fault of the program.
 */

import { onOneLine } from '../kernel/quoted.ts'
import { systemWords } from './files.ts'
import type { ExitStatus, Io } from './io.ts'

/** Where it is set, a fault shows where it was as well. */
export const SHOWS_STACK = 'OTHERSEAT_STACK'

export async function guarded(
  io: Pick<Io, 'errors'>,
  showsStack: boolean,
  work: () => Promise<ExitStatus>,
): Promise<ExitStatus> {
  try {
    return await work()
  } catch (error) {
    io.errors.write(`${faultLine(error)}\n`)
    if (showsStack && error instanceof Error) io.errors.write(`${error.stack}\n`)
    return 1
  }
}

export function faultLine(error: unknown): string {
  const { message = String(error), code, path, syscall } = (error ?? {}) as Partial<NodeJS.ErrnoException>
  // What the system refused, it says so with what it was asked for.
  if (code !== undefined && syscall !== undefined) {
    const what = path ?? (syscall === 'write' ? 'the output' : syscall)
    return onOneLine(`${what}: ${systemWords(code) ?? message}`)
  }
  return onOneLine(`a fault of this program: ${message}; ${SHOWS_STACK}=1 shows where`)
}
