/** A grammar as text in JSGF (JSpeech Grammar Format, W3C note of June 2000), to be read. */

import type { Grammar, Option, RuleExpansion } from '../grammarRules.ts'

export function jsgfOf({ rules, start }: Grammar): string {
  const lines = rules.map(
    ({ name, expansion }) => `${name === start ? 'public ' : ''}<${name}> = ${ungrouped(expansion)};`,
  )
  return `#JSGF V1.0;\ngrammar ear;\n${lines.join('\n')}\n`
}

/** As a whole rule, or inside brackets: alternatives need none of their own. */
function ungrouped(expansion: RuleExpansion): string {
  const isAlternatives = typeof expansion === 'object' && expansion.type === 'alternatives'
  return isAlternatives ? expansion.options.map(optionText).join(' | ') : textOf(expansion)
}

const optionText = ({ expansion, weight }: Option): string =>
  weight === undefined ? textOf(expansion) : `/${weight}/ ${textOf(expansion)}`

function textOf(expansion: RuleExpansion): string {
  if (typeof expansion === 'string') return expansion
  switch (expansion.type) {
    case 'rule':
      return `<${expansion.name}>`
    case 'sequence':
      return expansion.parts.map(textOf).join(' ')
    case 'alternatives':
      return `(${ungrouped(expansion)})`
    case 'optional':
      return `[${ungrouped(expansion.expansion)}]`
    case 'nothing':
      return '<NULL>'
    default:
      return expansion satisfies never
  }
}
