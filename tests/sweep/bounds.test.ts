// Every bound of a box against every setup in it: what is proved broken for a box is broken by each of its units at each
// duty it is said for, and no unit is faster, lasts longer, costs less or keeps more margin. The sweeps are random, and so
// are, box by box, duties that lie close together and limits that cut through the box.
import { RandomStream } from '@ductwright/catalogue/generate/random'
import { solveBalance } from '@ductwright/models/airframe/balance'
import { Evaluator, type Parts } from '@ductwright/models/evaluation/evaluator'
import { LimitJudge, NEAR_SHARES } from '@ductwright/models/evaluation/limit-judge'
import { LIMIT_INDEX, LIMITS } from '@ductwright/models/evaluation/limits'
import { mostBallast } from '@ductwright/models/sweep/bound-terms'
import { Bounds } from '@ductwright/models/sweep/bounds'
import { type PlanNode, type PlanUnit, partsOf } from '@ductwright/models/sweep/plan'
import type { SweepProblem } from '@ductwright/models/sweep/problem'
import type { UnitBoxes } from '@ductwright/models/sweep/unit-boxes'
import { emptyExtreme } from '@ductwright/models/sweep/unit-columns'
import type { Prepared } from '@ductwright/pipeline/prepare'
import { describe, expect, it } from 'vitest'
import { boundsCases, FIRST_SEED } from './config.js'
import { randomSweep } from './random-sweeps.js'

const CASES = boundsCases()
const BOXES = 30

/** What must have been proved at least once for the sample to mean something. */
const CLAIMS = [
  ...['any duty: budget', 'any duty: take-off-mass', 'any duty: stall-speed', 'any duty: structural-margin'],
  ...['lacking: thrust-to-weight', 'lacking: speed-floor', 'slow: speed-floor'],
  ...['exceeding: motor-current', 'exceeding: motor-power', 'exceeding: esc-current', 'exceeding: pack-current'],
  ...['exceeding: tip-speed', 'loads and time: structural-margin', 'loads and time: flight-time'],
]

/** Limits that are opened, and those that must have been proved broken by more than that. */
const OPENED = [
  ...(['budget', 'take-off-mass', 'ballast', 'stall-speed', 'motor-current', 'motor-power', 'esc-current'] as const),
  ...(['pack-current', 'tip-speed', 'thrust-to-weight', 'structural-margin', 'speed-floor', 'flight-time'] as const),
]
const PROVED = ['budget', 'esc-current', 'motor-current', 'speed-floor', 'take-off-mass', 'thrust-to-weight']

/** Ratings that are moved at random, so that each of them is now and then the one that is exceeded. */
const RATINGS = ['motor-current', 'motor-power', 'motor-speed', 'esc-current', 'esc-speed', 'pack-current'] as const

/** One setup worked through whatever it breaks; `finished`: to its end. */
interface Exact {
  readonly duty: number
  readonly finished: boolean
  readonly used: Float64Array
  readonly speed: number
  readonly time: number
  readonly cost: number
  readonly margin: number
}

/** A box, the duties it is bounded over, ascending, and all its setups at these. */
interface Draw {
  readonly problem: SweepProblem
  readonly judge: LimitJudge
  readonly node: PlanNode
  readonly boxes: UnitBoxes
  readonly box: number
  readonly duties: readonly number[]
  readonly units: readonly PlanUnit[]
  readonly setups: readonly Exact[]
}

function drawBox({ problem, plan }: Prepared, random: RandomStream): Draw | null {
  if (plan.nodes.length === 0) return null
  const node = random.pick(plan.nodes)
  const most = problem.candidates.motors[node.motor]?.cellsMax ?? 0
  const groups = plan.groups.filter(({ cells }) => cells <= most)
  if (groups.length === 0) return null
  const { boxes } = plan
  let box = random.pick(groups).root
  while (boxes.counts[box] !== 1 && random.share() < 0.75)
    box = random.pick([boxes.lefts[box] as number, boxes.rights[box] as number])
  const units = unitsOf(boxes, box).map((unit) => plan.units[unit] as PlanUnit)
  const duties = drawDuties(random)
  const cut = cutThrough(problem, partsOf(problem, node, random.pick(units)), random.pick(duties), random)
  const judge = new LimitJudge(cut.circumstances.limits.headroom, false)
  for (const limit of RATINGS.map((rating) => LIMIT_INDEX[rating]))
    judge.allowed[limit] = (judge.allowed[limit] as number) * random.pick([0.6, 0.8, 1, 4])
  return { problem: cut, judge, node, boxes, box, duties, units, setups: workThrough(cut, node, units, duties) }
}

function unitsOf(boxes: UnitBoxes, box: number): number[] {
  if (boxes.counts[box] === 1) return [boxes.units[box] as number]
  return [boxes.lefts[box] as number, boxes.rights[box] as number].flatMap((half) => unitsOf(boxes, half))
}

/** Full throttle, where nothing switches, is often in, and duties close to it and to each other. */
function drawDuties(random: RandomStream): number[] {
  const first = random.between(0.4, 1)
  const near = [first - random.between(0, 0.01), first]
  const full = [1 - 0.01 * random.share() ** 3, 1]
  return random.pick([[first], near, full, [first, 1], [...near, ...full].sort((a, b) => a - b)])
}

/** The same question with limits about what one setup needs, or just on it. */
function cutThrough(problem: SweepProblem, parts: Parts, duty: number, random: RandomStream): SweepProblem {
  const { circumstances } = problem
  const evaluator = new Evaluator(circumstances, { thorough: true })
  const finished = evaluator.assemble(parts) && evaluator.evaluate(duty)
  if (!finished || random.share() < 0.3) return problem
  const width = random.pick([0.2, 0.01, 0.001])
  const about = (value: number) => value * random.between(1 - width, 1 + width)
  const sometimes = (value: number, without: number) => (random.share() < 0.3 ? about(value) : without)
  const { mass, limits } = circumstances
  return {
    ...problem,
    circumstances: {
      ...circumstances,
      mass: {
        limit: random.share() < 0.5 ? evaluator.mass * random.between(0.9, 1.05) : mass.limit,
        fixed: mass.fixed,
      },
      limits: {
        ...limits,
        budget: sometimes(evaluator.cost, limits.budget),
        stallSpeed: sometimes(evaluator.stall, limits.stallSpeed),
        thrustToWeight: sometimes(evaluator.stand.thrust / evaluator.weight, limits.thrustToWeight),
        speedFloor: sometimes(evaluator.speed, 0),
        flightTime: sometimes(evaluator.time, 0),
        margin: sometimes(Math.min(Math.max(evaluator.margin, 0), 0.7), limits.margin),
      },
    },
  }
}

function workThrough(
  problem: SweepProblem,
  node: PlanNode,
  units: readonly PlanUnit[],
  duties: readonly number[],
): Exact[] {
  const evaluator = new Evaluator(problem.circumstances, { thorough: true })
  return units.flatMap((unit) =>
    duties.map((duty) => {
      const finished = evaluator.assemble(partsOf(problem, node, unit)) && evaluator.evaluate(duty)
      const { speed, time, cost, margin, limits } = evaluator
      return { duty, finished, used: limits.used.slice(), speed, time, cost, margin }
    }),
  )
}

/** What is wrong with a claim that setups break a limit; one that cannot be worked out at all is ended by that as well. */
function heldBy({ judge, setups }: Draw, limit: number, meant: (duty: number) => boolean): string[] {
  const allowed = judge.allowed[limit] as number
  const share = judge.nearShare[limit] as number
  return setups
    .filter(({ duty, finished, used }) => finished && meant(duty) && (used[limit] as number) / allowed - 1 <= share)
    .map(({ duty, used }) => `${LIMITS[limit]} held at ${duty}: ${used[limit]} of ${allowed}, ${share} over at most`)
}

/** Objectives in which a setup betters its box. Loads fall with mass, so margin is bounded for what holds its mass. */
function better(bounds: Bounds, { speed, time, cost, margin, duty, used }: Exact, { nearShare }: LimitJudge): string[] {
  const found: string[] = []
  const holds = (limit: number) => (used[limit] as number) <= 1 + (nearShare[limit] as number)
  const isLight = holds(LIMIT_INDEX['take-off-mass']) && holds(LIMIT_INDEX.ballast)
  if (!(speed <= bounds.speed)) found.push(`speed ${speed} over ${bounds.speed} at ${duty}`)
  if (!(time <= bounds.time)) found.push(`time ${time} over ${bounds.time} at ${duty}`)
  if (!(cost >= bounds.cost)) found.push(`cost ${cost} under ${bounds.cost} at ${duty}`)
  if (isLight && !(margin <= bounds.margin)) found.push(`margin ${margin} over ${bounds.margin} at ${duty}`)
  return found
}

/** Draws boxes of random sweeps, as reproducible as they are, and gathers what is wrong with any. */
function eachDraw(wrongOf: (draw: Draw, random: RandomStream) => string[]): string[] {
  const wrong: string[] = []
  for (let seed = FIRST_SEED; seed < FIRST_SEED + CASES; seed++) {
    const { prepared } = randomSweep(seed)
    const random = new RandomStream(seed, 'random boxes')
    for (let i = 0; i < BOXES; i++) {
      const draw = drawBox(prepared, random)
      if (draw !== null) wrong.push(...wrongOf(draw, random).map((what) => `seed ${seed}, box ${i}: ${what}`))
    }
  }
  return wrong
}

/** What is wrong with the bounds of a box; `claimed` hears of each limit that is proved broken. */
function wrongWith(draw: Draw, claimed: (claim: string, limit: number) => void): string[] {
  const { problem, judge, node, boxes, box, duties, setups } = draw
  const bounds = new Bounds(problem, boxes, judge)
  const holds = (limit: number, by: string, meant: (duty: number) => boolean) => {
    if (limit < 0) return []
    claimed(`${by}: ${LIMITS[limit]}`, limit)
    return heldBy(draw, limit, meant).map((what) => `${by}, ${what}`)
  }
  const taken = bounds.take(node, box)
  const found = holds(taken, 'any duty', () => true)
  if (taken >= 0) return found
  for (const duty of duties) {
    found.push(...holds(bounds.lacking(duty), 'lacking', (lower) => lower <= duty))
    found.push(...holds(bounds.exceeding(duty), 'exceeding', (higher) => higher >= duty))
  }
  found.push(...holds(bounds.boundSpeed(duties.at(-1) as number), 'slow', () => true))
  found.push(...holds(bounds.boundRest(duties[0] as number), 'loads and time', () => true))
  for (const setup of setups) if (setup.finished) found.push(...better(bounds, setup, judge))
  return found
}

describe(`over ${BOXES} boxes of each of ${CASES} random sweeps`, () => {
  it('the bounds of a box hold for every setup in it', () => {
    const proved = new Map<string, number>()
    let compared = 0
    let dives = 0
    const wrong = eachDraw((draw) => {
      draw.judge.nearShare.fill(0)
      if (draw.problem.circumstances.speedBasis === 'dive') dives++
      compared += draw.setups.filter(({ finished }) => finished).length
      return wrongWith(draw, (claim) => proved.set(claim, (proved.get(claim) ?? 0) + 1))
    })
    expect(wrong.slice(0, 20)).toEqual([])
    expect([...proved.keys()].sort()).toEqual(expect.arrayContaining(CLAIMS))
    expect(compared).toBeGreaterThan(50 * CASES)
    expect(dives).toBeGreaterThan(3 * CASES)
  })

  it('no setup of a box needs more ballast than its corners say', () => {
    let ballasted = 0
    const wrong = eachDraw(({ problem, node, boxes, box, units }, random) => {
      const { airframe: roomy } = problem.circumstances
      // Room for the packs in one place only: what is wrong there, ballast makes right.
      const place = random.between(roomy.packStationMin, roomy.packStationMax)
      const airframe = { ...roomy, packStationMin: place, packStationMax: place }
      const [best, worst, balance] = [emptyExtreme(), emptyExtreme(), { packStation: 0, ballast: 0 }]
      boxes.readBest(box, best)
      boxes.readWorst(box, worst)
      return units.flatMap((unit) => {
        const { pairMass, escMass, source } = partsOf(problem, node, unit)
        solveBalance(airframe, airframe.emptyMass, pairMass, escMass, source.mass, balance)
        if (balance.ballast > 0) ballasted++
        const most = mostBallast(airframe, pairMass, best, worst)
        return balance.ballast <= most + 1e-12 ? [] : [`${balance.ballast} of ${most} kg`]
      })
    })
    expect(wrong.slice(0, 20)).toEqual([])
    expect(ballasted).toBeGreaterThan(CASES)
  })

  it('with a limit opened, what is proved to break it is further over than that', () => {
    const proved = new Set<string>()
    const wrong = eachDraw((draw, random) => {
      const limit = LIMIT_INDEX[random.pick(OPENED)]
      draw.judge.nearShare.fill(0)
      draw.judge.nearShare[limit] = (NEAR_SHARES[limit] as number) * random.pick([1, 0.3, 0.01, 0.0001])
      return wrongWith(draw, (_, broken) => {
        if (broken === limit) proved.add(LIMITS[limit] as string)
      })
    })
    expect(wrong.slice(0, 20)).toEqual([])
    expect([...proved].sort()).toEqual(expect.arrayContaining(PROVED))
  })
})
