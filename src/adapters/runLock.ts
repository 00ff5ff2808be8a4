/** What the Web Lock of a run's one writer is called: before the run's id. */
export const RUN_LOCK = 'otherseat.run.'
