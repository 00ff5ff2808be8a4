/** What the ear hears in: so many samples at 16 kHz, and their length. */
export const FRAME = 480
export const FRAME_MS = 30
