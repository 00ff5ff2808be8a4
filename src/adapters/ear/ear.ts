/** What an ear is, behind the port `Ear`. */

import type { Vocabulary } from '../../kernel/hearing/hearable.ts'
import type { Clock, EarEvent, EarGate, EarOffer, ListenRequest } from '../../ports.ts'
import type { StoredProfiles } from './device/storedProfiles.ts'

/** One kind of ear. To add one: a file that exports this, and its line in `ears.ts`. */
export interface EarKind {
  /** What the settings say of it; undefined where this browser does not have it. */
  readonly offer: () => Promise<Omit<EarOffer, 'name'> | undefined>
  readonly create: (parts: EarParts) => WayOfHearing
}

/** What the ears may need. */
export interface EarOptions {
  readonly clock: Clock
  /** Absolute address of the folder with the models, with a slash at its end. */
  readonly modelBase: string
  /** What is known of the speaker from one opening to the next. */
  readonly profiles: StoredProfiles
  readonly settings: () => EarSettings
}

export interface EarSettings {
  /** Name of the chosen ear. */
  readonly ear: string
  /** The browser's name of the microphone asked for; empty for the system's. */
  readonly microphone: string
  /** A second model is wanted. */
  readonly secondModel: boolean
  /** The pilot has allowed that sound leaves the device. */
  readonly soundMayLeave: boolean
}

export interface EarParts extends EarOptions {
  readonly asked: () => Asked
  readonly emit: (event: EarEvent) => void
}

/** What is asked of the ears: kept once, by whoever chooses among them (`chooseEar.ts`). Each reads it when it starts. */
export interface Asked {
  readonly vocabulary?: Vocabulary
  readonly request?: ListenRequest
  readonly gate: EarGate
}

/** As the port says; what each call brings is what `asked` says from now on. */
export interface WayOfHearing {
  open(): Promise<void>
  listen(request: ListenRequest): void
  shut(): void
  gate(gate: EarGate): void
  close(): Promise<void>
}
