/** Where and when a figure was measured. */

import { execFileSync } from 'node:child_process'
import { cpus, loadavg } from 'node:os'

/** When, of what and on what something was measured. */
export interface Stamp {
  readonly date: string
  /** With a `+` where files had been changed since. */
  readonly commit: string
  readonly machine: string
}

export function stampNow(): Stamp {
  const git = (...args: string[]) => execFileSync('git', args, { encoding: 'utf8' }).trim()
  const isChanged = git('status', '--porcelain', '--untracked-files=no') !== ''
  const [cpu] = cpus()
  return {
    date: new Date().toISOString().slice(0, 10),
    commit: `${git('rev-parse', '--short=10', 'HEAD')}${isChanged ? '+' : ''}`,
    machine: `${cpus().length} cores (${cpu?.model.trim() || process.arch}), Node ${process.versions.node}`,
  }
}

export const stamped = ({ date, commit, machine }: Stamp): string => `on ${date} at ${commit}, on ${machine}`

/** Whether other work has had this machine, so that no time measured on it would mean anything. */
export const isBusy = (): boolean => loadavg().some((load) => load > cpus().length)
