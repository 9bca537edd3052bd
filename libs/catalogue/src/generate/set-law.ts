// Sets of a fan with a fitted motor: a little cheaper than the two bought apart, now and then a little dearer, and with a
// few grams of balancing weight. Assumed: the size of discount and extra mass.
import type { setColumns } from '../rows/set-row.js'
import type { FanCells } from './fan-law.js'
import type { MotorCells } from './motor-law.js'
import { type Row, slug } from './plan.js'
import { RandomStream } from './random.js'
import { toPrice } from './rounding.js'

export type SetCells = Row<typeof setColumns>

/** Sets for fans spread evenly over the list, each with one of the motors made for its size. */
export function setCells(
  fans: readonly FanCells[],
  motors: readonly MotorCells[],
  wanted: number,
  seed: number,
  currency: string,
): SetCells[] {
  const pairs = fans.flatMap((fan) => {
    const fitting = motors.filter((motor) => madeFor(motor, fan))
    if (fitting.length === 0) return []
    return [{ fan, motor: new RandomStream(seed, `pair ${fan.id}`).pick(fitting) }]
  })
  const count = Math.min(wanted, pairs.length)
  return Array.from({ length: count }, (_, i) => pairs[Math.floor((i * pairs.length) / count)]!).map(({ fan, motor }) =>
    setOf(fan, motor, seed, currency),
  )
}

function madeFor(motor: MotorCells, fan: FanCells): boolean {
  const room = Number(fan.motor_can_limit_mm) - Number(motor.can_diameter_mm)
  return room >= 0 && room <= 3 && motor.shaft_diameter_mm === fan.shaft_bore_mm
}

function setOf(fan: FanCells, motor: MotorCells, seed: number, currency: string): SetCells {
  const random = new RandomStream(seed, `set ${fan.id} ${motor.id}`)
  return {
    id: slug('set', String(fan.name), String(motor.name)),
    maker: fan.maker,
    name: `${fan.name} with ${motor.name}`,
    fan_id: fan.id,
    motor_id: motor.id,
    mass_g: Number(fan.mass_g) + Number(motor.mass_g) + random.whole(3, 9),
    price: toPrice((Number(fan.price) + Number(motor.price)) * random.between(0.84, 1.02)),
    currency,
  }
}
