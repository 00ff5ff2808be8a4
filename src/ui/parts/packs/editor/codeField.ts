/**
 * A text field for YAML with highlighting, problems in place, completion, help and search. It lies in a shadow root: there
 * its styles are sheets of the document's, which the page's policy allows, and not elements, which it forbids.
 */

import { autocompletion, closeBrackets, closeBracketsKeymap, completionKeymap } from '@codemirror/autocomplete'
import {
  defaultKeymap,
  history,
  historyField,
  historyKeymap,
  indentWithTab,
  isolateHistory,
} from '@codemirror/commands'
import { yaml } from '@codemirror/lang-yaml'
import { bracketMatching, indentUnit } from '@codemirror/language'
import { type Diagnostic, lintGutter, lintKeymap, setDiagnostics } from '@codemirror/lint'
import { highlightSelectionMatches, search, searchKeymap } from '@codemirror/search'
import { Annotation, EditorSelection, EditorState, type Extension, type Text } from '@codemirror/state'
import { EditorView, highlightActiveLine, highlightActiveLineGutter, keymap, lineNumbers } from '@codemirror/view'
import { changedIn } from '../../../../app/packs/writtenUndo.ts'
import { isError, type Place, type Problem } from '../../../../kernel/problem.ts'
import { completion, help, type PackAround } from './codeHints.ts'
import { CODE_LOOK } from './codeLook.ts'

export interface CodeFieldParts {
  /** The key of the pack. */
  readonly pack: string
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
  show(offset: number): void
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
  const { pack, label, value, around, onChange, onCursor } = parts
  const file = `${pack} ${label}`
  const view = new EditorView({
    root,
    parent: root,
    state: stateOf(file, value, [
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
    ]),
  })
  const cursorAt = (offset: number) => {
    const at = Math.min(offset, view.state.doc.length)
    return { selection: EditorSelection.cursor(at), effects: EditorView.scrollIntoView(at, { y: 'center' }) }
  }
  const focusAt = (offset: number) => {
    view.focus()
    view.dispatch(cursorAt(offset))
  }
  return {
    focusAt,
    setValue(next) {
      const now = view.state.doc.toString()
      if (now === next) return
      // Only what differs: cursor and steps back stay where they are.
      const [from, to, end] = changedIn(now, next)
      const annotations = [FROM_OUTSIDE.of(true), isolateHistory.of('before')]
      view.dispatch({ changes: { from, to, insert: next.slice(from, end) }, annotations })
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
    show: (offset) => view.dispatch(cursorAt(offset)),
    destroy() {
      keep(file, view.state)
      view.destroy()
    },
  }
}

/** The ways back in each file, as long as the page is open. */
const kept = new Map<string, unknown>()
const MOST_KEPT = 30
const WITH_HISTORY = { history: historyField }

function keep(file: string, state: EditorState): void {
  kept.delete(file)
  kept.set(file, state.toJSON(WITH_HISTORY))
  const [oldest] = kept.keys()
  if (kept.size > MOST_KEPT && oldest !== undefined) kept.delete(oldest)
}

/** As the file was left, with its cursor; what has become of it since is one step more. */
function stateOf(file: string, value: string, extensions: Extension): EditorState {
  const before = kept.get(file)
  if (before === undefined) return EditorState.create({ doc: value, extensions })
  const state = EditorState.fromJSON(before, { extensions }, WITH_HISTORY)
  const now = state.doc.toString()
  if (now === value) return state
  const [from, to, end] = changedIn(now, value)
  return state.update({ changes: { from, to, insert: value.slice(from, end) } }).state
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
