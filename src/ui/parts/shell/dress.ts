/** Another window of the page's own: its style and theme. */
export function dress(window: Window, title: string): void {
  const { document: there } = window
  for (const sheet of document.querySelectorAll('link[rel="stylesheet"], style')) {
    there.head.append(sheet.cloneNode(true))
  }
  there.documentElement.lang = 'en'
  there.documentElement.dataset.theme = document.documentElement.dataset.theme ?? 'system'
  there.title = title
}
