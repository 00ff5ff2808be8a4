/** One try in the debrief: what was said, the verdict, and (the run being over) what would have been right. */

import { capital } from '../../../kernel/capital.ts'
import { band } from '../../../kernel/figures/entered.ts'
import type { Value } from '../../../kernel/kinds/kind.ts'
import { showValue } from '../../../kernel/kinds/table.ts'
import type { Pack } from '../../../kernel/pack/checklist.ts'
import type { Part } from '../../../kernel/response/model.ts'
import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import type { DebriefTry } from '../../../kernel/run/debrief/debriefTry.ts'
import { rightValues } from '../../../kernel/run/debrief/rightValues.ts'
import { causeWords } from '../../../kernel/run/debrief/whyWrong.ts'
import { useApp } from '../../useApp.ts'
import { Verdict } from '../run/Verdict.tsx'
import { HearIt } from './HearIt.tsx'

export function OneTry({ one }: { readonly one: DebriefTry }) {
  const { seq, t, text, judgement, challengeRevision, revision, early, tooEarly } = one
  const pack = useApp(({ debriefed }) => debriefed?.pack)
  const wrong = judgement.parts.filter((part) => part.state === 'wrong')
  const missing = judgement.verdict === 'incomplete' ? judgement.parts.filter((part) => part.state === 'missing') : []
  return (
    <li>
      <p>
        {clockTime(t)} “{text}” <HearIt seq={seq} about={`“${text}”`} />
        <span class="soft small">
          {' '}
          {early && 'before the challenge had ended, '}revision{' '}
          {challengeRevision === revision ? revision : `${challengeRevision}, judged on ${revision}`}
        </span>
      </p>
      {tooEarly === undefined ? <Verdict judgement={judgement} /> : <p>Too early. First: {tooEarly}.</p>}
      {wrong.map((part) => (
        <p key={part.name}>{told(pack, part, judgement)}</p>
      ))}
      {missing.length > 0 && <p>Left out: {missing.map((part) => labelOf(pack, part)).join(', ')}.</p>}
      {judgement.causes?.map((cause) => (
        <p key={cause.detail}>{capital(causeWords(cause))}.</p>
      ))}
    </li>
  )
}

const labelOf = (pack: Pack | undefined, { name, kind }: Part) =>
  (kind === 'figure' && pack?.figures.declarations[name]?.label) || name

function told(
  pack: Pack | undefined,
  { name, kind, read, heard, expected, limits }: Part,
  { because }: Pick<DebriefTry['judgement'], 'because'>,
): string {
  const figure = kind === 'figure' ? pack?.figures.declarations[name] : undefined
  const show = (value: Value) => (figure ? showValue({ ...figure.spec, value }) : String(value))
  // Shown as a value, it would have the unit that it was not said in.
  const said = `said ${because === 'unit' ? `“${heard}”` : read === undefined ? (heard ?? 'nothing') : show(read)}`
  if (limits && figure) return `${figure.label}: ${said}; within limits: ${band(limits, figure.measure)}`
  if (expected === undefined) return said
  const right = figure ? rightValues(figure.spec, expected, figure.accept) : String(expected)
  return `${figure?.label ?? name}: ${said}, ${right} was right`
}
