/** The piston twin with its tower: each mistake on the way is answered by whom it concerns. */

import { mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { run as rehearse } from '../../src/cli/rehearse.ts'
import { runCommand } from './io.ts'

const ANSWERS = 'tests/cli/answers/pairTalk.txt'
const FLY = ['--pack', 'checklists/pair', '--inputs', 'tests/cli/answers/pairTalk.yaml', '--answers', ANSWERS]

async function fly(...more: string[]): Promise<{ status: number; errors: string; lines: string[] }> {
  const { status, output, errors } = await runCommand(rehearse, [...FLY, '--voices', '1', ...more])
  return { status, errors, lines: output.trim().split('\n') }
}

describe('the piston twin with the voices outside', () => {
  let flown: Awaited<ReturnType<typeof fly>>
  /** What was answered to the `nth` time that the pilot said this. */
  const answerTo = (text: string, nth = 0) => {
    const said = flown.lines.flatMap((line, at) => (line === `pilot: ${text}` ? [at] : []))
    return flown.lines[(said[nth] ?? Number.NaN) + 1]
  }
  beforeAll(async () => {
    flown = await fly()
  })

  it('flies from the figures to the takeoff clearance', () => {
    expect(flown.errors).toBe('')
    expect(flown.status).toBe(0)
    expect(flown.lines.slice(-2)).toEqual([
      'controller: Quebec xray papa bravo whiskey, read back correct.',
      'otherseat: All lists complete.',
    ])
  })

  it.each([
    [
      'holding point alfa one via echo alfa, altimeter two niner seven five',
      'controller: Quebec xray papa bravo whiskey, read back hold short.',
    ],
    [
      'southbound departure approved, squawk three one six five',
      'controller: Quebec xray papa bravo whiskey, negative, squawk three one six four.',
    ],
    [
      'departing runway one one, rotate seven seven, red line six two',
      'pilot: failure before lift off, close both throttles',
    ],
    ['blue line niner two', 'otherseat: I heard niner two. Best rate speed?'],
    ['briefing complete', 'otherseat: Nothing on failure with the gear up yet.'],
    // The tower's setting counts, no more the one on the slip.
    ['two niner seven four', 'otherseat: I heard two nine seven four.'],
    ['both latched', 'otherseat: Control lock?'],
    [
      'fallow mill tower, quebec xray papa bravo whiskey, ready for departure',
      'controller: Quebec xray papa bravo whiskey, runway one one, line up and wait.',
    ],
    [
      'quebec bravo whiskey, lined up and ready',
      'controller: Quebec xray papa bravo whiskey, wind one four zero degrees niner knots, runway one one, cleared for takeoff.',
    ],
  ])('"%s" is answered with "%s"', (said, answer) => {
    expect(answerTo(said)).toBe(answer)
  })

  it('lets no brake off before both sides were looked at', () => {
    expect(answerTo('brakes released')).toBe('otherseat: Not yet, both sides before the brake.')
    expect(answerTo('brakes released', 1)).toBe('otherseat: Low power, then the brakes.')
  })

  it('hears a crossed control where the pilot says what was seen', () => {
    expect(answerTo('left aileron up, right aileron down')).toBe('pilot: full right')
    expect(answerTo('left aileron up, right aileron down', 1)).toBe(
      'otherseat: I heard left aileron up, right aileron down. Ailerons?',
    )
  })

  it('waits at the line for the line-up clearance', () => {
    expect(answerTo('both latched', 1)).toBe('otherseat: Line up list to the line. Line up clearance.')
  })

  it('is told its taxi in the words of the FAA where they are asked for', async () => {
    const { status, lines, errors } = await fly('--radio', 'faa')
    expect([status, errors]).toEqual([0, ''])
    expect(lines).toContain(
      'controller: Quebec xray papa bravo whiskey, at alfa one, taxi via echo alfa, hold short of runway one one, altimeter two niner seven five.',
    )
  })
})

/** Read-backs of the taxi clearance as pilots of light aircraft say them; made up, no recording. */
describe('a read-back to the tower', () => {
  it.each([
    ['holding point alfa one via echo alfa hold short runway one one two niner seven five', 'read back correct.'],
    ['taxi to alfa one, via echo and alfa, holding short runway one one, altimeter 29.75', 'read back correct.'],
    ['alfa one via echo alfa, hold short one one, two nine seven five, quebec bravo whiskey', 'read back correct.'],
    [
      'holding point alfa one runway one one via echo alfa hold short runway one one altimeter two niner seven five',
      'read back correct.',
    ],
    [
      'alfa one via echo alfa, hold short runway two niner, two niner seven five',
      'negative, hold short of runway one one.',
    ],
    ['alfa one via echo alfa, cross runway one one, two niner seven five', 'negative, hold short of runway one one.'],
    [
      'alfa two via echo alfa, hold short runway one one, two niner seven five',
      'negative, taxi to holding point alfa one.',
    ],
    ['alfa one via delta alfa, hold short runway one one, two niner seven five', 'negative, via echo alfa.'],
    [
      'alfa one via echo alfa, hold short runway one one, two niner five seven',
      'negative, altimeter two niner seven five.',
    ],
    ['alfa one via echo alfa, hold short runway one one', 'read back altimeter.'],
  ])('"%s" is answered with "%s"', async (readBack, answer) => {
    const [before = ''] = (await readFile(ANSWERS, 'utf8')).split('holding point alfa one via')
    const file = join(await mkdtemp(join(tmpdir(), 'twin-')), 'answers.txt')
    await writeFile(file, `${before}${readBack}\n`)
    const { lines } = await fly('--answers', file)
    const at = lines.indexOf(`pilot: ${readBack}`)
    expect(at).toBeGreaterThan(0)
    expect(lines[at + 1]).toBe(`controller: Quebec xray papa bravo whiskey, ${answer}`)
  })
})
