// One setup to be worked through on its own: what `evaluate` reads and what it answers.
import type { SetupChoice, SweepRequest } from './request.js'
import type { AirFigures, AirframeFigures, PurchaseLine, SetupFigures, SetupStudy } from './result.js'

/** A setup with the circumstances it is flown in; SI, every default filled in. */
export interface SetupRequest {
  readonly title: string
  readonly airframe: SweepRequest['airframe']
  readonly setup: SetupChoice
  readonly treatments: SweepRequest['treatments']
  /** Speed the study gives odds for, m/s; null: none. */
  readonly target: number | null
  readonly mass: SweepRequest['mass']
  readonly field: SweepRequest['field']
  readonly profile: SweepRequest['profile']
  readonly run: SweepRequest['run']
  readonly limits: SweepRequest['limits']
  readonly owned: SweepRequest['owned']
  /** State of charge at which speed is quoted. */
  readonly charge: number
}

export interface SetupReport {
  readonly format: 'ductwright-setup/1'
  readonly model_version: string
  readonly catalogue: {
    readonly name: string
    readonly version: string
    readonly currency: string
    readonly dated: string
  }
  readonly understood: SetupRequest
  readonly airframe: AirframeFigures
  readonly air: AirFigures
  /** Why it cannot be built or flown at all; empty when it can. Each with a sentence. */
  readonly refused: readonly { readonly rule: string; readonly words: string }[]
  /** null when refused. */
  readonly figures: SetupFigures | null
  readonly study: SetupStudy | null
  readonly shopping: readonly PurchaseLine[]
  readonly cost: number
  readonly replacement_cost: number
  readonly names: Readonly<Record<string, string>>
  readonly assumptions: readonly string[]
  readonly cautions: readonly string[]
}
