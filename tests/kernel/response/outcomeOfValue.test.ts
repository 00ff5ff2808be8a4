import { describe, expect, it } from 'vitest'
import { outcome } from './outcome.ts'

describe('a value that was said alone', () => {
  it.each([
    ['<trim>', 'six point two', 'negative value: trim wrong "six point two" =6.2'],
    ['<down>', 'five point two', 'incomplete missing: down missing "five point two" =5.2 lacks direction'],
    ['<down>', 'five point two down', 'correct: down ok "five point two down" =-5.2'],
    ['<down>', 'five point two up', 'negative direction: down wrong "five point two up" =5.2'],
    ['<down>', 'five down', 'incomplete missing: down missing "five down" =-5 lacks decimals'],
    ['<wind>', 'nine nine nine at eight', 'sayAgain implausible: wind missing "nine nine nine at eight" =999/8'],
    [
      '<wind>',
      'five five five five five five five five',
      'sayAgain notUnderstood: wind missing "five five five five five five five five"',
    ],
    ['<wind>', 'calm', 'negative value: wind wrong "calm" =CALM'],
    ['<reg>', 'one', 'sayAgain notUnderstood: reg missing "one"'],
    ['<qnh>', 'ten thirteen', 'correct: qnh ok "ten thirteen" =1013'],
    ['<level>', 'fifty hundred', 'correct: level ok "fifty hundred" =5000'],
    ['<squawk>', 'forty two seventy one', 'correct: squawk ok "forty two seventy one" =4271'],
    ['<heading>', 'zero ninety', 'correct: heading ok "zero ninety" =90'],
    ['<runway>', 'two seven center', 'negative direction: runway wrong "two seven center" =27C'],
    ['<freq>', 'one twenty one five', 'correct: freq ok "one twenty one five" =121.5'],
    ['<level> units', 'units', 'sayAgain notUnderstood: level missing'],
    ['<flow> kilos', 'kilos five', 'correct: flow ok "five" =5'],
    ['<level>', 'five thousand knots', 'sayAgain notUnderstood: level missing'],
    ['<trim> set', 'five point two up set', 'correct: trim ok "five point two up" =5.2, set ok "set" =set'],
    ['<trim> set', '5.2up set', 'correct: trim ok "5.2up" =5.2, set ok "set" =set'],
    ['<trim> [set]', 'five point two', 'incomplete missing: trim missing "five point two" =5.2 lacks direction'],
    ['<trim> [set]', 'five', 'incomplete missing: trim missing "five" =5 lacks decimals'],
    ['<trim> [set]', 'up', 'incomplete missing: trim missing "up" lacks digits'],
    ['<trim> [set]', 'down', 'negative direction: trim wrong "down"'],
    ['<trim> [set]', 'five point', 'incomplete missing: trim missing "five point" =5 lacks decimals'],
    ['<trim>', 'five point two down', 'negative direction: trim wrong "five point two down" =-5.2'],
    ['<trim>', 'two up', 'negative value: trim wrong "two up" =2'],
    ['<trim>', 'five point three up', 'negative value: trim wrong "five point three up" =5.3'],
    ['<even>', 'five up', 'incomplete missing: even missing "five up" =5 lacks decimals'],
    ['<even>', 'five point up', 'incomplete missing: even missing "five point up" =5 lacks decimals'],
    ['<even>', 'six up', 'negative value: even wrong "six up" =6'],
    ['<trim>', 'five hundred up', 'sayAgain implausible: trim missing "five hundred up" =500'],
    ['<trim>', 'nine nine point nine up', 'negative value: trim wrong "nine nine point nine up" =99.9'],
    ['<rudder>', 'one point five left', 'negative direction: rudder wrong "one point five left" =-1.5'],
    ['<rudder>', 'one point five right', 'correct: rudder ok "one point five right" =1.5'],
    ['<rudder>', 'one point five up', 'negative direction: rudder wrong "one point five up"'],
    ['<rudder>', 'left', 'negative direction: rudder wrong "left"'],
    ['<squawk>', 'four two seven', 'sayAgain notUnderstood: squawk missing "four two seven"'],
    ['<squawk>', 'two seven one', 'sayAgain notUnderstood: squawk missing "two seven one"'],
    ['<squawk>', 'four two', 'sayAgain notUnderstood: squawk missing "four two"'],
    ['<squawk>', 'nine nine', 'negative value: squawk wrong "nine nine" =99'],
    ['<squawk>', 'four two seven two', 'negative value: squawk wrong "four two seven two" =4272'],
    ['<squawk>', 'four two seven one one', 'negative value: squawk wrong "four two seven one one" =42711'],
    ['<qnh>', 'one three', 'sayAgain notUnderstood: qnh missing "one three"'],
    ['<qnh>', 'one zero one three', 'correct: qnh ok "one zero one three" =1013'],
    ['<qnh>', 'one zero one', 'sayAgain notUnderstood: qnh missing "one zero one"'],
    ['<qnh>', 'two nine nine two', 'negative unit: qnh wrong "two nine nine two" =29.92'],
    ['<qnh>', 'nine nine nine nine', 'sayAgain implausible: qnh missing "nine nine nine nine" =9999'],
    ['<sign>', 'tidewick four two one', 'correct: sign ok "tidewick four two one" =TIDEWICK 421'],
    ['<sign>', 'tidewick', 'incomplete missing: sign missing "tidewick" =TIDEWICK lacks digits'],
    ['<sign>', 'four two one', 'incomplete missing: sign missing "four two one" =421 lacks digits'],
    ['<sign>', 'two one', 'sayAgain notUnderstood: sign missing "two one"'],
    ['<sign>', 'tidewick four two', 'sayAgain notUnderstood: sign missing "tidewick four two"'],
    ['<sign>', 'tidewick four two two', 'negative value: sign wrong "tidewick four two two" =TIDEWICK 422'],
    ['<runway>', 'two seven', 'incomplete missing: runway missing "two seven" =27 lacks direction'],
    ['<runway>', 'two seven right', 'negative direction: runway wrong "two seven right" =27R'],
    ['<runway>', 'left', 'incomplete missing: runway missing "left" lacks digits'],
    ['<runway>', 'seven left', 'negative value: runway wrong "seven left" =07L'],
    ['<heading>', 'zero nine zero', 'correct: heading ok "zero nine zero" =90'],
    ['<heading>', 'nine zero', 'incomplete missing: heading missing "nine zero" =90 lacks digits'],
    ['<heading>', 'ninety', 'incomplete missing: heading missing "ninety" =90 lacks digits'],
    ['<wind>', 'two four zero at eight', 'correct: wind ok "two four zero at eight" =240/08'],
    ['<wind>', 'two four zero degrees', 'incomplete missing: wind missing "two four zero degrees" =240 lacks digits'],
    ['<wind>', 'at eight', 'incomplete missing: wind missing "eight" lacks digits'],
    ['<wind>', 'two four zero at nine', 'negative value: wind wrong "two four zero at nine" =240/9'],
    ['<reg>', 'quebec x-ray mike romeo alfa', 'correct: reg ok "quebec xray mike romeo alfa" =QX-MRA'],
    ['<reg>', 'quebec romeo alfa', 'correct: reg ok "quebec romeo alfa" =QRA'],
    ['<reg>', 'romeo alfa', 'sayAgain notUnderstood: reg missing "romeo alfa"'],
    ['<reg>', 'alfa', 'sayAgain notUnderstood: reg missing "alfa"'],
    ['<reg>', 'quebec x-ray mike romeo bravo', 'negative value: reg wrong "quebec xray mike romeo bravo" =QXMRB'],
    ['<time>', 'zero nine one five', 'correct: time ok "zero nine one five" =0915'],
    ['<time>', 'one five', 'sayAgain notUnderstood: time missing "one five"'],
    ['<freq>', 'one two one decimal five', 'correct: freq ok "one two one decimal five" =121.5'],
    ['<freq>', 'one two one', 'incomplete missing: freq missing "one two one" =121 lacks decimals'],
  ])('%s, "%s": %s', (response, heard, told) => {
    expect(outcome(response, heard)).toBe(told)
  })
})

describe('a value said twice or denied', () => {
  it.each([
    ['<trim>', 'five point two up five point two up', 'correct: trim ok "five point two, up five point two up" =5.2'],
    [
      '<trim>',
      'five point two up no six point two up',
      'sayAgain twoValues: trim missing "five point two up, six point two up"',
    ],
    [
      '<trim>',
      'five point two up and six point two up',
      'sayAgain twoValues: trim missing "five point two up, six point two up"',
    ],
    ['<trim>', 'not five point two up', 'negative value: trim wrong "five point two up"'],
    ['<trim>', 'five point two up and six', 'sayAgain twoValues: trim missing "five point two up, six"'],
    ['<sign>', 'not tidewick four two one', 'negative value: sign wrong "tidewick four two one"'],
  ])('%s, "%s": %s', (response, heard, told) => {
    expect(outcome(response, heard)).toBe(told)
  })
})

describe('a value within what the item accepts', () => {
  it.each([
    ['<fuel>', 'eight thousand four hundred', 'correct: fuel ok "eight thousand four hundred" =8400'],
    ['<fuel>', 'eight thousand five hundred', 'correct: fuel ok "eight thousand five hundred" =8500'],
    ['<fuel>', 'eight thousand three hundred', 'correct: fuel ok "eight thousand three hundred" =8300'],
    ['<fuel>', 'eight thousand five hundred one', 'negative value: fuel wrong "eight thousand five hundred one" =8501'],
    [
      '<fuel>',
      'eight thousand four hundred pounds',
      'negative unit: fuel wrong "eight thousand four hundred pounds" =8400',
    ],
    ['<flow>', 'three', 'correct: flow ok "three" =3'],
    ['<flow>', 'seven', 'correct: flow ok "seven" =7'],
    ['<flow>', 'two', 'negative value: flow wrong "two" =2'],
    ['<flow>', 'eight', 'negative value: flow wrong "eight" =8'],
    ['<least>', 'two', 'negative value: least wrong "two" =2'],
    ['<least>', 'three', 'correct: least ok "three" =3'],
    ['<least>', 'nine hundred', 'correct: least ok "nine hundred" =900'],
    ['<most>', 'seven', 'correct: most ok "seven" =7'],
    ['<most>', 'eight', 'negative value: most wrong "eight" =8'],
    ['<most>', 'minus two', 'correct: most ok "minus two" =-2'],
    ['<near>', 'six', 'correct: near ok "six" =6'],
    ['<near>', 'seven', 'negative value: near wrong "seven" =7'],
    ['<near>', 'four', 'correct: near ok "four" =4'],
  ])('%s, "%s": %s', (response, heard, told) => {
    expect(outcome(response, heard)).toBe(told)
  })
})

describe('a figure without a value', () => {
  it.each([
    ['<none> set', 'five set', 'sayAgain notUnderstood: none missing "five", set missing "set" =set'],
    ['<gone> set', 'five set', 'sayAgain notUnderstood: gone missing, set missing "set" =set'],
    ['<gone>', 'five', 'sayAgain notUnderstood: gone missing'],
  ])('%s, "%s": %s', (response, heard, told) => {
    expect(outcome(response, heard)).toBe(told)
  })
})
