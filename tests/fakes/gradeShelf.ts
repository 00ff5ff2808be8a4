/** A shelf of grades for tests, kept in memory and open to view. */

import type { GradeShelf, KeptSheet } from '../../src/ports.ts'

export function createFakeGradeShelf(): GradeShelf & { readonly kept: Map<string, KeptSheet> } {
  const kept = new Map<string, KeptSheet>()
  return {
    kept,
    all: async () => [...kept.values()],
    async put(sheet) {
      kept.set(JSON.stringify([sheet.runId, sheet.isOwn ? '' : sheet.by]), structuredClone(sheet))
    },
    async deleteOf(runId) {
      for (const [key, sheet] of kept) if (sheet.runId === runId) kept.delete(key)
    },
  }
}
