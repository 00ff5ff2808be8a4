/** Units of several words or with signs inside, each as one word: "FT-LB", "LBS / HR", "° C", "IN HG". */

/** Each writing with the word for it, which `UNITS_WRITTEN` knows. Bounded, so that no text takes long. */
const TOGETHER: readonly (readonly [RegExp, string])[] = [
  [/(?<![a-z])(?:ft|foot|feet)[ .·-]{0,2}(?:lbf?s?|pounds?)(?![a-z])/gi, 'ftlb'],
  [/(?<![a-z])(?:lbf?s?|pounds?)[ .·-]{0,2}(?:ft|foot|feet)(?![a-z])/gi, 'ftlb'],
  [/(?<![A-Za-z])(?:N[ .·-]{0,2}m|newton[ -]?met(?:er|re)s?)(?![A-Za-z])/g, 'newtonm'],
  [/(?<![a-z])(?:lbs?|pounds?) ?(?:\/|per|an) ?(?:hr?|hour)s?(?![a-z])|(?<![a-z])pph(?![a-z])/gi, 'pph'],
  [/(?<![a-z])(?:kgs?|kilograms?) ?(?:\/|per|an) ?(?:hr?|hour)s?(?![a-z])/gi, 'kgph'],
  [/(?<![a-z])(?:l|ltrs?|lit(?:er|re)s?) ?(?:\/|per|an) ?(?:hr?|hour)s?(?![a-z])|(?<![a-z])lph(?![a-z])/gi, 'lph'],
  [/(?<![a-z])(?:us ?)?(?:gals?|gallons?) ?(?:\/|per|an) ?(?:hr?|hour)s?(?![a-z])|(?<![a-z])gph(?![a-z])/gi, 'gph'],
  [/(?<![a-z])(?:ft|feet) ?(?:\/|per) ?min(?:ute)?(?![a-z])|(?<![a-z])fpm(?![a-z])/gi, 'fpm'],
  [/(?<![a-z])(?:in|inch|inches)[ .]{0,2}hg(?![a-z])|(?<=\d|_ ?)" ?hg(?![a-z])/gi, 'inhg'],
  [/(?<![a-z])lbs? ?(?:\/|per) ?(?:sq ?in|in2|in²|square inch)(?![a-z])|(?<![a-z])psi[gd](?![a-z])/gi, 'psi'],
  [/(?<![a-z])(?:°|deg\.?|degrees?) ?(?:c|celsius|centigrade)(?![a-z])/gi, '°c'],
  [/(?<![a-z])(?:°|deg\.?|degrees?) ?(?:f|fahrenheit)(?![a-z])/gi, '°f'],
  [/(?<![a-z])(?:%|percent|pct) ?mac(?![a-z])/gi, '%mac'],
  [/(?<![a-z])(?:%|percent|pct) ?(?:rpm|n1|n2|ng|np|torque)(?![a-z\d])/gi, '%'],
  [/(?<![a-z])(?:v|volts?) ?[ad]c(?![a-z])/gi, 'v'],
  [/(?<![a-z])u\.?s\.? ?(?:gals?|gallons?)(?![a-z])/gi, 'usg'],
]

/** A limit that is glued to its number: "24MIN". */
const GLUED_LIMIT = /(\d)(min|max)(?![a-z])/gi

export function withUnitTokens(text: string): string {
  const made = TOGETHER.reduce((whole, [pattern, token]) => whole.replace(pattern, token), text)
  return made.replace(GLUED_LIMIT, '$1 $2')
}

const SHOWN: ReadonlyMap<string, string> = new Map([
  ['ftlb', 'FT-LB'],
  ['newtonm', 'N m'],
  ['pph', 'LB/H'],
  ['kgph', 'KG/H'],
  ['lph', 'L/H'],
  ['gph', 'GAL/H'],
  ['inhg', 'IN HG'],
  ['°c', '°C'],
  ['°f', '°F'],
  ['usg', 'US GAL'],
])

/** For the author: the words of units as units are written. */
export const asWritten = (tokens: readonly string[]): string =>
  tokens.map((token) => SHOWN.get(token) ?? token).join(' ')
