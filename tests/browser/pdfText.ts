/** What a PDF of Chromium's says, page by page: sizes in points, and the text without its layout. */

import { inflateSync } from 'node:zlib'

export interface PdfPage {
  readonly width: number
  readonly height: number
  /** Without spaces: printers set words apart by place. */
  readonly text: string
}

export function pdfPages(pdf: Uint8Array): PdfPage[] {
  const whole = Buffer.from(pdf).toString('latin1')
  const objects = new Map([...whole.matchAll(/(\d+) 0 obj\b([\s\S]*?)endobj/g)].map(([, id, body = '']) => [id, body]))
  const named = (body: string, name: string) =>
    objects.get(new RegExp(`/${name} (\\d+) 0 R`).exec(body)?.[1] ?? '') ?? ''
  return [...objects.values()]
    .filter((body) => /\/Type \/Page\b/.test(body))
    .map((body) => {
      const fonts = new Map(
        [...body.matchAll(/\/(F\d+) (\d+) 0 R/g)].map(([, name, id]) => [
          name,
          lettersOf(streamOf(named(objects.get(id ?? '') ?? '', 'ToUnicode'))),
        ]),
      )
      const [, width, height] = /\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/.exec(body) ?? []
      return { width: Number(width), height: Number(height), text: textIn(streamOf(named(body, 'Contents')), fonts) }
    })
}

function streamOf(body: string): string {
  const found = /stream\r?\n([\s\S]*?)\r?\nendstream/.exec(body)?.[1]
  if (found === undefined) return ''
  const bytes = Buffer.from(found, 'latin1')
  return (body.includes('/FlateDecode') ? inflateSync(bytes) : bytes).toString('latin1')
}

/** Code of a glyph -> its letters. */
function lettersOf(table: string): ReadonlyMap<number, string> {
  const letters = new Map<number, string>()
  const written = (hex: string) =>
    String.fromCharCode(...(hex.match(/.{4}/g) ?? []).map((unit) => Number.parseInt(unit, 16)))
  for (const [, part = ''] of table.matchAll(/beginbfchar([\s\S]*?)endbfchar/g)) {
    for (const [, code = '', hex = ''] of part.matchAll(/<(\w+)> <(\w+)>/g))
      letters.set(Number.parseInt(code, 16), written(hex))
  }
  for (const [, part = ''] of table.matchAll(/beginbfrange([\s\S]*?)endbfrange/g)) {
    for (const [, from = '', to = '', hex = ''] of part.matchAll(/<(\w+)> <(\w+)> <(\w+)>/g)) {
      const [first, last, letter] = [from, to, hex].map((one) => Number.parseInt(one, 16)) as [number, number, number]
      for (let code = first; code <= last; code++) letters.set(code, String.fromCharCode(letter + code - first))
    }
  }
  return letters
}

function textIn(content: string, fonts: ReadonlyMap<string | undefined, ReadonlyMap<number, string>>): string {
  let font: ReadonlyMap<number, string> | undefined
  let text = ''
  for (const [, name, hex] of content.matchAll(/\/(F\d+) [\d.]+ Tf|<([0-9A-Fa-f]+)>/g)) {
    if (name !== undefined) font = fonts.get(name)
    for (const unit of hex?.match(/.{4}/g) ?? []) text += font?.get(Number.parseInt(unit, 16)) ?? ''
  }
  return text.normalize('NFKC').replace(/\s/g, '')
}
