/**
 * What a made-up transmission of the dial may hold, in the words of a controller: each element with its figure as a pack
 * writes it. ICAO words as in Doc 4444 chapter 12, FAA words as in JO 7110.65 (both from memory); places are invented.
 */

/** Words of both phraseologies where they differ. */
export type DialWords = string | { readonly icao: string; readonly faa: string }

/** What is drawn: one of some values, or a number in steps. */
type From = readonly (string | number)[] | { readonly min: number; readonly max: number; readonly step: number }

export interface DialElement {
  readonly id: string
  readonly label: string
  readonly alsoCalled?: readonly string[]
  /** `#` stands for the name of the figure. */
  readonly says: DialWords
  readonly readBack: string
  readonly figure: Readonly<Record<string, unknown>>
  readonly from: From
  /** In FAA words, where that is another figure. */
  readonly faa?: { readonly figure: Readonly<Record<string, unknown>>; readonly from: From }
}

const LIMITS = { copper: ['copper ridge'], willow: ['willow lake'], maple: ['maple harbor'], pine: ['pine valley'] }
const ROUTES = {
  LANTERN2: ['lantern two'],
  LANTERN4: ['lantern four'],
  ORCHARD1: ['orchard one'],
  ORCHARD3: ['orchard three'],
}

/** In the order in which they are said. */
export const DIAL_ELEMENTS: readonly DialElement[] = [
  {
    id: 'limit',
    label: 'clearance limit',
    alsoCalled: ['limit'],
    says: 'cleared to <#>',
    readBack: '[cleared] [to] <#>',
    figure: { label: 'clearance limit', kind: 'choice', options: LIMITS },
    from: Object.keys(LIMITS),
  },
  {
    id: 'departure',
    label: 'departure',
    alsoCalled: ['departure route'],
    says: '<#> departure',
    readBack: '[via] [the] <#> [departure]',
    figure: { label: 'departure', kind: 'choice', options: ROUTES },
    from: Object.keys(ROUTES),
  },
  {
    id: 'runway',
    label: 'runway',
    says: 'runway <#>',
    readBack: '[runway] <#>',
    figure: { label: 'runway', kind: 'runway' },
    from: ['06', '15', '24', '33'],
  },
  {
    id: 'heading',
    label: 'heading',
    says: 'fly heading <#>',
    readBack: '[fly | flying] [heading] <#> [degrees]',
    figure: { label: 'heading', kind: 'heading' },
    from: { min: 10, max: 360, step: 10 },
  },
  {
    id: 'level',
    label: 'level',
    alsoCalled: ['altitude'],
    says: { icao: 'climb to altitude <#> feet', faa: 'climb and maintain <#>' },
    readBack: '[climb | climbing] [and] [maintain] [to] [altitude] <#> [feet]',
    figure: { label: 'level', kind: 'altitude' },
    from: { min: 3000, max: 9000, step: 1000 },
  },
  {
    id: 'speed',
    label: 'speed',
    says: 'speed <#> knots',
    readBack: '[maintain | reduce] [speed] [to] <#> [knots]',
    figure: { label: 'speed', kind: 'speed', min: 100, max: 400 },
    from: { min: 160, max: 250, step: 10 },
  },
  {
    id: 'altimeter',
    label: 'altimeter setting',
    alsoCalled: ['altimeter', 'q n h'],
    says: { icao: 'Q N H <#>', faa: 'altimeter <#>' },
    readBack: '[q n h | altimeter] <#>',
    figure: { label: 'altimeter setting', kind: 'altimeter', unit: 'hPa' },
    from: { min: 990, max: 1030, step: 1 },
    faa: {
      figure: { label: 'altimeter setting', kind: 'altimeter', unit: 'inHg' },
      from: [29.68, 29.75, 29.83, 29.91, 29.96, 30.02, 30.07, 30.14, 30.23],
    },
  },
  {
    id: 'squawk',
    label: 'squawk',
    alsoCalled: ['code', 'transponder'],
    says: 'squawk <#>',
    readBack: '[squawk | squawking] <#>',
    figure: { label: 'transponder', kind: 'digits', length: 4, highest: 7 },
    from: ['4271', '2613', '0457', '6304', '3125', '5740', '1662', '7036', '2345', '5216'],
  },
  {
    id: 'frequency',
    label: 'frequency',
    says: 'departure frequency <#>',
    readBack: '[departure frequency | frequency] <#>',
    figure: { label: 'frequency', kind: 'frequency' },
    from: [118.3, 118.7, 119.35, 120.475, 121.1, 124.675, 127.9],
  },
]
