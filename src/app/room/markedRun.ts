/**
 * A run with what an instructor made of it, as one file: the log as it is, marks and grades as tables, the grades once more to
 * be brought in beside another instructor's, and the voice notes where they are wanted.
 */

import { clockTime } from '../../kernel/run/core/clockTime.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { RunSummary } from '../../kernel/run/core/summary.ts'
import type { Grade } from '../../kernel/training/grades.ts'
import { csvOf } from '../../packs/csvText.ts'
import { createZip } from '../../packs/files/zipMaking.ts'
import type { RunSounds } from '../../ports.ts'
import type { RoomMark } from '../../room/entries.ts'
import { gradesTable, SHEET_FILE, sheetText } from '../grading/gradeSheet.ts'
import { linesOf, type SavedFile } from '../runs/runFiles.ts'
import { wavOf } from '../sound/wav.ts'
import { noteNumber } from './notesState.ts'

const HEAD = ['time', 'event', 'place', 'mark', 'by', 'given', 'note']

export interface MarkedRun {
  readonly name: string
  readonly events: readonly RunEvent[]
  readonly summary: RunSummary
  readonly marks: readonly RoomMark[]
  readonly grades: readonly Grade[]
  /** Where the list is from that was graded by. */
  readonly list: string
  readonly by: string
  /** The run is over, and so are its grades. */
  readonly isOver: boolean
  /** By the numbers of their marks. */
  readonly notes: RunSounds
  readonly now: number
}

export function markedRun({
  name,
  events,
  summary,
  marks,
  grades,
  list,
  by,
  isOver,
  notes,
  now,
}: MarkedRun): SavedFile {
  const zip = createZip(now)
  zip.add(`${name}/log.jsonl`, linesOf(events))
  const noted = marks.filter((mark) => notes.has(noteNumber(mark)))
  const fileOf = (mark: RoomMark) => {
    const at = noted.indexOf(mark)
    return at < 0 ? '' : `notes/${String(at + 1).padStart(2, '0')}.wav`
  }
  const rows = marks.map((mark) => {
    const { t, seq, place, words, by, given } = mark
    return [clockTime(t), seq, place, words, by, given, fileOf(mark)]
  })
  zip.add(`${name}/marks.csv`, csvOf([HEAD, ...rows]))
  if (grades.length > 0) {
    const { runId, pack, startedAt } = summary
    zip.add(`${name}/grades.csv`, gradesTable(grades))
    const finished = isOver ? { finishedAt: new Date(now).toISOString() } : {}
    // The seat may have gone on from another instructor, whose grades are not this one's.
    const own = grades.filter((grade) => grade.by === by)
    zip.add(`${name}/${SHEET_FILE}`, sheetText({ ...{ runId, pack, startedAt, by, list, ...finished }, grades: own }))
  }
  for (const mark of noted) zip.add(`${name}/${fileOf(mark)}`, wavOf(notes.get(noteNumber(mark)) ?? new Int16Array()))
  return { name: `${name}.zip`, content: zip.end() }
}
