import type { Response } from './response.ts'

export interface SpokenElement {
  readonly id: string
  readonly response: Response
}
