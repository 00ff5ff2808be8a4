/** Beside the text of a pack, for where the cursor stands: the list as the pilot sees it, or the figure with its working. */

import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import { atCursor, exampleOf, itemBeside, listBeside } from '../../../../app/view/packBeside.ts'
import type { Pack } from '../../../../kernel/pack/checklist.ts'
import { FigureBeside } from './FigureBeside.tsx'
import { ItemBeside } from './ItemBeside.tsx'
import { ListBeside } from './ListBeside.tsx'

interface BesideProps {
  /** As it last was without mistakes. */
  readonly pack: Pack | undefined
  readonly isOld: boolean
  readonly files: Readonly<Record<string, string>>
  readonly path: string
  readonly text: string
  readonly offset: number
}

/** While keys are pressed one after another the view stays what it is. */
const REST_MS = 120

export function Beside({ pack, isOld, files, path, text, offset }: BesideProps) {
  const here = useRested({ path, text, offset })
  const at = useMemo(() => atCursor(here.path, here.text, here.offset), [here])
  const example = useMemo(() => pack && exampleOf(pack, files), [pack, files])
  if (!pack || !example) {
    return <p class="soft">The lists stand here as the pilot sees them, once the pack is without mistakes.</p>
  }
  const list = listBeside(pack, at.list)
  const item = itemBeside(pack, at.list, at.item)
  const id = item?.id
  return (
    <>
      {isOld && <p class="soft small">As it was before the mistake.</p>}
      {at.figure !== undefined && <FigureBeside pack={pack} example={example} name={at.figure} />}
      {item && <ItemBeside key={id} pack={pack} item={item} example={example} />}
      {list && <ListBeside list={list} open={id} />}
      {!list && at.figure === undefined && (
        <p class="soft">Put the cursor in a list or a figure: what the pilot sees of it stands here.</p>
      )}
    </>
  )
}

function useRested<T extends object>(now: T): T {
  const [rested, setRested] = useState(now)
  const values = Object.values(now)
  useEffect(() => {
    const timer = setTimeout(() => setRested(now), REST_MS)
    return () => clearTimeout(timer)
  }, values)
  return rested
}

/** The pack as it last was without mistakes, while it is being written. */
export function useLastSound(pack: Pack | undefined): { readonly pack: Pack | undefined; readonly isOld: boolean } {
  const last = useRef(pack)
  if (pack) last.current = pack
  return { pack: last.current, isOld: pack === undefined }
}
