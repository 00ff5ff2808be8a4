/**
 * Revisions as the pilot counts them: one each time that figures are accepted. In the log what a station gives is a revision
 * as well, with a number of its own; nobody accepted it, and no number of it is shown or said.
 */

import type { RunState } from './state.ts'

/** `revision`: of the log; 0 before the first. */
export const acceptedAs = ({ history }: Pick<RunState, 'history'>, revision: number): number =>
  history.filter((one) => one.revision <= revision && !one.isGiven).length
