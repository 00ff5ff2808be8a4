/** How far another instructor agrees: in one sentence, per competency, and where the two are apart. */

import type { RaterComparison } from '../../../app/grading/comparisons.ts'
import { type Agreement, agreementWords, type Comparison, kappaWords } from '../../../kernel/training/agreement.ts'
import { partName } from '../../../kernel/training/grades.ts'

export function AgreementSection({
  comparison: { by, here, runs, everywhere },
}: {
  readonly comparison: RaterComparison
}) {
  const apart = here.pairs.filter(({ own, other }) => own.grade !== other.grade)
  const alone = [
    here.ownOnly > 0 && `${here.ownOnly} of yours`,
    here.otherOnly > 0 && `${here.otherOnly} of ${by}’s`,
  ].filter((part) => part !== false)
  return (
    <section class="stack" aria-label={`You and ${by}`}>
      <h2>You and {by}</h2>
      <p>
        <strong>In this run</strong> {agreementWords(here.all)}
        {alone.length > 0 && ` What only one of you graded does not count: ${alone.join(', ')}.`}
      </p>
      <AgreementTable comparison={here} caption="Agreement in this run" />
      {everywhere && (
        <>
          <p>
            <strong>In all {runs} runs that both of you graded</strong> {agreementWords(everywhere.all)}
          </p>
          <AgreementTable comparison={everywhere} caption={`Agreement in ${runs} runs`} />
        </>
      )}
      {apart.length > 0 && (
        <div>
          <h3>Where you are apart</h3>
          <ul class="values">
            {apart.map(({ own, other }) => (
              <li key={own.id}>
                {own.name} <span class="soft">in {partName(own)}</span>: you <strong>{own.grade}</strong>, {by}{' '}
                <strong>{other.grade}</strong>
              </li>
            ))}
          </ul>
        </div>
      )}
      <p class="soft small">
        Kappa is agreement beyond what chance would give: 0 is none, 1 is all of it. Its interval counts each pair as by
        itself, which grades of one run are not quite, and holds for many pairs only.
      </p>
    </section>
  )
}

function AgreementTable({ comparison, caption }: { readonly comparison: Comparison; readonly caption: string }) {
  const rows = [
    ...comparison.byCompetency.map(({ name, agreement }) => ({ name, agreement })),
    { name: 'All', agreement: comparison.all },
  ]
  if (comparison.all.n === 0) return null
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways on a narrow screen, also by keys
    <section class="timeline-table" aria-label={caption} tabIndex={0}>
      <table>
        <thead>
          <tr>
            <th scope="col">Competency</th>
            <th scope="col">Pairs</th>
            <th scope="col">Same</th>
            <th scope="col">Within 1</th>
            <th scope="col">Kappa</th>
            <th scope="col">linear</th>
            <th scope="col">by squares</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, agreement }) => (
            <AgreementRow key={name} name={name} agreement={agreement} />
          ))}
        </tbody>
      </table>
    </section>
  )
}

function AgreementRow({ name, agreement }: { readonly name: string; readonly agreement: Agreement }) {
  const { n, same, near, kappa, linear, quadratic } = agreement
  const percent = (share: number | undefined) => `${Math.round((share ?? 0) * 100)} %`
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>{n}</td>
      <td>{percent(same.value)}</td>
      <td>{percent(near.value)}</td>
      <td>{kappaWords(kappa)}</td>
      <td>{kappaWords(linear)}</td>
      <td>{kappaWords(quadratic)}</td>
    </tr>
  )
}
