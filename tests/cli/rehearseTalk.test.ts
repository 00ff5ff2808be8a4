import { mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join, resolve } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { run as rehearse } from '../../src/cli/rehearse.ts'
import { runCommand } from './io.ts'

const ANSWERS = 'tests/cli/answers/talk.txt'
const FLY = ['--pack', 'checklists/marram', '--inputs', 'tests/cli/answers/talk.yaml', '--answers', ANSWERS]

async function fly(...more: string[]): Promise<{ status: number; errors: string; lines: string[] }> {
  const { status, output, errors } = await runCommand(rehearse, [...FLY, ...more])
  return { status, errors, lines: output.trim().split('\n') }
}

describe('the demo departure with the voices outside', () => {
  let flown: Awaited<ReturnType<typeof fly>>
  /** What was answered to the first time that the pilot said this. */
  const answerTo = (text: string) => {
    const at = flown.lines.findIndex((line) => line.startsWith(`pilot: ${text}`))
    return at < 0 ? 'never said' : flown.lines[at + 1]
  }
  beforeAll(async () => {
    flown = await fly('--voices', '1')
  })

  it('flies from the final figures to the holding point', () => {
    expect(flown.errors).toBe('')
    expect(flown.status).toBe(0)
    expect(flown.lines.slice(-4)).toEqual([
      'otherseat: Holding point charlie three, brake.',
      'controller: Saltmarsh four two one, monitor heron hill tower, one one eight decimal three.',
      'pilot: monitor tower one one eight decimal three, saltmarsh four two one',
      'otherseat: All lists complete.',
    ])
  })

  it.each([
    ['information kilo, one zero one zero', 'otherseat: Runway, wind?'],
    ['wind two two zero degrees', 'otherseat: I heard two two zero, one four. Wind?'],
    ['say again squawk', 'controller: Saltmarsh four two one, squawk two six one three.'],
    ['cleared to willow lake', 'controller: Saltmarsh four two one, negative, via lantern two alfa departure.'],
    ['lantern two alfa departure', 'controller: Saltmarsh four two one, read back correct.'],
    ['departing runway two four', 'otherseat: I heard six thousand. First level?'],
    ['one zero zero niner', 'otherseat: I heard one zero zero nine.'],
    ['push and start approved facing west', 'controller: Saltmarsh four two one, negative, face east.'],
    ['cleared to push facing east', 'otherseat: Not yet, doors and steps first.'],
    ['disconnect the cable', 'otherseat: Not yet, power off before the cable.'],
    ['brakes released', 'otherseat: Not yet, the ground crew asks first.'],
    ['cleared to push facing west', 'groundCrew: Confirm push direction.'],
    ['signal in sight', 'otherseat: Not yet, ground crew off line first.'],
    ['flap nineteen', 'otherseat: Confirm nineteen?'],
    ['full left', 'otherseat: Display.'],
    ['remove the chocks', 'otherseat: Not yet, tow bar before the chocks.'],
    ['taxi to holding point charlie three', 'controller: Saltmarsh four two one, negative, via bravo echo charlie.'],
    ['via bravo echo charlie', 'controller: Saltmarsh four two one, read back hold short.'],
    ['hold short of runway three three', 'controller: Saltmarsh four two one, read back correct.'],
    [
      'holding short runway three three',
      'controller: Saltmarsh four two one, cross runway three three, report runway vacated.',
    ],
  ])('"%s" is answered with "%s"', (said, answer) => {
    expect(answerTo(said)).toBe(answer)
  })

  it('is sent to the ground frequency after its clearance, and corrected where it takes down another one', () => {
    expect(flown.lines).toContain('controller: When ready contact heron hill ground, one two one decimal eight.')
    expect(answerTo('ground one two one decimal six')).toBe(
      'controller: Saltmarsh four two one, negative, when ready contact heron hill ground, one two one decimal eight.',
    )
  })

  it('waits at the line for the clearance that a controller gives', () => {
    expect(answerTo('code two six one three')).toBe('otherseat: Before start list to the line. Push clearance.')
  })

  it('gives clearances in the words of the FAA where they are asked for', async () => {
    // The setting is said in inches there, and read back so.
    const inches = (await readFile(ANSWERS, 'utf8'))
      .replaceAll('one zero one zero', 'two niner eight three')
      .replaceAll('one zero zero niner', 'two niner eight zero')
      .replaceAll('q n h', 'altimeter')
      // Nor is a runway in the clearance there, nor a letter behind the departure; the level to expect is.
      .replaceAll('lantern two bravo departure, runway two four', 'orchard one departure')
      .replaceAll('climb five thousand,', 'maintain five thousand, expect flight level three five zero,')
      .replaceAll('lantern two alfa', 'lantern two')
      .replaceAll('@figures talk.yaml', `@figures ${resolve(dirname(ANSWERS), 'talk.yaml')}`)
    const answers = join(await mkdtemp(join(tmpdir(), 'answers-')), 'faa.txt')
    await writeFile(answers, inches)
    const { status, lines, errors } = await fly('--voices', '1', '--radio', 'faa', '--answers', answers)
    expect(errors).toBe('')
    expect(status).toBe(0)
    const controller = lines.filter((line) => line.startsWith('controller: '))
    expect(controller[0]).toMatch(
      /^controller: Saltmarsh four twenty one, cleared to willow lake airport, lantern two departure, then as filed, maintain five thousand, expect flight level three five zero one zero minutes after departure, departure frequency one two four point six seven five, /,
    )
    expect(controller.some((line) => line.includes('altimeter two niner eight three'))).toBe(true)
  })

  it('draws other clearances by another number where the revision leaves them open', async () => {
    const clearance = async (number: string) => {
      const { output } = await runCommand(rehearse, [
        ...['--pack', 'checklists/marram', '--inputs', 'checklists/marram/inputs/final.yaml'],
        ...['--answers', ANSWERS, '--voices', number],
      ])
      return output.split('\n').find((line) => line.startsWith('broadcast: Heron'))
    }
    const [one, other, again] = [await clearance('3'), await clearance('5'), await clearance('3')]
    expect(one).toMatch(/departure information \w+, time .* Q N H one zero \w+ \w+, advise/)
    expect(again).toBe(one)
    expect(other).not.toBe(one)
  })

  it.each([[['--voices', 'many']], [['--voices', '1', '--radio', 'other']], [['--radio', 'faa']]])(
    'says how it is called where it is called wrongly: %s',
    async (more) => {
      const { status, errors } = await fly(...more)
      expect(status).not.toBe(0)
      expect(errors).toContain('rehearse --pack')
    },
  )
})
