/** What people say beside answers: sentences of books in the public domain, and of cockpits, for rejection and babble. */

export const NARRATION: readonly string[] = [
  'four score and seven years ago our fathers brought forth on this continent a new nation',
  'now we are engaged in a great civil war',
  'it was the best of times it was the worst of times',
  'call me ishmael',
  'having little or no money in my purse',
  'i thought i would sail about a little and see the watery part of the world',
  'all happy families are alike',
  'once or twice she had peeped into the book',
  'but it had no pictures or conversations in it',
  'it is a truth universally acknowledged',
  'let me have a look at the map',
  'what is that light over there',
]
