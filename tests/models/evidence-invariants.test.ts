// What must hold of any setup, whatever its parts: energy followed from the cells to the jet, the sense in which speed,
// thrust and current answer to air, losses and cells, limits towards zero, and no number that is none.
import { STANDARD_GRAVITY, ZERO_CELSIUS } from '@ductwright/models/constants'
import { WARM_MAGNET_TEMPERATURE } from '@ductwright/models/evaluation/assumed-state'
import { Evaluator } from '@ductwright/models/evaluation/evaluator'
import { fanNode } from '@ductwright/models/evaluation/fan-node'
import { LIMITS } from '@ductwright/models/evaluation/limits'
import type { PointDetail } from '@ductwright/models/evaluation/point-detail'
import { setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { annulusArea } from '@ductwright/models/fan/annulus'
import { verticalDiveSpeed } from '@ductwright/models/flight/dive'
import { entrySpeed, runSpeed } from '@ductwright/models/flight/run-speed'
import { fluxFactor } from '@ductwright/models/motor/magnet'
import { phaseMap } from '@ductwright/models/thermal/two-node'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { relativeError } from './authority-table.js'
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

const share = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const duties = share(0.4, 1)

/** A setup worked through whatever it breaks; null when something cannot be worked out at all. */
function worked(setup: BelievableSetup, duty: number): Evaluator | null {
  const evaluator = new Evaluator(setup.circumstances, { thorough: true })
  return evaluator.assemble(setup.parts) && evaluator.evaluate(duty) ? evaluator : null
}

/** The same setup elsewhere: the duct state depends on the air, so it is worked out anew. */
function inAir(setup: BelievableSetup, density: number): BelievableSetup {
  const circumstances = { ...setup.circumstances, density }
  const node = fanNode(circumstances, setup.fan, setup.parts.node.duct.nozzleRatio)
  return { ...setup, circumstances, parts: { ...setup.parts, node } }
}

function withParts(setup: BelievableSetup, parts: Partial<BelievableSetup['parts']>): BelievableSetup {
  return { ...setup, parts: { ...setup.parts, ...parts } }
}

/** Compares a value of two workings through at a duty, where both can be worked out. */
function compare(
  setup: BelievableSetup,
  changed: BelievableSetup,
  duty: number,
  check: (before: Evaluator, after: Evaluator) => void,
): boolean {
  const [before, after] = [worked(setup, duty), worked(changed, duty)]
  if (before === null || after === null) return false
  check(before, after)
  return true
}

describe('energy', () => {
  it('closes at every reported point to 1e-6, and from shaft to jet with every loss of the duct', () => {
    let seen = 0
    fc.assert(
      fc.property(believableSetups, duties, share(0.1, 1), (setup, duty, charge) => {
        const { airframe, density } = setup.circumstances
        const detail = setupDetail({ ...setup.circumstances, charge }, setup.parts, duty)
        if ('refused' in detail) return
        seen++
        const points = [detail.standing, detail.topFull, detail.top, detail.cruise, detail.topLast]
        for (const point of points) if (point !== null) expect(point.residual).toBeLessThan(1e-6)
        const { nozzleRatio, ductLoss } = setup.parts.node.duct
        // Shaft power less the losses of the stage is jet power and what ram and duct lose, per unit of mass.
        const closes = (point: PointDetail, loss: number) => {
          const axial = point.efflux * nozzleRatio
          const flow = density * annulusArea(setup.fan) * axial
          const jet = 0.5 * (point.efflux ** 2 - airframe.ramRecovery * point.speed ** 2)
          const spent = flow * (jet + 0.5 * loss * axial * axial)
          expect(relativeError(point.shaftPower * point.fanEfficiency, spent)).toBeLessThan(1e-6)
          expect(relativeError(flow * (point.efflux - point.speed), point.thrust)).toBeLessThan(1e-9)
        }
        closes(detail.standing, ductLoss + airframe.lipLoss)
        if (detail.top.speed > 0.5 * detail.top.efflux) closes(detail.top, ductLoss)
      }),
      { numRuns: 200 },
    )
    expect(seen).toBeGreaterThan(120)
  })

  it('no more thrust power than 2/(1 + Ve/V) of what the jet takes, and less than all of it', () => {
    fc.assert(
      fc.property(believableSetups, duties, (setup, duty) => {
        const detail = setupDetail(setup.circumstances, setup.parts, duty)
        if ('refused' in detail) return
        for (const point of [detail.topFull, detail.top, detail.cruise]) {
          const bound = 2 / (1 + point.efflux / point.speed)
          expect(point.froudeEfficiency).toBeLessThan(1)
          expect(relativeError(point.froudeEfficiency, bound)).toBeLessThan(1e-12)
          expect(point.propulsiveEfficiency).toBeLessThan(bound)
        }
        expect(detail.standing.froudeEfficiency).toBe(0)
      }),
      { numRuns: 100 },
    )
  })
})

describe('at a fixed duty', () => {
  /** Runs a comparison on random setups and wants it made most times. */
  const always = (
    change: (setup: BelievableSetup) => BelievableSetup,
    check: (before: Evaluator, after: Evaluator) => void,
  ) => {
    let made = 0
    fc.assert(
      fc.property(believableSetups, duties, (setup, duty) => {
        if (compare(setup, change(setup), duty, check)) made++
      }),
      { numRuns: 80 },
    )
    expect(made).toBeGreaterThan(45)
  }

  it('thrust and current standing fall as the air thins, and the shaft turns faster', () => {
    always(
      (setup) => inAir(setup, 0.9 * setup.circumstances.density),
      (before, after) => {
        expect(after.stand.thrust).toBeLessThan(before.stand.thrust)
        expect(after.stand.current).toBeLessThan(before.stand.current)
        expect(after.stand.busCurrent).toBeLessThan(before.stand.busCurrent)
        expect(after.stand.bladeSpeed).toBeGreaterThan(before.stand.bladeSpeed)
      },
    )
  })

  it('speed and thrust fall as the resistance of winding, controller, cells or leads rises', () => {
    const raised: Readonly<Record<string, (parts: BelievableSetup['parts']) => Partial<BelievableSetup['parts']>>> = {
      winding: ({ motor }) => ({ motor: { ...motor, resistance: 1.15 * motor.resistance } }),
      controller: ({ esc }) => ({ esc: { ...esc, resistance: 1.15 * esc.resistance } }),
      cells: ({ source }) => ({ source: { ...source, cellResistance: 1.15 * source.cellResistance } }),
      leads: ({ source }) => ({ source: { ...source, leadResistance: 1.5 * source.leadResistance } }),
    }
    for (const [which, raise] of Object.entries(raised)) {
      always(
        (setup) => withParts(setup, raise(setup.parts)),
        (before, after) => {
          expect(after.top.speed, which).toBeLessThan(before.top.speed)
          expect(after.stand.thrust, which).toBeLessThan(before.stand.thrust)
        },
      )
    }
  })

  it('speed falls as drag area or duct loss rises, or ram recovery falls', () => {
    const changes = [
      (setup: BelievableSetup) => ({ dragArea: 1.05 * setup.circumstances.airframe.dragArea }),
      (setup: BelievableSetup) => ({ ductLoss: setup.circumstances.airframe.ductLoss + 0.05 }),
      (setup: BelievableSetup) => ({ ramRecovery: setup.circumstances.airframe.ramRecovery - 0.05 }),
    ]
    for (const change of changes) {
      always(
        (setup) => {
          const airframe = { ...setup.circumstances.airframe, ...change(setup) }
          const circumstances = { ...setup.circumstances, airframe }
          return inAir({ ...setup, circumstances }, circumstances.density)
        },
        (before, after) => expect(after.top.speed).toBeLessThan(before.top.speed),
      )
    }
  })

  it('without a cap one more cell never slows the shaft, nor takes thrust or speed', () => {
    always(
      (setup) => {
        const { source } = setup.parts
        const more = (source.cells + 1) / source.cells
        // Of the same mass, so that nothing but the cells changes.
        return withParts(setup, {
          source: { ...source, cells: source.cells + 1, cellResistance: more * source.cellResistance },
        })
      },
      (before, after) => {
        for (const point of ['stand', 'topFull', 'top'] as const) {
          expect(after[point].bladeSpeed).toBeGreaterThan(before[point].bladeSpeed)
        }
        expect(after.stand.thrust).toBeGreaterThan(before.stand.thrust)
        expect(after.top.speed).toBeGreaterThan(before.top.speed)
      },
    )
  })
})

describe('towards zero', () => {
  it('without a loss anywhere in the chain the shaft turns at duty times voltage times the speed constant', () => {
    const circumstances = circumstancesOf(airframeOf())
    const idle = { noLoadCurrent: 0, noLoadCurrentSlope: 0, resistance: 1e-12 }
    const esc = { resistance: 1e-12, quiescentPower: 0, proportionalLoss: 0 }
    const ideal = setupOf(circumstances, fanOf(0.09), { ...motorOf(900, 0.33), ...idle }, escOf(160, esc), packOf(8, 5))
    const source = { ...ideal.parts.source, cellResistance: 1e-12, leadResistance: 1e-12 }
    const detail = setupDetail(circumstances, { ...ideal.parts, source }, 1)
    if ('refused' in detail) throw new Error(detail.refused)
    const { standing } = detail
    expect(relativeError(standing.shaftPower, standing.packPower)).toBeLessThan(1e-8)
    expect(standing.motorEfficiency).toBeCloseTo(1, 8)
    const speedConstant = ideal.parts.motor.speedConstant / fluxFactor(WARM_MAGNET_TEMPERATURE)
    expect(relativeError(standing.shaftSpeed, 8 * 4.2 * speedConstant)).toBeLessThan(1e-8)
  })

  it('with hardly any drag the speed nears that at which the efflux is no faster', () => {
    const shares = [5e-3, 5e-4, 5e-5].map((dragArea) => {
      const circumstances = circumstancesOf(airframeOf({ dragArea }), { mass: { limit: 9, fixed: 0.05 } })
      const setup = setupOf(circumstances, fanOf(0.09), motorOf(900, 0.33), escOf(160), packOf(8, 5))
      const detail = setupDetail(circumstances, setup.parts, 1)
      if ('refused' in detail) throw new Error(detail.refused)
      expect(detail.top.speed).toBeLessThan(detail.effluxCeiling)
      return detail.top.speed / detail.top.efflux
    })
    expect(shares).toEqual([...shares].sort((a, b) => a - b))
    expect(shares[2]).toBeGreaterThan(0.99)
  })

  it('a run of no length, a dive of no height and a phase of no time change nothing', () => {
    expect(runSpeed(90, 54, 20, 4.4, 0)).toBeCloseTo(54, 12)
    expect(runSpeed(90, 54, 20, 4.4, 1e-6)).toBeCloseTo(54, 6)
    expect(entrySpeed(90, 0.6, 0, STANDARD_GRAVITY)).toBeCloseTo(54, 12)
    expect(verticalDiveSpeed(94, 60, 0, STANDARD_GRAVITY)).toBeCloseTo(60, 12)
    const path = { innerCapacity: 25, outerCapacity: 127, between: 7, toAir: 2.5 }
    const still = phaseMap(path, { inner: 170, feedback: 0.6, outer: 100, time: 0 })
    expect([still.m11, still.m12, still.m21, still.m22]).toEqual([1, 0, 0, 1].map((each) => expect.closeTo(each, 12)))
    expect([still.v1, still.v2]).toEqual([expect.closeTo(0, 12), expect.closeTo(0, 12)])
  })

  it('a lip, an inlet and a timing without effect give the same setup as none', () => {
    const speedOf = (changes: Parameters<typeof airframeOf>[0]) => {
      const circumstances = circumstancesOf(airframeOf(changes))
      const setup = setupOf(circumstances, fanOf(0.09), motorOf(900, 0.33), escOf(160), packOf(8, 5))
      const detail = setupDetail(circumstances, setup.parts, 1)
      if ('refused' in detail) throw new Error(detail.refused)
      return [detail.top.speed, detail.standing.thrust] as const
    }
    const [speed, thrust] = speedOf({})
    for (const tiny of [{ lipLoss: 1e-12 }, { inletLoss: 1e-12 }, { ductLoss: 0.18 + 1e-12 }]) {
      const [nearSpeed, nearThrust] = speedOf(tiny)
      expect(relativeError(nearSpeed, speed)).toBeLessThan(1e-9)
      expect(relativeError(nearThrust, thrust)).toBeLessThan(1e-9)
    }
  })
})

/** Circumstances far wider than any flight: any air, any charge, any day. */
const extremes = fc.record({
  density: share(0.6, 1.6),
  air: share(-25, 48),
  charge: share(0.02, 1),
  drag: share(0.05, 8),
  mass: share(0.2, 4),
  duty: share(0.1, 1),
})

/** Whether every number inside is finite. */
function finite(value: unknown): boolean {
  if (typeof value === 'number') return Number.isFinite(value)
  return typeof value !== 'object' || value === null || Object.values(value).every(finite)
}

describe('any valid input', () => {
  it('gives finite numbers, and temperatures no lower than the air, or a named refusal', () => {
    let detailed = 0
    fc.assert(
      fc.property(believableSetups, extremes, (setup, extreme) => {
        const { airframe } = setup.circumstances
        const circumstances = {
          ...setup.circumstances,
          airTemperature: ZERO_CELSIUS + extreme.air,
          charge: extreme.charge,
          airframe: { ...airframe, dragArea: extreme.drag * airframe.dragArea },
          mass: { limit: 99, fixed: extreme.mass * 4 },
        }
        const there = inAir({ ...setup, circumstances }, extreme.density)
        const detail = setupDetail(there.circumstances, there.parts, extreme.duty)
        if ('refused' in detail) {
          expect(LIMITS).toContain(detail.refused)
          expect(detail.refused).not.toBe('convergence')
          return
        }
        detailed++
        const { limits, takeOffRoll: _, ...rest } = detail
        expect(finite(rest)).toBe(true)
        expect(limits.every(({ used }) => !Number.isNaN(used))).toBe(true)
        for (const temperature of Object.values(detail.temperatures)) {
          expect(temperature).toBeGreaterThanOrEqual(circumstances.airTemperature - 1e-9)
        }
        for (const point of [detail.standing, detail.topFull, detail.top, detail.cruise]) {
          expect(point.thrust).toBeGreaterThan(0)
          expect(point.motorCurrent).toBeGreaterThan(0)
          expect(point.packVoltage).toBeGreaterThan(0)
        }
      }),
      { numRuns: 400 },
    )
    expect(detailed).toBeGreaterThan(100)
  })
})

describe('a number that is none', () => {
  /** Paths to every number of the parts of a setup. */
  const numbers = (value: object, path: readonly string[] = []): (readonly string[])[] =>
    Object.entries(value).flatMap(([key, child]) => {
      if (typeof child === 'number') return [[...path, key]]
      return typeof child === 'object' && child !== null ? numbers(child, [...path, key]) : []
    })

  const replaced = (value: object, [key = '', ...path]: readonly string[], by: number): object => {
    const child = (value as Record<string, unknown>)[key]
    return { ...value, [key]: path.length === 0 ? by : replaced(child as object, path, by) }
  }

  it('anywhere in the parts is never let through as an objective while every limit is set', () => {
    const standard = circumstancesOf(airframeOf())
    const limits = { ...standard.limits, budget: 900, flightTime: 60, speedFloor: 30 }
    const circumstances = { ...standard, limits }
    const setup = setupOf(circumstances, fanOf(0.09), motorOf(900, 0.33), escOf(160), packOf(8, 5))
    const { node: _, ...loose } = setup.parts
    const places = numbers(loose)
    expect(places.length).toBeGreaterThan(40)
    let refused = 0
    for (const place of places) {
      const parts = { ...replaced(loose, place, Number.NaN), node: setup.parts.node } as BelievableSetup['parts']
      const evaluator = new Evaluator(circumstances)
      const held = evaluator.assemble(parts) && evaluator.evaluate(1) && evaluator.limits.broken < 0
      if (!held) refused++
      else {
        for (const objective of ['speed', 'time', 'cost', 'margin'] as const) {
          expect(evaluator[objective], `${objective} with ${place.join('.')} missing`).not.toBeNaN()
        }
      }
    }
    expect(refused).toBeGreaterThan(15)
  })
})
