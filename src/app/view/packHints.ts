/** What may be written at the cursor of the editor, and what a word in it means. */

export { type Hint, helpAt as helpInPack, hintsAt as hintsInPack } from '../../packs/hints/hints.ts'
