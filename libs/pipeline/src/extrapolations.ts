// Where a setup comes to the edge of what the models hold for, in words: blades near their stall standing still, air that
// no longer flows as if it could not be compressed, rotor tips beyond the fan model, cells below their cut-off.
import type { SetupFigures } from '@ductwright/contract/result'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import { TIP_MACH_LIMIT } from '@ductwright/models/evaluation/limits'
import { DE_HALLER_WARNING, standingDeHaller } from '@ductwright/models/fan/diffusion'

/** Flight Mach number above which drag and fan are extrapolated. Assumed: compressibility is negligible below. */
const MACH_WARNING = 0.4

/** A setup that is shown, with its figures. */
export interface Shown {
  readonly parts: Parts
  readonly figures: SetupFigures
}

/** Warnings about any of the setups; `soundSpeed` in m/s. */
export function extrapolationWarnings(shown: readonly Shown[], soundSpeed: number): string[] {
  const some = shown.length === 1 ? 'This setup' : 'Some setups'
  const uses = shown.length === 1 ? 'uses' : 'use'
  const flies = shown.length === 1 ? 'flies' : 'fly'
  const warnings: string[] = []
  if (shown.some(({ parts }) => standingDeHaller(parts.node.duct) < DE_HALLER_WARNING)) {
    warnings.push(
      `${some} ${uses} a nozzle so tight that the fan blades work near their stall standing still; listen for a rough tone on the bench.`,
    )
  }
  if (shown.some(({ figures }) => figures.speed_fastest_km_h / 3.6 > MACH_WARNING * soundSpeed)) {
    warnings.push(`${some} ${flies} above Mach ${MACH_WARNING}, where the drag and fan models are extrapolated.`)
  }
  if (shown.some(({ figures }) => Math.max(figures.standing.tip_mach, figures.top_full.tip_mach) > TIP_MACH_LIMIT)) {
    warnings.push(
      `${some} ${uses} rotor tips above Mach ${TIP_MACH_LIMIT}, where the fan model ends: treat its figures as guesses.`,
    )
  }
  if (shown.some(({ figures }) => figures.limits.some(({ limit, used }) => limit === 'cell-voltage' && used > 1))) {
    warnings.push(
      `${some} would pull cells below 3.2 V on the last pass: land earlier, or the controller cuts off in the air.`,
    )
  }
  return warnings
}
