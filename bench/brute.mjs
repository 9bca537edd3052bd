// Combinations a second when everything is worked through: an even sample of nodes with an even sample of units, at every
// duty, on one thread. The front of a sample is small, so a whole sweep would be slower rather than quicker.
import { workThroughShard } from '@ductwright/models/sweep/evaluate-shard'
import { measure, rateOf } from './measure.mjs'

const hooks = { progress() {}, cancelled: () => false }
/** A low-discrepancy stride: every stretch of its multiples is spread evenly. */
const GOLDEN = 0.6180339887498949

export async function measureBrute({ problem, plan }, quick) {
  const duties = problem.candidates.duties.length
  const sample = sampledPlan(plan, Math.ceil(Math.sqrt((quick ? 20_000 : 120_000) / duties)))
  const combinations = compatibleOf(sample, problem.candidates)
  const range = { from: 0, to: sample.nodes.length, work: combinations / duties }
  const work = () => workThroughShard(problem, sample, range, hooks).feasible
  const rate = rateOf(combinations, await measure(work, { warmUps: 1, runs: quick ? 2 : 3 }))
  return { combinations, ...rate, seconds: plan.compatible / rate.best }
}

/** The plan with at most `count` of its nodes and of its units. */
function sampledPlan(plan, count) {
  const nodes = evenly(plan.nodes, count)
  return { ...plan, nodes, units: evenly(plan.units, count), order: nodes.map((_, i) => i) }
}

function evenly(list, count) {
  if (count >= list.length) return list
  return Array.from({ length: count }, (_, i) => list[Math.floor(((i * GOLDEN) % 1) * list.length)])
}

function compatibleOf({ nodes, units }, { motors, duties }) {
  const taken = ({ motor }) => units.filter(({ source }) => source.cells <= motors[motor].cellsMax).length
  return nodes.reduce((sum, node) => sum + taken(node), 0) * duties.length
}
