// The ratings of the parts in what a builder can measure, worked back from the share of each that the setup uses: shares
// of currents and of rotation are taken at the higher of standing and flying with a full warm pack, shares of temperature
// are rises above the air.
import type { LimitUse, Result, SetupFigures } from '@ductwright/contract/result'

export interface Rating {
  /** What is rated, in words, such as "speed controller current". */
  readonly words: string
  /** In whole units. */
  readonly value: number
}

export interface PartRatings {
  /** A from the packs at which the first of pack, motor and speed controller is at its rating. */
  readonly current: Rating | null
  readonly rotation: Rating | null
  /** °C */
  readonly motorCase: Rating | null
  readonly controller: Rating | null
  readonly pack: Rating | null
}

export function partRatings(figures: SetupFigures, air: Result['air']): PartRatings {
  const { standing, top_full: flying, temperatures } = figures
  const current = Math.max(standing.pack_current_a, flying.pack_current_a)
  const rotation = Math.max(standing.shaft_rpm, flying.shaft_rpm)
  const heat = (limit: string, peak: number) => hottest(used(figures, limit), peak, air.temperature_c)
  return {
    current: tightest(figures, ['pack-current', 'motor-current', 'motor-power', 'esc-current'], current),
    rotation: tightest(figures, ['motor-speed', 'tip-speed', 'tip-mach', 'esc-speed'], rotation),
    motorCase: heat('magnet-temperature', temperatures.case_c),
    controller: heat('esc-temperature', temperatures.esc_c),
    pack: heat('pack-temperature', temperatures.pack_c),
  }
}

function used(figures: SetupFigures, limit: string): LimitUse | undefined {
  return figures.limits.find((one) => one.limit === limit && one.used > 0)
}

/** The lowest of several ratings; each reading at its rating is the reading now over the share of it that is used. */
function tightest(figures: SetupFigures, limits: readonly string[], reading: number): Rating | null {
  const known = limits.flatMap((limit) => used(figures, limit) ?? [])
  const [most] = known.sort((a, b) => b.used - a.used)
  return most === undefined ? null : { words: most.words, value: whole(reading / most.used) }
}

function hottest(limit: LimitUse | undefined, peak: number, air: number): Rating | null {
  return limit === undefined ? null : { words: limit.words, value: whole(air + (peak - air) / limit.used) }
}

/** Rounded down to what a meter shows; the figures it is worked back from have six digits, which is no reason to lose one. */
function whole(value: number): number {
  return Math.floor(value * (1 + 5e-6))
}
