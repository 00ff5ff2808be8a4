/** What a room is told of a breath of a briefing: which topics it ticked, which value was wrong, and for which right one. */

import { transcriptOf } from '../../kernel/numbers/tokens.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { figuresFor } from '../../kernel/pack/place.ts'
import { explained } from '../../kernel/response/explain.ts'
import type { Part, Verdict } from '../../kernel/response/model.ts'
import { topicsRead } from '../../kernel/response/topics.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { verdictOf } from '../../kernel/run/core/forRoom.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { step } from '../../kernel/run/core/step.ts'
import { openTopics, topicsOf } from '../../kernel/run/talk/briefing.ts'
import { briefingsOf } from '../../kernel/run/talk/talk.ts'
import type { Revision } from '../run/revision.ts'
import type { DemonstrationView } from './demonstrated.ts'
import { readWords, shownValue } from './readWords.ts'
import { valuesInForce } from './valuesInForce.ts'

interface TopicMoment {
  readonly before: RunState
  readonly event: RunEvent<'briefed'> | RunEvent<'briefingEnded'>
}
type Told = Pick<DemonstrationView, 'challenge' | 'read' | 'missing' | 'judgement' | 'verdict' | 'why' | 'inForce'>

export function topicsTold(pack: Pack, { before, event }: TopicMoment, revisions: readonly Revision[]): Told {
  const after = step(pack, before, event).state
  const briefing = briefingsOf(pack).find(({ id }) => id === event.briefing)
  const topics = briefing ? topicsOf(briefing, before) : []
  const figures = topics.flatMap(({ say }) => say.flatMap((response) => response.figures))
  const heard = transcriptOf(event.evidence.text)
  const mentions = topicsRead(topics, figuresFor(pack, before.values, figures), heard)
  // A value may be what names its topic.
  const parts = mentions.flatMap(({ name, values }) => [...values, name])
  const compared = mentions.flatMap(({ name, values }) => (values.length > 0 ? values : [name]))
  const verdict = verdictOf(before, after, event)
  const isEnd = event.type === 'briefingEnded' || event.ends === true
  const labelOf = (part: Part) => {
    const of = mentions.find(({ name, values }) => part === name || values.includes(part))?.topic
    const topic = topics.find(({ id }) => id === of)
    const isOneOfMany = new Set(topic?.say.flatMap(({ figures }) => figures)).size > 1
    const figure = isOneOfMany && part.kind === 'figure' ? pack.figures.declarations[part.name]?.label : undefined
    return figure ?? topic?.label ?? part.name
  }
  const open = briefing && verdict === 'incomplete' ? openTopics(briefing, after) : []
  return {
    challenge: briefing?.name ?? '',
    read: readWords(event.evidence.text, parts, (part) =>
      part
        ? { state: compared.includes(part) ? part.state : 'beside', label: labelOf(part), ...valueRead(pack, part) }
        : { state: 'beside', label: parts.length === 0 ? 'the end of the briefing' : 'let through' },
    ),
    missing: open.map(({ label }) => label),
    judgement: { verdict, parts: compared, ...(verdict === 'negative' && { because: 'value' }) },
    ...verdictWords(verdict, { isEnd, parts }),
    why:
      compared.length === 0
        ? ''
        : explained({ verdict, parts: compared.map((part) => named(pack, part, labelOf)) }, transcriptOf('')),
    inForce: valuesInForce(pack, before, { parts, expected: {}, revision: before.revision }, revisions),
  }
}

function verdictWords(verdict: Verdict, { isEnd, parts }: { isEnd: boolean; parts: readonly Part[] }) {
  if (isEnd && verdict !== 'negative') return { verdict: verdict === 'correct' ? 'Complete' : 'Not complete' }
  const hasValues = parts.some(({ kind }) => kind === 'figure')
  return verdict === 'correct' && !hasValues ? { verdict: 'Briefed' } : {}
}

const valueRead = (pack: Pack, { kind, name, read }: Part): { read?: string } =>
  kind === 'figure' && read !== undefined ? { read: shownValue(pack, name, read) } : {}

/** Names and values as people write them. */
function named(pack: Pack, part: Part, labelOf: (part: Part) => string): Part {
  const { kind, name, expected } = part
  const isCompared = kind === 'figure' && expected !== undefined
  return {
    ...part,
    ...valueRead(pack, part),
    ...(isCompared && { expected: shownValue(pack, name, expected) }),
    name: labelOf(part),
  }
}
