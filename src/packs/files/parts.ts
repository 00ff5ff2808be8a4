/** The files of a pack: those that it is made of, and its example sheets. */

/** Texts by path inside the pack: "pack.yaml", "inputs/final.yaml". Its YAML as it was, to the byte. */
export type PackTexts = Readonly<Record<string, string>>

const SHEET = /^inputs\/([^/]+)\.yaml$/

export function isSheet(path: string): boolean {
  return SHEET.test(path)
}

/** The pack itself, by file name. */
export function textsOf(files: PackTexts): PackTexts {
  return Object.fromEntries(Object.entries(files).filter(([path]) => !isSheet(path)))
}

/** Its example sheets: name -> text. */
export function sheetsOf(files: PackTexts): PackTexts {
  const sheets = Object.entries(files).flatMap(([path, text]) => {
    const name = SHEET.exec(path)?.[1]
    return name === undefined ? [] : [[name, text] as const]
  })
  return Object.fromEntries(sheets)
}

/** The same put together; `sheets`: name -> text. */
export function filesOf(texts: PackTexts, sheets: PackTexts): PackTexts {
  const named = Object.entries(sheets).map(([name, text]) => [sheetPath(name), text] as const)
  return { ...texts, ...Object.fromEntries(named) }
}

export function sheetPath(name: string): string {
  return `inputs/${name}.yaml`
}
