// Whole evaluations of random believable setups: every balance closes, every outcome has a name, and the quick evaluator
// of a sweep says the same as the thorough one that explains a setup.
import { Evaluator } from '@ductwright/models/evaluation/evaluator'
import { NEAR_SHARES } from '@ductwright/models/evaluation/limit-judge'
import { DUTYLESS_LIMITS, LIMIT_INDEX, LIMITS, RISING_LIMITS } from '@ductwright/models/evaluation/limits'
import type { PointDetail } from '@ductwright/models/evaluation/point-detail'
import { dutyForSpeed, highestDuty, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  airframeOf,
  type BelievableSetup,
  believableSetups,
  circumstancesOf,
  escOf,
  fanOf,
  motorOf,
  packOf,
  setupOf,
} from './believable-parts.js'

const duties = fc.double({ min: 0.5, max: 1, noNaN: true })

function thorough({ circumstances, parts }: BelievableSetup, duty: number): Evaluator {
  const evaluator = new Evaluator(circumstances, { thorough: true })
  evaluator.assemble(parts)
  evaluator.evaluate(duty)
  return evaluator
}

function finite(value: unknown): boolean {
  if (typeof value === 'number') return Number.isFinite(value)
  return typeof value !== 'object' || value === null || Object.values(value).every(finite)
}

describe('random believable setups', () => {
  it('have a full finite detail whose balances close to 1e-6, or a named refusal', () => {
    let detailed = 0
    fc.assert(
      fc.property(believableSetups, duties, (setup, duty) => {
        const detail = setupDetail(setup.circumstances, setup.parts, duty)
        if ('refused' in detail) {
          expect(LIMITS).toContain(detail.refused)
          expect(detail.refused).not.toBe('convergence')
          return
        }
        detailed++
        const { limits, takeOffRoll, ...rest } = detail
        // A roll without end is the one figure that may be infinite: the thrust does not overcome friction.
        expect(takeOffRoll).not.toBeNaN()
        expect(limits.every(({ used }) => !Number.isNaN(used))).toBe(true)
        expect(finite(rest)).toBe(true)
        const points = [detail.standing, detail.topFull, detail.top, detail.cruise]
        for (const point of points) balances(point)
      }),
      { numRuns: 300 },
    )
    expect(detailed).toBeGreaterThan(200)
  })

  it('fly slower with more drag, more mass or more resistance, and standing thrust falls in thin air', () => {
    fc.assert(
      fc.property(believableSetups, (setup) => {
        const before = thorough(setup, 1)
        fc.pre(before.limits.used.every(Number.isFinite))
        const { circumstances, parts } = setup
        const speedOf = (changed: BelievableSetup) => thorough(changed, 1).top.speed
        const draggy = {
          ...circumstances,
          airframe: { ...circumstances.airframe, dragArea: 1.1 * circumstances.airframe.dragArea },
        }
        expect(speedOf({ ...setup, circumstances: draggy })).toBeLessThan(before.top.speed)
        const heavy = { ...circumstances, mass: { limit: 99, fixed: 1.1 * before.mass } }
        expect(speedOf({ ...setup, circumstances: heavy })).toBeLessThan(before.top.speed)
        const lossy = { ...parts, motor: { ...parts.motor, resistance: 1.1 * parts.motor.resistance } }
        expect(speedOf({ ...setup, parts: lossy })).toBeLessThan(before.top.speed)
      }),
      { numRuns: 60 },
    )
  })
})

function balances(point: PointDetail): void {
  expect(point.residual).toBeLessThan(1e-6)
  if (point.speed > 0) expect(Math.abs(point.thrust / point.drag - 1)).toBeLessThan(1e-6)
  const spent = point.shaftPower + point.motorLoss + point.escLoss
  expect(Math.abs(point.packPower / spent - 1)).toBeLessThan(1e-6)
  expect(point.motorLoss).toBeGreaterThan(0)
  expect(point.escLoss).toBeGreaterThan(0)
  expect(point.propulsiveEfficiency).toBeLessThanOrEqual(point.froudeEfficiency)
  expect(point.motorEfficiency).toBeGreaterThan(0)
  expect(point.motorEfficiency).toBeLessThan(1)
}

describe('limits', () => {
  // Half a per cent is the finest step a request can sweep in; nearer to full throttle the switching that ends there shows.
  const lower = fc.double({ min: 0.5, max: 0.995, noNaN: true })
  const steps = fc.double({ min: 0.005, max: 0.3, noNaN: true })
  it.each(RISING_LIMITS)('%s only rises with duty', (limit) => {
    const index = LIMIT_INDEX[limit]
    fc.assert(
      fc.property(believableSetups, lower, steps, (setup, duty, step) => {
        const timed = { ...setup.circumstances, limits: { ...setup.circumstances.limits, flightTime: 200 } }
        const used = (d: number) => {
          const { limits } = thorough({ ...setup, circumstances: timed }, d)
          return limits.used.includes(Number.POSITIVE_INFINITY) ? null : (limits.used[index] as number)
        }
        const low = used(duty)
        const high = used(Math.min(1, duty + step))
        fc.pre(low !== null && high !== null)
        expect(high).toBeGreaterThanOrEqual((low ?? 0) * (1 - 1e-9))
      }),
      { numRuns: 150 },
    )
  })

  it.each(DUTYLESS_LIMITS)('%s does not depend on duty', (limit) => {
    const index = LIMIT_INDEX[limit]
    fc.assert(
      fc.property(believableSetups, duties, duties, (setup, a, b) => {
        expect(thorough(setup, a).limits.used[index]).toBe(thorough(setup, b).limits.used[index])
      }),
      { numRuns: 30 },
    )
  })

  it('the quick evaluator ends with the first limit that the thorough one finds broken', () => {
    const floors = fc.double({ min: 0, max: 120, noNaN: true })
    fc.assert(
      fc.property(believableSetups, duties, floors, (setup, duty, speedFloor) => {
        const limits = { ...setup.circumstances.limits, speedFloor, headroom: 0.1 }
        const circumstances = { ...setup.circumstances, limits }
        const full = thorough({ ...setup, circumstances }, duty).limits
        const quick = new Evaluator(circumstances)
        const finished = quick.assemble(setup.parts) && quick.evaluate(duty)
        expect(quick.limits.broken).toBe(full.broken)
        const shares = LIMITS.map((_, i) => (full.used[i] as number) / (full.allowed[i] as number))
        const over = LIMITS.map((_, i) => i).filter((i) => !((shares[i] as number) <= 1))
        const near = over.every((i) => (shares[i] as number) <= 1 + (NEAR_SHARES[i] as number))
        // It goes to the end exactly for what holds, and for one rating broken by little or one wish.
        expect(finished).toBe(over.length === 0 || (over.length === 1 && near))
        if (full.broken >= 0) expect(shares.findIndex((share) => !(share <= 1))).toBeGreaterThanOrEqual(0)
      }),
      { numRuns: 300 },
    )
  })
})

describe('duties solved for one setup', () => {
  const circumstances = circumstancesOf(airframeOf())
  const setup = setupOf(circumstances, fanOf(0.09), motorOf(1080, 0.33), escOf(125), packOf(10, 5))

  it('the highest duty holds every limit, and a little more breaks the one it names', () => {
    const found = highestDuty(circumstances, setup.parts, 0.6)
    expect(found?.stopper).toBe('esc-current')
    const duty = found?.duty ?? 0
    expect(duty).toBeLessThan(1)
    expect(thorough(setup, duty).limits.broken).toBe(-1)
    expect(LIMITS[thorough(setup, duty + 2e-4).limits.broken]).toBe('esc-current')
  })

  it('is full throttle when nothing stops it, and null when the duty to start from breaks a limit', () => {
    const roomy = { ...setup.parts, esc: escOf(280), motor: { ...motorOf(1000, 0.45), powerLimit: 9000 } }
    expect(highestDuty(circumstances, roomy, 0.6)).toEqual({ duty: 1, stopper: null })
    expect(highestDuty(circumstances, setup.parts, 1)).toBeNull()
  })

  it('the duty for a speed reaches it and no less does; beyond reach it is null', () => {
    const top = thorough(setup, 1).speed
    const duty = dutyForSpeed(circumstances, setup.parts, 0.9 * top) ?? 0
    expect(thorough(setup, duty).speed).toBeGreaterThanOrEqual(0.9 * top)
    expect(thorough(setup, duty - 2e-4).speed).toBeLessThan(0.9 * top)
    expect(dutyForSpeed(circumstances, setup.parts, 1.01 * top)).toBeNull()
  })

  it('refuses to evaluate before parts are assembled', () => {
    expect(() => new Evaluator(circumstances).evaluate(1)).toThrow(/assembled/)
    expect(() => new Evaluator(circumstances).evaluate(1)).toThrow(RangeError)
  })
})
