/** `npm run bench:ear`: the ear on its own corpus, or on recordings of people where the first word is `people`. */

void (process.argv[2] === 'people' ? import('./people.ts') : import('./benchEar.ts'))
