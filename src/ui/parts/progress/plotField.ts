/** A chart drawn by uPlot: a point for each row, what bounds it, and the goal. Colours are the page's; shapes tell as much. */

import uPlot from 'uplot'
import 'uplot/dist/uPlot.min.css'
import type { Chart } from '../../../app/training/charts.ts'

export interface PlotField {
  /** Draws it anew, as when colours or widths have changed. */
  draw(): void
  destroy(): void
}

const HEIGHT = 230
/** Left of the first and right of the last point, in points. */
const ROOM = 0.6

export function createPlotField(host: HTMLElement, chart: Chart): PlotField {
  let plot: uPlot | undefined

  function draw(): void {
    plot?.destroy()
    plot = new uPlot(optionsOf(host, chart), dataOf(chart), host)
  }
  draw()
  const sized = new ResizeObserver(() => {
    if (plot && host.clientWidth > 0 && plot.width !== host.clientWidth) {
      plot.setSize({ width: host.clientWidth, height: HEIGHT })
    }
  })
  sized.observe(host)
  return {
    draw,
    destroy() {
      sized.disconnect()
      plot?.destroy()
    },
  }
}

/** Few trials make no point: they stand in the table. */
function dataOf({ rows }: Chart): uPlot.AlignedData {
  const of = (key: 'value' | 'low' | 'high') => rows.map((row) => (row.isFew ? null : (row[key] ?? null)))
  return [rows.map((_, index) => index), of('value'), of('low'), of('high')]
}

function optionsOf(host: HTMLElement, { rows, unit, shape, goal }: Chart): uPlot.Options {
  const style = getComputedStyle(host)
  const ink = style.color
  const colour = (name: string) => resolved(host, `var(${name})`)
  const [accent, line, soft] = [colour('--accent'), colour('--line'), colour('--soft')]
  const font = `13px ${style.fontFamily}`
  const most = Math.max(1, ...rows.map(({ isFew, high, value }) => (isFew ? 0 : (high ?? value ?? 0))))
  const isLine = shape === 'line'
  const axis = { stroke: ink, font, grid: { stroke: line, width: 1 }, ticks: { stroke: line, width: 1 } }
  return {
    width: host.clientWidth,
    height: HEIGHT,
    legend: { show: false },
    cursor: { show: false },
    scales: {
      x: { time: false, range: [-ROOM, rows.length - 1 + ROOM] },
      y: { range: [0, unit === '%' ? 100 : most * 1.1] },
    },
    axes: [
      {
        ...axis,
        grid: { show: false },
        // Two lines of a label, with the ends of their letters.
        size: 56,
        splits: () => rows.map((_, index) => index),
        values: (_, splits) => splits.map((index) => rows[index]?.short ?? ''),
      },
      { ...axis, size: 56, values: (_, splits) => splits.map((one) => `${one} ${unit}`) },
    ],
    series: [
      {},
      {
        stroke: accent,
        width: isLine ? 2.5 : 0,
        points: { show: true, size: 11, fill: accent, stroke: accent },
        spanGaps: false,
      },
      { stroke: soft, width: 0, points: { show: false } },
      { stroke: soft, width: 0, points: { show: false } },
    ],
    hooks: {
      drawSeries: [
        (plot, index) => {
          if (index === 1) drawBounds(plot, ink)
        },
      ],
      drawAxes: [(plot) => goal !== undefined && drawGoal(plot, goal, ink)],
    },
  }
}

/** From what to what it may be by chance: a bar with ends, as in any paper. */
function drawBounds(plot: uPlot, colour: string): void {
  const { ctx, data } = plot
  const [xs, , lows, highs] = data
  const ratio = devicePixelRatio
  ctx.save()
  ctx.strokeStyle = colour
  ctx.lineWidth = 1.5 * ratio
  for (const [index, at] of xs.entries()) {
    const [low, high] = [lows?.[index], highs?.[index]]
    if (low == null || high == null) continue
    const x = plot.valToPos(at, 'x', true)
    const [bottom, top] = [plot.valToPos(low, 'y', true), plot.valToPos(high, 'y', true)]
    const end = 5 * ratio
    ctx.beginPath()
    ctx.moveTo(x, bottom)
    ctx.lineTo(x, top)
    for (const y of [bottom, top]) {
      ctx.moveTo(x - end, y)
      ctx.lineTo(x + end, y)
    }
    ctx.stroke()
  }
  ctx.restore()
}

function drawGoal(plot: uPlot, goal: number, colour: string): void {
  const { ctx, bbox } = plot
  const y = plot.valToPos(goal, 'y', true)
  ctx.save()
  ctx.strokeStyle = colour
  ctx.setLineDash([6 * devicePixelRatio, 5 * devicePixelRatio])
  ctx.beginPath()
  ctx.moveTo(bbox.left, y)
  ctx.lineTo(bbox.left + bbox.width, y)
  ctx.stroke()
  ctx.restore()
}

/** A canvas knows no variables, nor what is light and what is dark. */
function resolved(host: HTMLElement, colour: string): string {
  const probe = document.createElement('span')
  probe.style.color = colour
  host.append(probe)
  const found = getComputedStyle(probe).color
  probe.remove()
  return found
}
