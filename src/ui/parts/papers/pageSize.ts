/** The size of a printed page, which a style sheet alone can give: one of the document's, for the policy allows no other. */

export const PAGE_SIZES = {
  A4: 'A4',
  A5: 'A5',
  Letter: 'letter',
  'Knee-board': '140mm 216mm',
} as const

export type PageSize = keyof typeof PAGE_SIZES

/**
 * Until what it returns is called. `foot` stands on every page. A browser without such sheets asks for the size itself.
 */
export function setPage(size: PageSize, marginMm: number, foot = ''): () => void {
  if (!('adoptedStyleSheets' in document)) return () => {}
  const sheet = new CSSStyleSheet()
  const footer =
    foot === '' ? '' : ` @bottom-center { content: ${JSON.stringify(foot)}; font: 8pt system-ui, sans-serif; }`
  sheet.replaceSync(`@page { size: ${PAGE_SIZES[size]}; margin: ${marginMm}mm;${footer} }`)
  document.adoptedStyleSheets.push(sheet)
  return () => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== sheet)
  }
}
