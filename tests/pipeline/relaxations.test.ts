// The least that one limit must give: against every combination of random sweeps looked at one by one, and as promises, that a
// request with the value proposed reaches the target and one with a little less does not.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import type { Relaxation, Result } from '@ductwright/contract/result'
import { resultSchema } from '@ductwright/contract/result-schema'
import { Evaluator } from '@ductwright/models/evaluation/evaluator'
import { LIMIT_INDEX } from '@ductwright/models/evaluation/limits'
import { relaxDragArea, withDragArea } from '@ductwright/models/relaxation/drag-relaxation'
import { type Least, type OpenLimit, searchLeast } from '@ductwright/models/relaxation/least-search'
import { workThroughShard } from '@ductwright/models/sweep/evaluate-shard'
import { partsOf } from '@ductwright/models/sweep/plan'
import { splitPlan } from '@ductwright/models/sweep/shards'
import type { Prepared } from '@ductwright/pipeline/prepare'
import { beforeAll, describe, expect, it } from 'vitest'
import { quiet, randomSweep } from '../sweep/random-sweeps.js'
import { answered, prepared, workshop } from './workshop.js'

interface Seen extends Least {
  /** Limits it breaks, speed floor left out. */
  readonly broken: readonly number[]
  readonly needs: Readonly<Record<OpenLimit, number>>
}

/** Every combination that flies, told to go on past broken limits. */
function everySetup({ problem, plan }: Prepared): Seen[] {
  const { candidates, circumstances } = problem
  const evaluator = new Evaluator(circumstances, { thorough: true })
  const seen: Seen[] = []
  plan.nodes.forEach((node, n) => {
    plan.units.forEach((unit, u) => {
      if (unit.source.cells > (candidates.motors[node.motor]?.cellsMax ?? 0)) return
      candidates.duties.forEach((duty, d) => {
        if (!evaluator.assemble(partsOf(problem, node, unit)) || !evaluator.evaluate(duty)) return
        const { used, allowed } = evaluator.limits
        const { cost, mass, stall, margin, time, speed } = evaluator
        seen.push({
          number: (n * plan.units.length + u) * candidates.duties.length + d,
          need: 0,
          cost,
          speed,
          broken: [...used.keys()].filter(
            (limit) => limit !== LIMIT_INDEX['speed-floor'] && (used[limit] ?? 9) > (allowed[limit] ?? 0),
          ),
          needs: {
            budget: cost,
            'take-off-mass': mass,
            'stall-speed': stall,
            'structural-margin': margin,
            'flight-time': time,
            'speed-floor': speed,
          },
        })
      })
    })
  })
  return seen
}

const RISING: readonly OpenLimit[] = ['budget', 'take-off-mass', 'stall-speed']

/** The least of an opened limit by looking at every setup. */
function leastByHand(all: readonly Seen[], limit: OpenLimit, widest: number, floor: number): Least | null {
  const sense = RISING.includes(limit) ? 1 : -1
  const [best] = all
    .filter(({ broken, speed }) => speed >= floor && broken.every((other) => other === LIMIT_INDEX[limit]))
    .map(({ number, cost, speed, needs }) => ({ number, need: needs[limit], cost, speed }))
    .filter(({ need }) => sense * need <= sense * widest)
    .sort((a, b) => sense * (a.need - b.need) || a.cost - b.cost || b.speed - a.speed || a.number - b.number)
  return best ?? null
}

describe('the search for the least of one limit', () => {
  it('finds what looking at every setup finds, for each limit, on random sweeps', () => {
    let found = 0
    for (let seed = 1; seed <= 24; seed++) {
      const sweep = randomSweep(seed).prepared
      const { problem, plan } = sweep
      const { circumstances, comparison } = problem
      const all = everySetup(sweep)
      const floor = (0.5 + 0.025 * seed) * comparison.targetSpeed
      const widest: Record<OpenLimit, number> = {
        budget: Number.POSITIVE_INFINITY,
        'take-off-mass': 1.2 * circumstances.mass.limit,
        'stall-speed': 200 / 3.6,
        'structural-margin': 0,
        'flight-time': 0,
        'speed-floor': floor,
      }
      for (const limit of Object.keys(widest) as OpenLimit[]) {
        if (limit === 'take-off-mass' && circumstances.mass.fixed !== null) continue
        const least = searchLeast(problem, plan, { limit, widest: widest[limit], speedFloor: floor })
        const expected = leastByHand(all, limit, widest[limit], floor)
        expect({ seed, limit, least }).toEqual({ seed, limit, least: expected })
        if (least !== null) found++
      }
    }
    expect(found).toBeGreaterThan(40)
  })
})

describe('the largest drag area at which something reaches the target', () => {
  /** Setups that reach the target and hold every limit at a drag area, by working everything through. */
  function reaching({ problem, plan }: Prepared, dragArea: number, target: number): number {
    const { limits } = problem.circumstances
    const circumstances = {
      ...withDragArea(problem.circumstances, dragArea),
      limits: { ...limits, speedFloor: target },
    }
    const [range] = splitPlan(plan, 1)
    if (range === undefined) throw new Error('no shard')
    return workThroughShard({ ...problem, circumstances }, plan, range, quiet).feasible
  }

  it('is one at which something does, and nothing does at a little more or at much more', () => {
    let found = 0
    for (let seed = 40; seed < 60 && found < 5; seed++) {
      const sweep = randomSweep(seed).prepared
      const { problem, plan } = sweep
      const { dragArea } = problem.circumstances.airframe
      const opened = { limit: 'speed-floor', widest: 0.1, speedFloor: 0.1 } as const
      const fastest = searchLeast(problem, plan, opened)
      if (fastest === null) continue
      const target = 1.06 * fastest.speed
      const relaxed = relaxDragArea(problem, plan, target)
      if (relaxed === null) {
        for (const share of [0.9, 0.65, 0.35, 0.2]) expect(reaching(sweep, share * dragArea, target)).toBe(0)
        continue
      }
      found++
      expect(relaxed.dragArea).toBeLessThan(dragArea)
      expect(reaching(sweep, relaxed.dragArea, target), `seed ${seed}`).toBeGreaterThan(0)
      for (const share of [1.0002, 1.005, 1.02, 1.1].filter((more) => more * relaxed.dragArea <= dragArea)) {
        expect(reaching(sweep, share * relaxed.dragArea, target), `seed ${seed}, ${share}`).toBe(0)
      }
    }
    expect(found).toBe(5)
  })
})

describe('what an answer proposes when the target is not reached', () => {
  let catalogue: Catalogue
  beforeAll(async () => {
    catalogue = await workshop()
  })
  // Unrounded, so that no setup that reaches the target hides behind a cheaper one just short of it.
  const resolution = { speed_km_h: 0, flight_time_s: 0, cost: 0, margin: 0 }
  const sweep = { duties: [0.8, 0.9, 1], nozzle_ratios: [0.8, 0.84], resolution }
  const told = (changes: Record<string, unknown>): Result => answered(prepared(catalogue, { sweep, ...changes }))
  const relaxationOf = (result: Result, relax: Relaxation['relax']) => {
    const found = result.relaxations.find((relaxation) => relaxation.relax === relax)
    if (found === undefined) throw new Error(`no relaxation of ${relax}: ${result.headline}`)
    return found
  }

  const target = { speed_km_h: 320 }
  it.each([
    ['budget', { target, budget: 600 }, (to: number) => ({ target, budget: to }), 0.01],
    ['take-off-mass', { target, mass: { limit_kg: 4.6 } }, (to: number) => ({ target, mass: { limit_kg: to } }), 0.011],
    ['margin', { target, limits: { margin: 0.45 } }, (to: number) => ({ target, limits: { margin: to / 100 } }), -0.11],
    [
      'flight-time',
      { target, limits: { flight_time_min: 9 } },
      (to: number) => ({ target, limits: { flight_time_min: to / 60 } }),
      -1.01,
    ],
    [
      'stall-speed',
      { target, limits: { stall_speed_km_h: 55 } },
      (to: number) => ({ target, limits: { stall_speed_km_h: to } }),
      0.11,
    ],
  ] as const)('%s: the value proposed reaches it, a step less does not', (relax, asked, again, step) => {
    const short = told(asked)
    expect(short.outcome).not.toBe('reached')
    const relaxed = relaxationOf(short, relax)
    expect(relaxed.raw.speed_km_h).toBeGreaterThanOrEqual(319.999)
    expect(Math.sign(relaxed.to - relaxed.from)).toBe(Math.sign(step))
    expect(told(again(relaxed.to)).outcome).toBe('reached')
    expect(told(again(relaxed.to - step)).outcome).not.toBe('reached')
    expect(short.headline).toMatch(/^Not with this (budget|take-off mass|reserve|flight time|stall speed): 320\skm\/h /)
    expect(short.headline.startsWith(`Not with ${short.blamed}: 320`)).toBe(true)
    // What to buy stands beside the words, as a list.
    expect(relaxed.words).not.toContain('buy')
    expect(relaxed.shopping.length).toBeGreaterThan(2)
    expect(resultSchema.safeParse(JSON.parse(JSON.stringify(short))).success).toBe(true)
  })

  it('the target: what is left of it is reached', () => {
    const short = told({ target: { speed_km_h: 420 } })
    const { to, from, raw, words } = relaxationOf(short, 'target')
    expect(from).toBe(420)
    expect(words).toMatch(/^Lower the target from 420\.0\skm\/h to [\d.]+\skm\/h: then \d+\skm\/h/)
    expect(raw.speed_km_h).toBeGreaterThanOrEqual(to)
    expect(told({ target: { speed_km_h: to } }).outcome).toBe('reached')
    expect(told({ target: { speed_km_h: to + 0.11 } }).outcome).not.toBe('reached')
  })

  it('drag area: below that of the airframe, with what clean-up work would do about it', () => {
    const short = told({ target: { speed_km_h: 350 } })
    const { to, from, words, unit } = relaxationOf(short, 'drag-area')
    expect(unit).toBe('cm²')
    expect(from).toBeCloseTo(short.airframe.drag_area_m2 * 1e4, 1)
    expect(to).toBeLessThan(from)
    expect(words).toMatch(/All the clean-up work left brings it to [\d.]+\scm²/)
  })

  it('proposes nothing that is not the owner’s: no limit that asks for nothing, no mass beyond the airframe’s, no fixed mass', () => {
    const names = (changes: Record<string, unknown>) => told(changes).relaxations.map(({ relax }) => relax)
    expect(
      names({ target: { speed_km_h: 350 } }).filter((relax) => !['drag-area', 'target', 'stall-speed'].includes(relax)),
    ).toEqual([])
    expect(names({ target: { speed_km_h: 350 }, mass: { fixed_kg: 4.9 } })).not.toContain('take-off-mass')
  })

  it('names the fan size where only another would do', () => {
    const [airframe] = catalogue.airframes.filter(({ part }) => part.id === 'airframe-vintra-90')
    if (airframe === undefined) throw new Error('the airframe is missing')
    const narrow = { ...airframe, part: { ...airframe.part, fanDiameterMax: 0.1 } }
    const { version: _, ...rest } = catalogue
    const small = sealCatalogue({ ...rest, airframes: [narrow] })
    const far = answered(prepared(small, { sweep, target: { speed_km_h: 330 } }))
    expect(far.outcome).not.toBe('reached')
    expect(far.blamed).toBe('this fan size')
    expect(far.headline).toMatch(
      /^Not with this fan size: 330\skm\/h in the .+ takes a fan of 1\d\d\smm, which its duct does/,
    )
  })

  it('is nothing where a setup reaches the target, however coarse the steps of comparison are', () => {
    const { to } = relaxationOf(told({ target: { speed_km_h: 420 } }), 'target')
    const coarse = { ...sweep, resolution: { ...resolution, speed_km_h: 50, cost: 1e6 } }
    const reached = answered(prepared(catalogue, { sweep: coarse, target: { speed_km_h: to } }))
    expect(reached.outcome).toBe('reached')
    expect(reached.relaxations).toEqual([])
    expect(reached.blamed).toBeNull()
  })
})
