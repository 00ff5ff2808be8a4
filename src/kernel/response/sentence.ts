/** A response with its figures as the other pilot says it, as a card shows it, and without their values. */

import type { Figure, Figures, Phraseology } from '../kinds/kind.ts'
import { sayValue, showValue } from '../kinds/table.ts'
import type { Response } from './parse.ts'

/** The answer in words: the first of each alternative that has any, optional parts too; a figure without a value is left out. */
export function sayResponse(response: Response, figures: Figures, phraseology: Phraseology): string {
  return sentence(
    response,
    written(figures, (figure) => sayValue(figure, phraseology)),
  )
}

/** The line on the screen and on the printed card: "5.2 up", "V one 128 rotate 131 V two 138". */
export function showResponse(response: Response, figures: Figures): string {
  return sentence(response, written(figures, showValue))
}

/** What is to be said, with something else in the place of the values: "flap (takeoff flap)". */
export function outlineOf(response: Response, write: (figure: string) => string): string {
  return sentence(response, write)
}

const written = (figures: Figures, write: (figure: Figure) => string) => (name: string) => {
  const figure = Object.hasOwn(figures, name) ? figures[name] : undefined
  return figure ? write(figure) : ''
}

function sentence(node: Response, write: (figure: string) => string): string {
  switch (node.type) {
    case 'words':
      return node.words.map(capitalLetter).join(' ')
    case 'figure':
      return write(node.name)
    case 'optional':
      return sentence(node.part, write)
    case 'either':
      return node.options.map((option) => sentence(option, write)).find((text) => text !== '') ?? ''
    case 'sequence':
      return node.parts
        .map((part) => sentence(part, write))
        .filter((text) => text !== '')
        .join(' ')
  }
}

/** A letter by itself is one of the alphabet ("V one"), except the article. */
function capitalLetter(word: string): string {
  return /^[b-z]$/.test(word) ? word.toUpperCase() : word
}
