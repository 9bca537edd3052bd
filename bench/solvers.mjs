// Nanoseconds for each stage of one evaluation, for one setup worked through every model, and for each bound of a box.
import { LEAST_SPEED_FACTOR } from '@ductwright/models/evaluation/assumed-state'
import { Evaluator } from '@ductwright/models/evaluation/evaluator'
import { escPeaks, flightCycle, motorPeaks } from '@ductwright/models/evaluation/flight-heat'
import { solveAtSpeed } from '@ductwright/models/operating-point/at-speed'
import { solveLevel } from '@ductwright/models/operating-point/level'
import { emptyOperatingPoint } from '@ductwright/models/operating-point/operating-point'
import { emptyPowerTrain } from '@ductwright/models/operating-point/power-train'
import { solveStanding } from '@ductwright/models/operating-point/standing'
import { Bounds } from '@ductwright/models/sweep/bounds'
import { partsOf } from '@ductwright/models/sweep/plan'
import { emptyExtreme } from '@ductwright/models/sweep/unit-columns'
import { Bench } from 'tinybench'
import { sink } from './measure.mjs'

/** Calls in one timed batch, so that the clock does not count. */
const BATCH = 1000
/** Setups and boxes taken in turn. */
const SAMPLES = 64

/** Rows of two tables: stages of an evaluation, bounds of a box. */
export async function measureSolvers(prepared, quick) {
  return {
    stages: await nanoseconds(readySetups(prepared), stagesOf(prepared), quick),
    bounds: await nanoseconds(openBoxes(prepared), boundsOf(prepared), quick),
  }
}

async function nanoseconds(samples, works, quick) {
  const bench = new Bench({ time: quick ? 50 : 500, warmupTime: quick ? 30 : 150 })
  for (const [name, work] of Object.entries(works)) {
    bench.add(name, () => {
      let sum = 0
      for (let i = 0; i < BATCH; i++) sum += work(samples[i % samples.length])
      sink(sum)
    })
  }
  await bench.run()
  return bench.tasks.map(({ name, result }) => {
    const toNanoseconds = 1e6 / BATCH
    const { min, mean, sd } = result.latency
    return { name, least: min * toNanoseconds, mean: mean * toNanoseconds, deviation: sd * toNanoseconds }
  })
}

/** The stages in their order, each with what the stages before it left in the evaluator. */
function stagesOf({ problem: { circumstances } }) {
  const point = emptyOperatingPoint()
  const train = emptyPowerTrain()
  const peaks = { inner: 0, outer: 0 }
  const { density, profile, airTemperature: air } = circumstances
  const cycle = flightCycle(profile.flightTime, profile.fullThrottleShare, profile.passTime)
  const level = ({ evaluator, parts }, train, start) => {
    const { parasite, induced, stall } = evaluator
    solveLevel(parts.node.duct, density, parasite, induced, train, start, LEAST_SPEED_FACTOR * stall, point)
    return point.speed
  }
  return {
    'price, weigh, electrical state': ({ evaluator, parts }) => (evaluator.assemble(parts) ? 1 : 0),
    'standing solve': ({ evaluator, parts }) => {
      solveStanding(parts.node.standing, evaluator.full, point)
      return point.bladeSpeed
    },
    'level solve, full pack': (setup) =>
      level(setup, setup.evaluator.full, setup.parts.node.advanceRatio * setup.evaluator.stand.bladeSpeed),
    'level solve, quoted charge': (setup) => level(setup, setup.evaluator.quoted, setup.evaluator.topFull.speed),
    'cruise solve': ({ evaluator, parts }) => {
      Object.assign(train, evaluator.quoted)
      const { speed } = evaluator.cruise
      solveAtSpeed(parts.node.duct, density, speed, evaluator.drag(speed), train, parts.esc, point)
      return point.duty
    },
    'heat of motor and controller': ({ evaluator, parts }) => {
      const hot = { point: evaluator.top, train: evaluator.quoted }
      const cool = { point: evaluator.cruise, train: evaluator.cruising }
      motorPeaks(parts.motor, parts.node.duct.radius, air, cycle, hot, cool, peaks)
      escPeaks(parts.esc, air, cycle, hot, cool, peaks)
      return peaks.inner
    },
    'one setup through every model, limits held': ({ evaluator, parts, duty }) => {
      evaluator.assemble(parts)
      evaluator.evaluate(duty)
      return evaluator.speed
    },
  }
}

/** Steps of bounding a box; each needs those before it, so their times add up from row to row. */
function boundsOf({ problem, plan }) {
  const { duties } = problem.candidates
  const [lowest, highest] = [duties[0], duties.at(-1)]
  const bounds = new Bounds(problem, plan.boxes, new Evaluator(problem.circumstances).limits)
  const steps = {
    'cost, mass, electrical state of both extremes': () => bounds.cost,
    '… and thrust and speed that are lacking': () => bounds.lacking(highest),
    '… and ratings that are exceeded': () => bounds.exceeding(lowest),
    '… and most speed': () => bounds.boundSpeed(highest),
    '… and most time and margin': () => bounds.boundRest(lowest),
  }
  const upTo = (last) => Object.values(steps).slice(0, last + 1)
  return Object.fromEntries(
    Object.keys(steps).map((name, last) => {
      const chain = upTo(last)
      const work = ({ node, box }) => {
        let sum = bounds.take(node, box)
        for (let i = 0; i < chain.length; i++) sum += chain[i]()
        return sum
      }
      return [name, work]
    }),
  )
}

/** Evaluators with a setup each that holds every limit, worked through once. */
function readySetups({ problem, plan }) {
  const found = []
  const { duties, motors } = problem.candidates
  for (let step = 0; found.length < SAMPLES && step < 1_000_000; step++) {
    const node = plan.nodes[(step * 7) % plan.nodes.length]
    const unit = plan.units[(step * 7919) % plan.units.length]
    if (unit.source.cells > motors[node.motor].cellsMax) continue
    const parts = partsOf(problem, node, unit)
    const duty = duties[step % duties.length]
    const evaluator = new Evaluator(problem.circumstances)
    if (evaluator.assemble(parts) && evaluator.evaluate(duty) && evaluator.limits.broken < 0) {
      found.push({ evaluator, parts, duty })
    }
  }
  if (found.length === 0) throw new Error('no setup of the sample holds every limit: choose another airframe or target')
  return found
}

/** Nodes with boxes that nothing is proved of at the first step. */
function openBoxes({ problem, plan }) {
  const bounds = new Bounds(problem, plan.boxes, new Evaluator(problem.circumstances).limits)
  const best = emptyExtreme()
  const found = []
  for (let step = 0; found.length < SAMPLES && step < 1_000_000; step++) {
    const node = plan.nodes[(step * 7) % plan.nodes.length]
    const box = (step * 7919) % plan.boxes.length
    plan.boxes.readBest(box, best)
    if (best.source.cells > problem.candidates.motors[node.motor].cellsMax) continue
    if (bounds.take(node, box) < 0) found.push({ node, box })
  }
  if (found.length === 0) throw new Error('every box of the sample is proved broken: choose another airframe or target')
  return found
}
