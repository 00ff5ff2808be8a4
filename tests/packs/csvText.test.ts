import { expect, test } from 'vitest'
import { csvOf } from '../../src/packs/csvText.ts'

const cells = (...row: (string | number)[]) => csvOf([row]).replace('\uFEFF', '').replace(/\r\n$/, '')

test('begins with the mark of UTF-8 and ends each row as RFC 4180 has it', () => {
  expect(
    csvOf([
      ['é', 1],
      ['b', 2.5],
    ]),
  ).toBe('\uFEFF"é",1\r\n"b",2.5\r\n')
})

test('keeps commas, quotes and line ends inside their cell', () => {
  expect(cells('a, "b"\r\nc;d')).toBe('"a, ""b""\nc;d"')
})

test.each(['=1+1', '+1', '-1', '@SUM(A1)', ' =1', '\t=1', '\r=1', '＝1', '＠x', '\tx'])('makes %j harmless', (cell) => {
  expect(cells(cell)).toMatch(/^"'/)
})

test('leaves numbers numbers, below zero too, and other texts as they are', () => {
  expect(cells(-0.4, 'a-b', '4.3 up', "it's")).toBe(`-0.4,"a-b","4.3 up","it's"`)
})
