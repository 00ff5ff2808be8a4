/** The two phraseologies that stations speak. */
export const RADIOS = ['icao', 'faa'] as const
export type Radio = (typeof RADIOS)[number]
