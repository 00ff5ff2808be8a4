/** The verdict on an answer to an item as the command line takes it, with the reason behind it: "sayAgain twoValues". */

import { readJudgeLine } from '../../../src/cli/judgeLine.ts'
import { judge } from '../../../src/kernel/response/judge.ts'

export function verdictOf(item: object, heard: string): string {
  const read = readJudgeLine(JSON.stringify({ id: 'one', ...item, heard }))
  if (!('input' in read)) throw new Error('no line')
  const { verdict, because } = judge(read.input)
  return because ? `${verdict} ${because}` : verdict
}
