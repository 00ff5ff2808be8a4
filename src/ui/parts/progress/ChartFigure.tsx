/** One chart: what it says, the picture where the browser can draw it, and the same as a table. */

import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { Chart, ChartRow } from '../../../app/training/charts.ts'
import { useApp } from '../../useApp.ts'
import type { PlotField } from './plotField.ts'

type Make = (host: HTMLElement, chart: Chart) => PlotField

let loaded: Make | undefined

async function load(): Promise<Make | undefined> {
  // Asked before loading: only a browser with layout can draw.
  if (!('ResizeObserver' in globalThis)) return undefined
  loaded ??= (await import('./plotField.ts')).createPlotField
  return loaded
}

export function ChartFigure({ chart }: { readonly chart: Chart }) {
  const { id, title, words, rows } = chart
  const isDrawn = rows.some(({ isFew }) => !isFew)
  return (
    <section class="stack" aria-labelledby={`chart-${id}`}>
      <h2 id={`chart-${id}`}>{title}</h2>
      <p>{words}</p>
      {isDrawn && <Picture chart={chart} />}
      <details open={!isDrawn}>
        <summary>As a table</summary>
        <ChartTable chart={chart} />
      </details>
    </section>
  )
}

function Picture({ chart }: { readonly chart: Chart }) {
  const [make, setMake] = useState<Make | undefined>(() => loaded)
  const host = useRef<HTMLDivElement>(null)
  const theme = useApp((state) => state.settings.theme)
  useEffect(() => {
    // Without it, offline for example, the table says it all.
    load().then(
      (made) => setMake(() => made),
      () => undefined,
    )
  }, [])
  useLayoutEffect(() => {
    if (!host.current || !make) return undefined
    const field = make(host.current, chart)
    const dark = matchMedia('(prefers-color-scheme: dark)')
    const redraw = () => field.draw()
    dark.addEventListener('change', redraw)
    return () => {
      dark.removeEventListener('change', redraw)
      field.destroy()
    }
  }, [make, chart, theme])
  if (!make) return null
  return (
    <div ref={host} class="plot" role="img" aria-label={`${chart.title}. ${chart.words} The table has the figures.`} />
  )
}

function ChartTable({ chart: { title, of, counted, rows, unit } }: { readonly chart: Chart }) {
  return (
    <div class="scroll">
      <table>
        <caption class="hidden-label">{title}</caption>
        <thead>
          <tr>
            <th scope="col">{of}</th>
            <th scope="col">{counted}</th>
            <th scope="col">{unit === '%' ? 'Share' : 'Half within'}</th>
            <th scope="col">By chance from, to</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.label}>
              <th scope="row">{row.label}</th>
              <td>{row.n}</td>
              <td>{shown(row.value, unit)}</td>
              <td>{boundsOf(row, unit)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

const shown = (value: number | undefined, unit: Chart['unit']) =>
  value === undefined ? 'none' : `${value.toFixed(unit === '%' ? 0 : 1)} ${unit}`

function boundsOf({ n, isFew, low, high }: ChartRow, unit: Chart['unit']): string {
  if (n === 0) return ''
  if (low === undefined || high === undefined) return 'too few to tell'
  return `${shown(low, unit)}, ${shown(high, unit)}${isFew ? ': too few to tell' : ''}`
}
