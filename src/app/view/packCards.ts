/** Lists and tables of a pack as they are printed on cards, without a departure's values. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Paper } from '../../kernel/pack/paper.ts'
import { type PrintedTable, print } from '../../kernel/papers/print.ts'
import { type BesideList, listBeside } from './packBeside.ts'

export interface PackCards {
  readonly lists: readonly BesideList[]
  readonly tables: readonly PrintedTable[]
}

export function cardsOf(pack: Pack): PackCards {
  const ids = pack.phases.flatMap(({ activities }) =>
    activities.filter(({ type }) => type === 'list').map(({ id }) => id),
  )
  const paper: Paper = {
    ...{ id: 'tables', title: 'tables', lines: [], lists: [], notes: [] },
    tables: Object.keys(pack.figures.basis?.tables ?? {}),
  }
  const sheet = { status: 'preliminary', values: {}, loads: {} } as const
  return {
    lists: ids.flatMap((id) => listBeside(pack, id) ?? []),
    tables: print(pack, paper, { sheet, situation: {}, hasStations: false }).tables,
  }
}
