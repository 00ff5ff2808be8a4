/** A pack's lists and tables as cards to be printed. */

import { useEffect, useMemo, useState } from 'preact/hooks'
import { cardsOf } from '../../../../app/view/packCards.ts'
import type { Pack } from '../../../../kernel/pack/checklist.ts'
import { useActions } from '../../../useApp.ts'
import { PAGE_SIZES, type PageSize, setPage } from '../../papers/pageSize.ts'
import { Choices } from '../../settings/Choices.tsx'
import { Sheet } from './Sheet.tsx'

const SIZES = (Object.keys(PAGE_SIZES) as PageSize[]).map((value) => ({ value, label: value }))
const COLUMNS = [
  { value: '1', label: 'One' },
  { value: '2', label: 'Two' },
] as const
const TYPES = [
  { value: 'usual', label: 'Usual' },
  { value: 'large', label: 'Large' },
] as const
/** Of what is held in the hand or strapped to the leg the margin is small. */
const MARGIN_MM: Readonly<Record<PageSize, number>> = { A4: 14, A5: 9, Letter: 14, 'Knee-board': 8 }

export function Cards({ pack }: { readonly pack: Pack }) {
  const actions = useActions()
  const [size, setSize] = useState<PageSize>('A5')
  const [columns, setColumns] = useState<(typeof COLUMNS)[number]['value']>('1')
  const [type, setType] = useState<(typeof TYPES)[number]['value']>('usual')
  const { lists, tables } = useMemo(() => cardsOf(pack), [pack])
  useEffect(() => setPage(size, MARGIN_MM[size]), [size])
  const of = `${pack.name}, version ${pack.version}, printed ${new Date().toLocaleDateString('en-GB', { dateStyle: 'medium' })}`
  return (
    <main class="page cards-screen stack">
      <div class="no-print stack">
        <div class="row">
          <h1 tabIndex={-1}>Cards of {pack.name}</h1>
          <button type="button" onClick={() => actions.showCards(undefined)}>
            All packs
          </button>
          <button type="button" class="first" onClick={() => globalThis.print()}>
            Print
          </button>
        </div>
        <div class="row">
          <Choices legend="Paper" value={size} options={SIZES} choose={setSize} />
          <Choices legend="Columns" value={columns} options={COLUMNS} choose={setColumns} />
          <Choices legend="Type" value={type} options={TYPES} choose={setType} />
        </div>
      </div>
      <div
        class={`sheets columns-${columns} type-${type} paper-${size === 'A5' || size === 'Knee-board' ? 'small' : 'full'}`}
      >
        {lists.map((list) => (
          <Sheet key={list.name} title={list.name} of={of} list={list} />
        ))}
        {tables.map((table) => (
          <Sheet key={table.caption} title={table.caption} of={of} table={table} />
        ))}
      </div>
    </main>
  )
}
