/**
 * A text field for YAML with highlighting, problems in place, completion, help and search. It lies in a shadow root: there
 * its styles are sheets of the document's, which the page's policy allows, and not elements, which it forbids.
 */

import { autocompletion, closeBrackets, closeBracketsKeymap, completionKeymap } from '@codemirror/autocomplete'
import { defaultKeymap, history, historyKeymap, indentWithTab } from '@codemirror/commands'
import { yaml } from '@codemirror/lang-yaml'
import { bracketMatching, indentUnit } from '@codemirror/language'
import { type Diagnostic, lintGutter, lintKeymap, setDiagnostics } from '@codemirror/lint'
import { highlightSelectionMatches, search, searchKeymap } from '@codemirror/search'
import { Annotation, EditorSelection, EditorState, type Text } from '@codemirror/state'
import { EditorView, highlightActiveLine, highlightActiveLineGutter, keymap, lineNumbers } from '@codemirror/view'
import { isError, type Place, type Problem } from '../../../../kernel/problem.ts'
import { completion, help, type PackAround } from './codeHints.ts'
import { CODE_LOOK } from './codeLook.ts'

export interface CodeFieldParts {
  readonly label: string
  readonly value: string
  /** The files of the pack, for names that this one may use. */
  readonly around: PackAround
  readonly onChange: (value: string) => void
  /** Where the cursor stands, as an offset. */
  readonly onCursor: (offset: number) => void
}

export interface CodeField {
  /** As another tab has made it: one's own changes are not told again. */
  setValue(value: string): void
  setProblems(problems: readonly Problem[]): void
  goTo(place: Place): void
  focusAt(offset: number): void
  destroy(): void
}

const FROM_OUTSIDE = Annotation.define<true>()

const KEYS =
  'Tab indents; Escape, then Tab leaves the editor. Control Space completes, Control F searches, F8 goes to the next problem.'

/** `host` is an empty element, and stays the field's. */
export function createCodeField(host: HTMLElement, parts: CodeFieldParts): CodeField {
  const root = host.attachShadow({ mode: 'open' })
  const keys = document.createElement('p')
  keys.id = 'keys'
  keys.hidden = true
  keys.textContent = KEYS
  root.append(keys)
  const { label, value, around, onChange, onCursor } = parts
  const view = new EditorView({
    root,
    parent: root,
    state: EditorState.create({
      doc: value,
      extensions: [
        lineNumbers(),
        lintGutter(),
        history(),
        highlightActiveLine(),
        highlightActiveLineGutter(),
        highlightSelectionMatches(),
        bracketMatching(),
        closeBrackets(),
        yaml(),
        // What would be out of sight beside the list is read on the next line.
        EditorView.lineWrapping,
        indentUnit.of('  '),
        EditorState.tabSize.of(2),
        search({ top: true }),
        autocompletion({ override: [completion(around)], icons: false }),
        help(around),
        CODE_LOOK,
        EditorView.contentAttributes.of({
          'aria-label': label,
          'aria-describedby': 'keys',
          spellcheck: 'false',
          tabindex: '0',
        }),
        keymap.of([
          ...closeBracketsKeymap,
          ...completionKeymap,
          ...searchKeymap,
          ...historyKeymap,
          ...lintKeymap.filter(({ key }) => key === 'F8'),
          ...defaultKeymap,
          indentWithTab,
        ]),
        EditorView.updateListener.of(({ docChanged, selectionSet, state, transactions }) => {
          if (docChanged && !transactions.some((one) => one.annotation(FROM_OUTSIDE))) onChange(state.doc.toString())
          if (docChanged || selectionSet) onCursor(state.selection.main.head)
        }),
      ],
    }),
  })
  const focusAt = (offset: number) => {
    const at = Math.min(offset, view.state.doc.length)
    view.focus()
    view.dispatch({ selection: EditorSelection.cursor(at), effects: EditorView.scrollIntoView(at, { y: 'center' }) })
  }
  return {
    focusAt,
    setValue(next) {
      if (view.state.doc.toString() === next) return
      const { length } = view.state.doc
      view.dispatch({ changes: { from: 0, to: length, insert: next }, annotations: FROM_OUTSIDE.of(true) })
    },
    setProblems(problems) {
      view.dispatch(
        setDiagnostics(
          view.state,
          problems.map((problem) => diagnosticOf(view.state.doc, problem)),
        ),
      )
    },
    goTo: (place) => focusAt(offsetIn(view.state.doc, place)),
    destroy: () => view.destroy(),
  }
}

/** From the place of a problem to the end of the word there. */
function diagnosticOf(text: Text, problem: Problem): Diagnostic {
  const from = offsetIn(text, problem.place ?? { file: '', line: 1, column: 1 })
  const line = text.lineAt(from)
  const word = /^[\w<>-]+/.exec(line.text.slice(from - line.from))?.[0].length ?? 1
  return {
    from,
    to: Math.min(from + word, line.to),
    severity: isError(problem) ? 'error' : 'info',
    message: problem.message,
  }
}

/** The text may be another one than was checked: a place behind its end is its end. */
function offsetIn(text: Text, { line, column }: Place): number {
  const { from, to } = text.line(Math.min(line, text.lines))
  return Math.min(from + column - 1, to)
}
