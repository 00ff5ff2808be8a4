/**
 * Where in a zip lies what belongs to a log: beside a single run's, in an archive in a folder with its name.
 * "run/log.jsonl" -> "run/", "runs/0001-marram.jsonl" -> "runs/0001-marram/".
 */
export function besideLog(log: string): string {
  const folder = log.replace(/(^|\/)log\.jsonl$/i, '$1')
  return folder === log ? `${log.replace(/\.jsonl$/i, '')}/` : folder
}
