/** Which runs are shown: of a pack, of some days, ended or not. */

import { NO_FILTER, packsFlown, type RunFilter } from '../../../app/runs/runsView.ts'
import type { RunSummary } from '../../../kernel/run/core/summary.ts'

interface Props {
  readonly runs: readonly RunSummary[]
  readonly filter: RunFilter
  readonly onChange: (filter: RunFilter) => void
}

const ENDS: readonly (readonly [RunFilter['end'], string])[] = [
  ['all', 'Ended or not'],
  ['over', 'Ended'],
  ['notOver', 'Not ended'],
]

export function RunFilters({ runs, filter, onChange }: Props) {
  const set = (change: Partial<RunFilter>) => onChange({ ...filter, ...change })
  const isSet = Object.entries(filter).some(([name, value]) => NO_FILTER[name as keyof RunFilter] !== value)
  return (
    <fieldset class="row filters">
      <legend class="hidden-label">Show only</legend>
      <div class="field">
        <label for="runs-pack">Pack</label>
        <select id="runs-pack" value={filter.pack} onChange={({ currentTarget }) => set({ pack: currentTarget.value })}>
          <option value="">All packs</option>
          {packsFlown(runs).map(({ key, name }) => (
            <option key={key} value={key}>
              {name}
            </option>
          ))}
        </select>
      </div>
      <div class="field">
        <label for="runs-from">From</label>
        <input
          id="runs-from"
          type="date"
          value={filter.from}
          onChange={({ currentTarget }) => set({ from: currentTarget.value })}
        />
      </div>
      <div class="field">
        <label for="runs-to">To</label>
        <input
          id="runs-to"
          type="date"
          value={filter.to}
          onChange={({ currentTarget }) => set({ to: currentTarget.value })}
        />
      </div>
      <div class="field">
        <label for="runs-end">End</label>
        <select
          id="runs-end"
          value={filter.end}
          onChange={({ currentTarget }) => set({ end: currentTarget.value as RunFilter['end'] })}
        >
          {ENDS.map(([value, label]) => (
            <option key={value} value={value}>
              {label}
            </option>
          ))}
        </select>
      </div>
      {isSet && (
        <button type="button" onClick={() => onChange(NO_FILTER)}>
          Show all
        </button>
      )}
    </fieldset>
  )
}
