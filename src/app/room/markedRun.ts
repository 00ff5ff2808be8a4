/** A run with the marks that an instructor made in it, as one file: the log as it is, and the marks as a table. */

import { clockTime } from '../../kernel/run/core/clockTime.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { csvOf } from '../../packs/csvText.ts'
import { createZip } from '../../packs/files/zipMaking.ts'
import type { RoomMark } from '../../room/entries.ts'
import { linesOf, type SavedFile } from '../runs/runFiles.ts'

const HEAD = ['time', 'event', 'place', 'mark', 'by', 'given']

export function markedRun(
  name: string,
  events: readonly RunEvent[],
  marks: readonly RoomMark[],
  now: number,
): SavedFile {
  const zip = createZip(now)
  zip.add(`${name}/log.jsonl`, linesOf(events))
  const rows = marks.map(({ t, seq, place, words, by, given }) => [clockTime(t), seq, place, words, by, given])
  zip.add(`${name}/marks.csv`, csvOf([HEAD, ...rows]))
  return { name: `${name}.zip`, content: zip.end() }
}
