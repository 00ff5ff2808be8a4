/** Hands a text, or bytes, to the browser as a file to save. */

export function saveFile(fileName: string, content: string | Uint8Array): void {
  const type = typeof content === 'string' ? 'text/plain' : 'application/octet-stream'
  const address = URL.createObjectURL(new Blob([content as BlobPart], { type }))
  const link = document.createElement('a')
  link.href = address
  link.download = fileName
  link.click()
  URL.revokeObjectURL(address)
}
