/** A pack as the runner knows it: phases with their flows and lists. Checked; see `packs/` for how it is read. */

import type { Condition } from '../figures/condition.ts'
import type { FigureModel } from '../figures/pack.ts'
import type { KindSpec } from '../kinds/kind.ts'
import type { PartStates } from '../response/model.ts'
import type { Response } from '../response/response.ts'
import type { Interlock } from './condition.ts'
import type { Briefing, Exchange } from './exchange.ts'
import type { GradingList } from './grading.ts'
import type { Paper } from './paper.ts'

export interface SituationOption {
  readonly value: string
  readonly label: string
  /** Ways to say that it is so now. */
  readonly say: Response
}

export interface Situation {
  readonly name: string
  readonly label: string
  readonly options: readonly SituationOption[]
  readonly initial: string
}

/** One way an item may have to be answered; the first whose condition holds counts. */
export interface ResponseCase {
  readonly when?: Condition
  readonly response: Response
}

export interface Item {
  readonly type: 'item'
  /** Stable: `<list id>.<item id>`. */
  readonly id: string
  readonly challenge: string
  readonly responses: readonly ResponseCase[]
  readonly states?: readonly (readonly string[])[]
  /** The same by the tags of the parts that they belong to. */
  readonly partStates?: PartStates
  /** `both`: the pilot first, then Otherseat says the same. */
  readonly answers: 'pilot' | 'both'
  readonly when?: Condition
  /** What to look at before answering; never a value. */
  readonly look?: readonly string[]
  /** Figures it rests on besides those in its response. */
  readonly restsOn: readonly string[]
  readonly caution?: string
  readonly interlocks?: readonly Interlock[]
  readonly critical: boolean
  /** Said from memory: its challenge is neither spoken nor shown before. */
  readonly memory?: boolean
  /** "Not applicable" closes it. */
  readonly optional?: boolean
  /** The answer sets a situation, and is no more than that. */
  readonly decides?: Decision
}

/** A question of which the answer says what comes next. */
export interface Decision {
  readonly situation: string
  /** The options that "yes" and "no" mean, where they mean one. */
  readonly yes?: string
  readonly no?: string
}

/** What stands in a list to be read, and is never asked. */
export interface Note {
  readonly type: 'note' | 'heading'
  readonly text: string
  /** How many entries of the list stand before it. */
  readonly place: number
  readonly when?: Condition
}

/** Where a list stops until a clearance is in. */
export interface Line {
  readonly type: 'line'
  readonly id: string
  /** Name of the clearance: `push`. */
  readonly clearance: string
  readonly when?: Condition
  /** "cleared to push", as shown and spoken. */
  readonly label: string
  /** Ways in which the pilot says that it is in. */
  readonly say: Response
}

export interface List {
  readonly type: 'list'
  readonly id: string
  readonly name: string
  /** Other names it is called by. */
  readonly alsoCalled: readonly string[]
  readonly entries: readonly (Item | Line)[]
  readonly notes?: readonly Note[]
  readonly when?: Condition
  /** Never due: it is called wherever the run is, and the run goes on there: engine fire, rejected takeoff. */
  readonly anytime?: boolean
  /** Asks "final figures in?" before it starts on preliminary ones. */
  readonly needsFinal: boolean
  readonly caution?: string
}

export interface Step {
  /** Stable: `<flow id>.<step id>`. */
  readonly id: string
  readonly text: string
  /** What it is called when it is to be done again: "trim". */
  readonly short?: string
  /** Ways to tick it by voice. */
  readonly say?: Response
  readonly interlocks?: readonly Interlock[]
  /** Figures this step sets: a change of one reopens the step before the item that says it. */
  readonly sets: readonly string[]
  readonly when?: Condition
  readonly caution?: string
}

/** Steps done from memory before a list is called. */
export interface Flow {
  readonly type: 'flow'
  readonly id: string
  readonly name: string
  readonly steps: readonly Step[]
  /** Left to memory: shown with its phase, never announced and not waited for. */
  readonly silent?: boolean
  readonly when?: Condition
  readonly caution?: string
}

/** One call that the crew makes while it watches: "light off", "oil pressure". */
export interface WatchCall {
  readonly id: string
  readonly label: string
  /** Ways to say it; `<value>` in them where a value is read out with it. */
  readonly say: Response
  /** Seconds before which it cannot have been seen. */
  readonly notBefore?: number
  /** Seconds by which it must be heard. */
  readonly within?: number
  /** Where these run from: `begin` or an earlier call; the call before where it is not said. */
  readonly after?: string
  /** Calls beside one another with the same name come in any order, but none before the one that its `after` names. */
  readonly group?: string
  readonly value?: CallValue
  /** What Otherseat calls once it was heard: "rotate". */
  readonly reply?: string
  readonly when?: Condition
}

/** What is read out with a call, and between which limits it is right: of the two at least one. */
export interface CallValue {
  readonly spec: KindSpec
  readonly min?: number
  readonly max?: number
  /** Figures that are the limits; the numbers are theirs while they have values. */
  readonly named?: { readonly min?: string; readonly max?: string }
  /** As it is asked for: "speed". */
  readonly label?: string
  /** Said at once where it lies outside: with fuel on below its speed nothing is asked first. */
  readonly stopWords?: string
  /** Two earlier calls: the value is the difference of theirs. */
  readonly between?: readonly [string, string]
}

/** A call that ends a watch at once. */
export interface Abnormal {
  readonly id: string
  readonly label: string
  readonly say: Response
  /** Said at once, whatever else is going on. */
  readonly stopWords: string
  readonly actions: readonly string[]
  /** Time that must pass before it may begin again, and what is said until then. */
  readonly again?: Pause
}

/** A time that must pass, and what is to be done in it. */
export interface Pause {
  readonly seconds: number
  readonly say: string
}

/** How often the starter may be used before it has to cool. */
export interface Attempts {
  readonly most: number
  /** After each attempt that was stopped. */
  readonly rest?: Pause
  /** After the last that is allowed. */
  readonly cool: Pause
}

/** A timed sequence that the crew monitors and calls out. It times; it never guesses what instruments show. */
export interface Watch {
  readonly type: 'watch'
  readonly id: string
  readonly name: string
  /** Words that begin it, and its time. */
  readonly begins: Response
  /** What the hands do until its last call: "hand stays on the selector until stable". */
  readonly hold?: string
  readonly calls: readonly WatchCall[]
  readonly abnormal: readonly Abnormal[]
  /** Said where a limit passes and no call was heard. */
  readonly stopWords: string
  readonly attempts?: Attempts
  readonly interlocks?: readonly Interlock[]
  readonly when?: Condition
  readonly caution?: string
}

/** Something that this simulator is known to show wrongly; said when a remark names it. */
export interface Quirk {
  readonly named: readonly string[]
  readonly say: string
}

export type Activity = Flow | List | Watch | Exchange | Briefing

export interface Phase {
  readonly id: string
  readonly name: string
  readonly activities: readonly Activity[]
}

export interface Pack {
  readonly id: string
  readonly version: string
  /** Of the pack's texts, hexadecimal. */
  readonly sha256: string
  /** The texts it was read from, by file name: a run's log carries them, so that it can be replayed anywhere. */
  readonly texts: Readonly<Record<string, string>>
  readonly name: string
  readonly aircraft: string
  readonly operator: string
  /** Shown on the start screen and with the pack. */
  readonly caution: string
  /** Words that no dictionary has -> their sounds, in ARPAbet without stress. */
  readonly pronunciations?: Readonly<Record<string, string>>
  readonly figures: FigureModel
  readonly situations: readonly Situation[]
  readonly quirks?: readonly Quirk[]
  /** What the crew reads in the cockpit. */
  readonly papers: readonly Paper[]
  readonly phases: readonly Phase[]
  /** By what an instructor grades; left out: by the list that comes with Otherseat. */
  readonly grading?: GradingList
}
