/** Digits -> the words for them: one by one, or as people say whole numbers. The inverse of `readings.ts`. */

import { DIGIT_WORDS, TEEN_WORDS, TENS_WORDS } from './words.ts'

/** "128" -> "one two eight"; in radio forms "one two tree". Other characters are left out. */
export function sayDigits(digits: string, radio = false): string {
  const words: string[] = []
  for (const character of digits) {
    const word = DIGIT_WORDS[Number(character)]
    if (word && character >= '0' && character <= '9') words.push(radio && word === 'nine' ? 'niner' : word)
  }
  return words.join(' ')
}

/** 0 to 99: "twenty one". */
export function sayBelowHundred(value: number): string {
  if (value < 10) return DIGIT_WORDS[value] ?? ''
  if (value < 20) return TEEN_WORDS[value - 10] ?? ''
  const tens = TENS_WORDS[Math.floor(value / 10) - 2] ?? ''
  return value % 10 === 0 ? tens : `${tens} ${DIGIT_WORDS[value % 10]}`
}

/** 0 to 999,999 as a cardinal: "eight thousand four hundred". */
export function sayCardinal(value: number): string {
  if (value >= 1000) {
    const rest = value % 1000
    const head = `${sayCardinal(Math.floor(value / 1000))} thousand`
    return rest === 0 ? head : `${head} ${sayCardinal(rest)}`
  }
  if (value >= 100) {
    const rest = value % 100
    const head = `${DIGIT_WORDS[Math.floor(value / 100)]} hundred`
    return rest === 0 ? head : `${head} ${sayBelowHundred(rest)}`
  }
  return sayBelowHundred(value)
}

/** Whole hundreds and thousands in words, with the thousands digit by digit: "one two thousand five hundred". */
export function sayHundreds(value: number, radio = false): string {
  const thousands = Math.floor(value / 1000)
  const hundreds = Math.floor((value % 1000) / 100)
  const words: string[] = []
  if (thousands > 0) words.push(sayDigits(String(thousands), radio), 'thousand')
  if (hundreds > 0) words.push(sayDigits(String(hundreds), radio), 'hundred')
  return words.join(' ')
}
