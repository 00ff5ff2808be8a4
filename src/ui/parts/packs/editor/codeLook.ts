/** The editor in the app's own look; nothing rests on colour alone. */

import { HighlightStyle, syntaxHighlighting } from '@codemirror/language'
import type { Extension } from '@codemirror/state'
import { Decoration, EditorView, MatchDecorator, ViewPlugin, type ViewUpdate } from '@codemirror/view'
import { tags } from '@lezer/highlight'

const theme = EditorView.theme({
  '&': { height: '100%', color: 'var(--ink)', backgroundColor: 'var(--raised)', borderRadius: 'inherit' },
  '&.cm-focused': { outline: 'none' },
  '.cm-scroller': {
    fontFamily: 'ui-monospace, "Liberation Mono", monospace',
    fontSize: '0.875rem',
    lineHeight: '1.45',
  },
  '.cm-content': { caretColor: 'var(--ink)', paddingBottom: '2rem' },
  '.cm-gutters': { backgroundColor: 'var(--raised)', color: 'var(--soft)', borderRight: '1px solid var(--line)' },
  '.cm-activeLine, .cm-activeLineGutter': { backgroundColor: 'color-mix(in srgb, var(--accent) 8%, transparent)' },
  '.cm-activeLineGutter': { color: 'var(--ink)' },
  '.cm-selectionMatch': { backgroundColor: 'color-mix(in srgb, var(--accent) 14%, transparent)' },
  '.cm-searchMatch': { backgroundColor: 'transparent', outline: '1.5px solid var(--edge)' },
  '.cm-searchMatch-selected': { outline: '2.5px solid var(--accent)', backgroundColor: 'transparent' },
  '&.cm-focused .cm-matchingBracket': { backgroundColor: 'transparent', outline: '1px solid var(--edge)' },
  '&.cm-focused .cm-nonmatchingBracket': { backgroundColor: 'transparent', textDecoration: 'wavy underline' },
  '.cm-panels': { backgroundColor: 'var(--ground)', color: 'var(--ink)', borderColor: 'var(--line)' },
  '.cm-panels.cm-panels-top': { borderBottom: '1px solid var(--line)' },
  '.cm-panel.cm-search': { fontSize: '0.875rem', padding: '0.5rem 2rem 0.5rem 0.5rem' },
  '.cm-panel.cm-search label': { fontSize: 'inherit' },
  '.cm-panel.cm-search [name=close]': {
    color: 'inherit',
    fontSize: '1.25rem',
    minWidth: '1.75rem',
    minHeight: '1.75rem',
  },
  '.cm-textfield': {
    font: 'inherit',
    color: 'inherit',
    backgroundColor: 'var(--raised)',
    border: '1.5px solid var(--edge)',
    borderRadius: '0.35rem',
    padding: '0.25rem 0.5rem',
  },
  '.cm-button': {
    font: 'inherit',
    color: 'inherit',
    background: 'var(--raised)',
    border: '1.5px solid var(--edge)',
    borderRadius: '1rem',
    padding: '0.2rem 0.75rem',
  },
  '.cm-textfield:focus-visible, .cm-button:focus-visible, [name=close]:focus-visible': {
    outline: '3px solid var(--accent)',
    outlineOffset: '1px',
  },
  '.cm-tooltip': {
    backgroundColor: 'var(--ground)',
    color: 'var(--ink)',
    border: '1.5px solid var(--edge)',
    borderRadius: '0.5rem',
    maxWidth: 'min(26rem, 90vw)',
    overflow: 'hidden',
  },
  '.cm-tooltip .help, .cm-tooltip.cm-completionInfo': { padding: '0.4rem 0.6rem', fontSize: '0.875rem' },
  '.cm-tooltip.cm-tooltip-autocomplete > ul': { fontFamily: 'ui-monospace, monospace', fontSize: '0.875rem' },
  '.cm-tooltip.cm-tooltip-autocomplete > ul > li': { padding: '0.2rem 0.6rem' },
  '.cm-tooltip-autocomplete ul li[aria-selected]': { backgroundColor: 'var(--accent)', color: 'var(--on-accent)' },
  // Where there is no room beside the list it would lie on it.
  '.cm-completionInfo-right-narrow, .cm-completionInfo-left-narrow': { display: 'none' },
  '.cm-completionDetail': { fontStyle: 'normal', marginInlineStart: '1ch' },
  '.cm-completionMatchedText': { fontWeight: '600' },
  '.cm-diagnostic': { padding: '0.35rem 0.6rem', fontSize: '0.875rem' },
  '.cm-diagnostic-error': { borderInlineStart: '5px solid var(--ink)' },
  '.cm-diagnostic-info': { borderInlineStart: '5px dotted var(--edge)' },
  '.cm-lintRange': { backgroundImage: 'none', paddingBottom: '0' },
  '.cm-lintRange-error': { textDecoration: 'wavy underline', textUnderlineOffset: '3px' },
  '.cm-lintRange-info': { textDecoration: 'dotted underline', textUnderlineOffset: '3px' },
  '.cm-gutter-lint': { width: '1.2em' },
  '.cm-lint-marker': { width: '1em', height: '1.45em' },
  '.cm-lint-marker-error, .cm-lint-marker-info': { content: 'normal' },
  '.cm-lint-marker-error::after': { content: '"≠"', fontWeight: '700', color: 'var(--ink)' },
  '.cm-lint-marker-info::after': { content: '"→"', color: 'var(--ink)' },
  '.cm-figure': { color: 'var(--accent)', fontWeight: '600' },
  '.cm-question': { color: 'var(--accent)', fontWeight: '700', fontStyle: 'normal' },
})

const highlighting = HighlightStyle.define([
  { tag: [tags.definition(tags.propertyName), tags.propertyName], color: 'var(--accent)' },
  { tag: [tags.comment, tags.lineComment], color: 'var(--soft)', fontStyle: 'italic' },
  { tag: [tags.separator, tags.punctuation, tags.brace, tags.squareBracket], color: 'var(--soft)' },
  { tag: [tags.labelName, tags.typeName, tags.meta, tags.keyword], fontWeight: '600' },
])

/** Figures in a response, and what a draft from paper asks. */
const marks = [
  { regexp: /<\w+>/g, className: 'cm-figure' },
  { regexp: /# \?/g, className: 'cm-question' },
].map(({ regexp, className }) => {
  const decorator = new MatchDecorator({ regexp, decoration: Decoration.mark({ class: className }) })
  return ViewPlugin.define(
    (view) => ({
      found: decorator.createDeco(view),
      update(update: ViewUpdate) {
        this.found = decorator.updateDeco(update, this.found)
      },
    }),
    { decorations: ({ found }) => found },
  )
})

export const CODE_LOOK: Extension = [theme, syntaxHighlighting(highlighting), marks]
