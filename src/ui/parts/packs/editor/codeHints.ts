/** Completion and help of the editor, from what is known of the place in the pack. */

import type { Completion, CompletionSource } from '@codemirror/autocomplete'
import type { Extension } from '@codemirror/state'
import { hoverTooltip } from '@codemirror/view'
import { type Hint, helpInPack, hintsInPack } from '../../../../app/view/packHints.ts'

export interface PackAround {
  readonly file: string
  /** All files of the pack as they are kept; the one that is written may be older here. */
  files(): Readonly<Record<string, string>>
}

export function completion({ file, files }: PackAround): CompletionSource {
  return ({ state, pos, explicit }) => {
    const text = state.doc.toString()
    // Only at a word that was begun, where nobody asked.
    if (!explicit && !/[\w<]/.test(text.charAt(pos - 1))) return null
    const found = hintsInPack({ ...files(), [file]: text }, file, pos)
    if (!found) return null
    // What stands of the word behind the cursor goes with it.
    const rest = /^[\w-]*/.exec(text.slice(pos))?.[0].length ?? 0
    return { from: found.from, to: pos + rest, options: found.hints.map(completionOf), validFor: /^[\w-]*$/ }
  }
}

function completionOf({ text, role, about, isNeeded }: Hint): Completion {
  return {
    label: text,
    detail: isNeeded ? 'needed' : '',
    ...(about !== '' && { info: about }),
    boost: isNeeded ? 1 : 0,
    apply: (view, _, from, to) => {
      const after = view.state.sliceDoc(to, to + 2)
      const [insert, behind] = withSigns(text, role, after)
      view.dispatch({
        changes: { from, to, insert },
        selection: { anchor: from + insert.length + behind },
        userEvent: 'input.complete',
      })
    },
  }
}

/** What is written, and how far behind it the cursor goes on. */
function withSigns(text: string, role: Hint['role'], after: string): readonly [string, number] {
  if (role === 'figure') return after.startsWith('>') ? [text, 1] : [`${text}>`, 0]
  if (role === 'key') return after.startsWith(':') ? [text, 0] : [`${text}: `, 0]
  return [text, 0]
}

export function help({ file, files }: PackAround): Extension {
  return hoverTooltip((view, pos) => {
    const found = helpInPack({ ...files(), [file]: view.state.doc.toString() }, file, pos)
    if (!found) return null
    return {
      pos: found.from,
      end: found.to,
      create() {
        const dom = document.createElement('div')
        dom.className = 'help'
        const name = document.createElement('strong')
        name.textContent = found.text
        const facts = [found.about, found.isNeeded ? 'needed' : '', found.takes && `takes ${found.takes}`]
        dom.append(name, ` ${facts.filter((fact) => fact !== '').join('; ')}`)
        return { dom }
      },
    }
  })
}
