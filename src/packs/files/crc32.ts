/** The sum that a zip keeps of each file (CRC-32 of ISO 3309; "123456789" gives cbf43926). */

const POLYNOMIAL = 0xedb88320

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte
  for (let bit = 0; bit < 8; bit++) rest = (rest & 1) === 1 ? (rest >>> 1) ^ POLYNOMIAL : rest >>> 1
  return rest
})

/** As a whole number from 0. */
export function crc32(bytes: Uint8Array): number {
  let sum = 0xffffffff
  for (const byte of bytes) sum = (sum >>> 8) ^ (TABLE[(sum ^ byte) & 0xff] ?? 0)
  return (sum ^ 0xffffffff) >>> 0
}
