// What an answer says, apart from how it is worded and how the work went, and whether two answers say different things.
// Names, counts of work, row order and figures finer than the declared resolution are not part of it: a mail that only
// repeats what its reader knows is noise.
import type { SetupChoice } from './request.js'
import type { Member, Result } from './result.js'

/** One listed setup: what it is, what is bought for it, and what it was compared by. */
export interface MeantSetup {
  readonly setup: string
  /** Part ids with the number to buy, in canonical order. */
  readonly buy: string
  /** Speed, flight time, cost, margin as worked out, counted only up to what is wanted. */
  readonly values: readonly number[]
}

export interface Meaning {
  readonly outcome: Result['outcome']
  readonly front: readonly MeantSetup[]
  /** Setups just outside, as told when nothing reaches the target. */
  readonly nearest: readonly string[]
  /** Of speed, flight time, cost and margin; 0: every difference counts. */
  readonly resolution: readonly number[]
}

/** Steps of less than a millionth of a resolution are rounding of binary numbers. */
const SLACK = 1e-6

export function meaningOf(result: Result): Meaning {
  const { speed_km_h, flight_time_s, cost, margin } = result.rules.resolution
  const { flightTime, margin: wanted } = result.understood.wanted
  const caps = result.rules.narrowed ? { time: flightTime, margin: wanted } : { time: Infinity, margin: Infinity }
  return {
    outcome: result.outcome,
    front: result.front.map((member) => meantMember(member, caps)),
    nearest: result.nearest.map(({ setup }) => setupKey(setup)),
    resolution: [speed_km_h, flight_time_s, cost, margin],
  }
}

export function setupKey(setup: SetupChoice): string {
  const { fan, motor, esc, timing_deg, pack, arrangement, nozzle_ratio, duty } = setup
  return [fan, motor, esc, timing_deg, pack, arrangement, nozzle_ratio, duty].join(' ')
}

/** True when a reader of the old answer would learn something from the new one. */
export function changed(old: Meaning, now: Meaning): boolean {
  if (old.outcome !== now.outcome || old.front.length !== now.front.length) return true
  if (old.nearest.join('\n') !== now.nearest.join('\n')) return true
  return now.front.some((setup, at) => differs(old.front[at], setup, now.resolution))
}

function differs(old: MeantSetup | undefined, now: MeantSetup, resolution: readonly number[]): boolean {
  if (old === undefined || old.setup !== now.setup || old.buy !== now.buy) return true
  return now.values.some((value, at) => moved(old.values[at] ?? Number.NaN, value, resolution[at] ?? 0))
}

/** More than the resolution; a value that is no number on one side only has moved. */
function moved(old: number, now: number, resolution: number): boolean {
  if (Object.is(old, now)) return false
  return !(Math.abs(now - old) <= resolution * (1 + SLACK))
}

function meantMember({ setup, shopping, raw }: Member, caps: { time: number; margin: number }): MeantSetup {
  return {
    setup: setupKey(setup),
    buy: shopping
      .filter(({ buy }) => buy > 0)
      .map(({ id, buy }) => `${id} ${buy}`)
      .sort()
      .join(', '),
    values: [raw.speed_km_h, Math.min(raw.flight_time_s, caps.time), raw.cost, Math.min(raw.margin, caps.margin)],
  }
}
