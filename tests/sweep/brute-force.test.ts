// Sweeps against an independent brute force: same counts, same front, same shopping; and fixtures of faults once found.
import { parseRequest } from '@ductwright/contract/parse-request'
import { setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { evaluateShard, workThroughShard } from '@ductwright/models/sweep/evaluate-shard'
import { type PlanNode, type PlanUnit, partsOf, planSweep } from '@ductwright/models/sweep/plan'
import type { SweepProblem } from '@ductwright/models/sweep/problem'
import { splitPlan } from '@ductwright/models/sweep/shards'
import { combinationOf } from '@ductwright/pipeline/member-of'
import { type Prepared, prepare } from '@ductwright/pipeline/prepare'
import { describe, expect, it } from 'vitest'
import { airframeOf, circumstancesOf, escOf, fanOf, motorOf, packOf } from '../models/believable-parts.js'
import { bruteForce } from './brute-force.js'
import { quiet, randomSweep } from './random-sweeps.js'

function swept({ problem, plan }: Prepared, evaluate = evaluateShard) {
  const [range] = splitPlan(plan, 1)
  if (range === undefined) throw new Error('no shard')
  return evaluate(problem, plan, range, quiet)
}

function agrees(prepared: Prepared, owned: ReadonlyMap<string, number> = new Map()): number {
  const brute = bruteForce(prepared, owned)
  const front = swept(prepared)
  const worked = swept(prepared, workThroughShard)
  expect(worked.members).toEqual(front.members)
  expect({ raw: prepared.plan.raw, compatible: prepared.plan.compatible, feasible: worked.feasible }).toEqual({
    raw: brute.raw,
    compatible: brute.compatible,
    feasible: brute.feasible,
  })
  const members = front.members.map(({ number, raw }) => {
    const { setup, lines } = combinationOf(prepared, number)
    const { fan, motor, esc, pack, timing_deg, arrangement, nozzle_ratio, duty } = setup
    return {
      key: [fan, motor, esc, pack, timing_deg, arrangement, nozzle_ratio, duty].join(' '),
      cost: raw.cost,
      bought: lines
        .filter(({ buy }) => buy > 0)
        .map(({ id }) => id)
        .sort(),
    }
  })
  const byKey = (a: { key: string }, b: { key: string }) => (a.key < b.key ? -1 : 1)
  const expected = brute.front.map(({ key, cost, bought }) => ({ key, cost: expect.closeTo(cost, 6), bought }))
  expect(members.sort(byKey)).toEqual([...expected].sort(byKey))
  return members.length
}

describe('an independent brute force', () => {
  it('finds the same counts, front and shopping on 40 random sweeps', () => {
    const small = Array.from({ length: 120 }, (_, i) => randomSweep(1000 + i).prepared).filter(
      ({ plan }) => plan.compatible > 0 && plan.compatible < 2500 && plan.raw < 40_000,
    )
    expect(small.length).toBeGreaterThan(40)
    const sizes = small.slice(0, 40).map((prepared) => agrees(prepared))
    expect(sizes.filter((size) => size > 0).length).toBeGreaterThan(12)
  })

  it('also with parts that are owned already, one of two packs among them', () => {
    let tried = 0
    for (let seed = 2000; tried < 8 && seed < 2080; seed++) {
      const { catalogue, request, prepared } = randomSweep(seed)
      if (prepared.plan.compatible === 0 || prepared.plan.compatible > 2500 || prepared.plan.raw > 40_000) continue
      if (swept(prepared).feasible === 0) continue
      const ids = [catalogue.fans[1], catalogue.escs[0], catalogue.packs[0]].map((each) => each?.part.id ?? '')
      const set = catalogue.sets[0]
      const owned = [...ids.map((id) => ({ id, count: 1 })), ...(set ? [{ id: set.motorId, count: 1 }] : [])]
      agrees(
        prepare(parseRequest({ ...request, owned }), catalogue),
        new Map(owned.map(({ id, count }) => [id, count])),
      )
      tried++
    }
    expect(tried).toBe(8)
  })
})

describe('faults once found', () => {
  const single = (
    changes: Partial<SweepProblem['candidates']>,
    circumstances: SweepProblem['circumstances'],
  ): SweepProblem => ({
    circumstances,
    candidates: {
      fans: [fanOf(0.09)],
      motors: [motorOf(1080, 0.4)],
      escs: [escOf(200)],
      packs: [packOf(10, 5)],
      arrangements: ['single'],
      nozzleRatios: [0.88],
      duties: [1],
      pairCost: [200],
      pairMass: [0.6],
      escCost: [150],
      escMass: [0.2],
      packCost: [120, 240],
      fixedCost: 0,
      ...changes,
    },
    comparison: {
      resolution: { speed: 0, time: 0, cost: 0, margin: 0 },
      wantedTime: Number.POSITIVE_INFINITY,
      wantedMargin: Number.POSITIVE_INFINITY,
      targetSpeed: 60,
    },
  })
  const both = (problem: SweepProblem) => {
    const plan = planSweep(problem)
    const [range] = splitPlan(plan, 1)
    if (range === undefined) throw new Error('no shard')
    return [evaluateShard, workThroughShard].map((evaluate) => evaluate(problem, plan, range, quiet))
  }

  it('a diode controller that overheats at part throttle only keeps its full throttle', () => {
    const hot = escOf(200, {
      freewheelDrop: 1.2,
      deadTimeDrop: 0,
      freewheelResistanceShare: 0.5,
      switchingTime: 600e-9,
      switchingFrequency: 32e3,
      boardTemperatureLimit: 273.15 + 133,
    })
    const circumstances = circumstancesOf(airframeOf())
    const strong = {
      fans: [fanOf(0.09, { tipSpeedLimit: 230 })],
      motors: [{ ...motorOf(1080, 0.4), powerLimit: 9000 }],
    }
    const [quick, full] = both(single({ ...strong, escs: [hot], duties: [0.8, 0.9, 1] }, circumstances))
    expect(full?.feasible).toBe(1)
    expect(quick?.members).toEqual(full?.members)
    expect(quick?.feasible).toBe(1)
  })

  it('a setup too weak to accelerate from its entry keeps its entry speed, and ends no shard', () => {
    const airframe = airframeOf({ dragArea: 0.02, wingArea: 0.4, takeOffMassLimit: 12 })
    const { limits, profile } = circumstancesOf(airframe)
    const slow = circumstancesOf(airframe, {
      speedBasis: 'in-run',
      mass: { limit: 12, fixed: 7.6 },
      limits: { ...limits, stallSpeed: 40, thrustToWeight: 0 },
      profile: { ...profile, cruiseSpeed: 5, flightTime: 60, loadFactor: 2 },
      runway: 3000,
    })
    const weak = single({ duties: [0.54, 0.7] }, slow)
    const [quick, full] = both(weak)
    expect(full?.feasible).toBeGreaterThan(0)
    expect(quick?.members).toEqual(full?.members)
    // 60 % of its steady speed, where drag exceeds thrust.
    const plan = planSweep(weak)
    const parts = partsOf(weak, plan.nodes[0] as PlanNode, plan.units[0] as PlanUnit)
    const detail = setupDetail(slow, parts, 0.54)
    if ('refused' in detail) throw new Error(detail.refused)
    expect(full?.members.some(({ raw }) => raw.speed === 0.6 * detail.top.speed)).toBe(true)
    expect(detail.inRunSpeed).toBe(0.6 * detail.top.speed)
  })

  it('full throttle that flies longer than just below it, since nothing switches there, is found', () => {
    const slow = escOf(280, { switchingTime: 800e-9, switchingFrequency: 32e3 })
    const strong = { escs: [slow], motors: [{ ...motorOf(900, 0.5), powerLimit: 9000 }], duties: [0.9999, 1] }
    const circumstances = circumstancesOf(airframeOf())
    const problem = single(strong, circumstances)
    const plan = planSweep(problem)
    const parts = partsOf(problem, plan.nodes[0] as PlanNode, plan.units[0] as PlanUnit)
    const [below, full] = strong.duties.map((duty) => {
      const detail = setupDetail(circumstances, parts, duty)
      if ('refused' in detail) throw new Error(detail.refused)
      return detail.flightTime
    }) as [number, number]
    expect(full).toBeGreaterThan(below)
    const limits = { ...circumstances.limits, flightTime: 0.5 * (below + full) }
    const [quick, worked] = both(single(strong, { ...circumstances, limits }))
    expect(worked?.members).toHaveLength(1)
    expect(quick?.members).toEqual(worked?.members)
  })

  it('a floor below the speed of least drag turns nothing away', () => {
    const airframe = airframeOf({ wingArea: 0.26, takeOffMassLimit: 12, rootMomentUltimate: 400 })
    const { limits, profile } = circumstancesOf(airframe)
    const heavy = circumstancesOf(airframe, {
      mass: { limit: 12, fixed: 9 },
      limits: { ...limits, stallSpeed: 60, thrustToWeight: 0, speedFloor: 9 },
      profile: { ...profile, cruiseSpeed: 5, flightTime: 60, loadFactor: 2 },
      runway: 3000,
    })
    const [quick, full] = both(single({ duties: [0.6, 0.7, 0.8] }, heavy))
    expect(full?.feasible).toBeGreaterThan(0)
    expect(quick?.members).toEqual(full?.members)
  })
})
