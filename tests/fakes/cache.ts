/** Texts kept in memory, open to view. */

import type { TextCache } from '../../src/ports.ts'

export function createFakeCache(): TextCache & { readonly texts: Map<string, string> } {
  const texts = new Map<string, string>()
  return {
    texts,
    get: async (key) => texts.get(key),
    all: async () => new Map(texts),
    async put(more) {
      for (const [key, text] of more) texts.set(key, text)
    },
  }
}
