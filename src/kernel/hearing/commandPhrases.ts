/**
 * The standard phrases the ear listens for: of the ways that `response/commands.ts` understands, those
 * that pilots say most. Each further one makes every other phrase a little harder to hear.
 */

export const COMMAND_PHRASES: readonly string[] = [
  ...['say again', 'stand by', 'wait one', 'continue', 'go on', 'disregard', 'correction'],
  ...['what is left', "what's left", 'go back one', 'go back', 'from the top', 'leave it open', 'leave open'],
  ...['pass', 'not fitted', 'simulator fault', "instructor's word", 'training', 'remark', 'radio check'],
  ...['pass not fitted', 'pass simulator fault', "pass instructor's word", 'pass training', 'affirm', 'negative'],
]
