/**
 * How large things may be that people hand in. Each is far above what any pack or sheet has needed, and low enough
 * that whatever stays below it is read and checked within a second.
 */

/** Of one file of a pack or one sheet; the largest of the demo packs has 30,000. */
export const MOST_CHARACTERS = 300_000
/** Entries of one list or one set of names. */
export const MOST_ENTRIES = 2_000
/** Lists and sets of names inside one another; packs have 12. */
export const DEEPEST = 24
/** Letters of one text: a caution, a response. */
export const LONGEST_TEXT = 1_000
/** Letters of a value in a sheet, and of a constant. */
export const LONGEST_VALUE = 100
/** Ways through the figures of one response, and ways to say one phrase of it: further ones are not unfolded, and refused. */
export const MOST_PATHS = 64
export const MOST_WORDINGS = 200
/** Parts into which situations are cut to find one that no case answers for. */
export const MOST_PARTS = 1_000
/** Files in the folder of a pack, and in its `inputs/`. */
export const MOST_FILES = 50
/** Bytes of one file of a pack: UTF-8 takes at most four for a character. */
export const MOST_FILE_BYTES = 4 * MOST_CHARACTERS
/** Bytes of all files of a pack together, and of a zip that holds one; the larger demo pack has 76,000 and 20,000. */
export const MOST_PACK_BYTES = 4_000_000
/** Entries of a zip, and files of a folder, that are looked at to find a pack among them. */
export const MOST_OFFERED = 500
/** Letters of the name of a file with the folders around it. */
export const LONGEST_PATH = 240

/** Either side of zero; no weight, moment, distance or time of an aircraft comes near it. */
export const LARGEST_NUMBER = 1e12
/** Of what must be more than nothing: a step, a chord, a number of seconds. */
export const SMALLEST_POSITIVE = 1e-6

/** Problems that are looked for in one file: to find the place and the name meant for each of thousands takes seconds. */
export const MOST_COLLECTED = 100
/** Problems that are told at once; who has more has one cause for many. */
export const MOST_TOLD = 50
/** Names of one kind that are told one by one: keys that are not known, rows that name nothing. */
export const MOST_NAMED = 5

/** Bytes of the log of one run; a long departure with all its voices has 400,000. */
export const MOST_LOG_BYTES = 16_000_000
/** Runs in one archive, its files with the sounds among them (a zip counts up to 65,535), its bytes, and all that it unpacks to. */
export const MOST_RUNS = 20_000
export const MOST_ARCHIVE_FILES = 60_000
export const MOST_ARCHIVE_BYTES = 512_000_000
export const MOST_UNPACKED_BYTES = 4_000_000_000
/** Bytes of one sound, half a minute; the ear ends an utterance after 12 s. */
export const MOST_SOUND_BYTES = 1_000_000
/** Letters of a run's id; the app's own have 36. */
export const LONGEST_RUN_ID = 100
