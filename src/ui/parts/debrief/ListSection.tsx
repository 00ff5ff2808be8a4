/** One list in the debrief: its items with every try, in the order in which they were said. */

import { passedWords } from '../../../kernel/response/commands.ts'
import type { DebriefItem, DebriefList } from '../../../kernel/run/debrief/debriefList.ts'
import { Mark, type MarkName } from '../shell/Mark.tsx'
import { Tries } from './Tries.tsx'

export function ListSection({ list }: { readonly list: DebriefList }) {
  const { name, complete, revoked, onPreliminary, items } = list
  const state = complete ? 'complete' : revoked ? 'no longer complete' : 'not complete'
  return (
    <section aria-label={`List ${name}`}>
      <h3 class="cap">{name}</h3>
      <p class="soft">
        {state}
        {complete && onPreliminary && ', on preliminary figures'}
      </p>
      <ol class="values">
        {items.map((item) => (
          <ItemDebrief key={item.id} item={item} />
        ))}
      </ol>
    </section>
  )
}

const MARKS: Readonly<Record<DebriefItem['status'], MarkName>> = {
  open: 'ring',
  done: 'full',
  passed: 'dash',
  leftOpen: 'half',
  reopened: 'back',
}
const STATES: Readonly<Record<DebriefItem['status'], string>> = {
  open: 'open',
  done: 'answered',
  passed: 'passed',
  leftOpen: 'left open',
  reopened: 'open again',
}

function ItemDebrief({ item }: { readonly item: DebriefItem }) {
  const { challenge, status, by, reason, given, readings, tries, misses, sayAgains, reopened } = item
  const notes = [
    status === 'passed' ? passedWords(reason) : STATES[status],
    by === 'key' ? 'by key, not read back' : by === 'typed' ? 'typed' : '',
    misses > 0 ? `${misses} missed` : '',
    sayAgains > 0 ? `${sayAgains} say again` : '',
    reopened > 0 ? `opened again ${reopened === 1 ? 'once' : `${reopened} times`}` : '',
    given ? 'value given' : '',
    ...readings,
  ].filter((note) => note)
  return (
    <li>
      <div class="head-line">
        <span>
          <Mark name={MARKS[status]} /> <strong class="cap">{challenge}</strong>
        </span>
        <span class="soft small">{notes.join(', ')}</span>
      </div>
      <Tries tries={tries} open={misses > 0} about={`to ${challenge}`} />
    </li>
  )
}
