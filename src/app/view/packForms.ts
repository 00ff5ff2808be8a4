/** The forms of a pack's file, as one chunk: none is loaded before a file is opened. */

export { type ThingChange, withField, withGroup, withThing, withTop } from '../../packs/forms/change.ts'
export { type Demands, demandsText, demandsTyped } from '../../packs/forms/conditionText.ts'
export { edited } from '../../packs/forms/edits.ts'
export { type Field, type FieldValue, type Form, type FormView, formAt } from '../../packs/forms/form.ts'
export { cellValue, type Grid, type GridCell, narrowed, pastedInto, widened } from '../../packs/forms/grid.ts'
export { type OpenQuestion, questionAfter, questionsIn, settled } from '../../packs/forms/questions.ts'
export { besideOf, topOf } from '../../packs/forms/things.ts'
export { numberTyped } from '../../packs/forms/typed.ts'
