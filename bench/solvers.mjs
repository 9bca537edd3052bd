// Nanoseconds for one standing solve, one level solve, and one setup worked through every model.
import { Evaluator } from '@ductwright/models/evaluation/evaluator'
import { solveLevel } from '@ductwright/models/operating-point/level'
import { emptyOperatingPoint } from '@ductwright/models/operating-point/operating-point'
import { solveStanding } from '@ductwright/models/operating-point/standing'
import { partsOf } from '@ductwright/models/sweep/evaluate-shard'
import { Bench } from 'tinybench'
import { sink } from './measure.mjs'

/** Solves in one timed call, so that the clock does not count. */
const BATCH = 1000

export async function measureSolvers({ problem, plan }, quick) {
  const evaluators = readyEvaluators(problem, plan, 64)
  const point = emptyOperatingPoint()
  const { density } = problem.circumstances
  const batch = (work) => () => {
    let sum = 0
    for (let i = 0; i < BATCH; i++) sum += work(evaluators[i % evaluators.length])
    sink(sum)
  }
  const bench = new Bench({ time: quick ? 150 : 1000, warmupTime: quick ? 50 : 300 })
  bench.add(
    'standing solve',
    batch(({ evaluator, parts }) => {
      solveStanding(parts.node.standing, evaluator.full, point)
      return point.bladeSpeed
    }),
  )
  bench.add(
    'level solve, from the root without induced drag',
    batch(({ evaluator, parts }) => {
      const { parasite, induced, full, stand, stall } = evaluator
      const start = parts.node.advanceRatio * stand.bladeSpeed
      solveLevel(parts.node.duct, density, parasite, induced, full, start, stall, point)
      return point.speed
    }),
  )
  bench.add(
    'one setup through every model, limits held',
    batch(({ evaluator, parts, duty }) => {
      evaluator.assemble(parts)
      evaluator.evaluate(duty)
      return evaluator.speed
    }),
  )
  await bench.run()
  return bench.tasks.map(({ name, result }) => {
    const toNanoseconds = 1e6 / BATCH
    const { min, mean, sd } = result.latency
    return { name, least: min * toNanoseconds, mean: mean * toNanoseconds, deviation: sd * toNanoseconds }
  })
}

/** Evaluators with a setup each that holds every limit, worked through once. */
function readyEvaluators(problem, plan, count) {
  const found = []
  const { duties } = problem.candidates
  for (let step = 0; found.length < count && step < 400_000; step++) {
    const node = plan.nodes[(step * 7) % plan.nodes.length]
    const unit = plan.units[(step * 7919) % plan.units.length]
    if (unit.source.cells > problem.candidates.motors[node.motor].cellsMax) continue
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
