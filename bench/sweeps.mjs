// Combinations a second: with the shortcuts of a sweep, worked through one by one, and on two threads.
import { Worker } from 'node:worker_threads'
import { evaluateShard } from '@ductwright/models/sweep/evaluate-shard'
import { measure, rateOf } from './measure.mjs'
import { combinationsOf, sampledPlan } from './question.mjs'

const hooks = { progress() {}, cancelled: () => false }

export async function measureSweeps({ problem, plan }, quick) {
  const plans = { few: sampledPlan(plan, quick ? 4 : 12), many: sampledPlan(plan, quick ? 16 : 96) }
  const runs = { warmUps: 1, runs: quick ? 2 : 4 }
  const sweep = (chosen, exhaustive) => () =>
    evaluateShard(problem, chosen, { from: 0, to: chosen.nodes.length, work: 1 }, hooks, exhaustive).feasible
  const rate = async (name, chosen, work) => {
    const combinations = combinationsOf(chosen, problem)
    return { name, combinations, ...rateOf(combinations, await measure(work, runs)) }
  }
  const rates = [
    await rate('one by one, 1 thread', plans.few, sweep(plans.few, true)),
    await rate('with shortcuts, 1 thread', plans.few, sweep(plans.few, false)),
    await rate('with shortcuts, 1 thread, larger sample', plans.many, sweep(plans.many, false)),
  ]
  const team = await openTeam(2, plans.many.nodes.length)
  rates.push(await rate('with shortcuts, 2 threads, larger sample', plans.many, team.sweep))
  await team.close()
  return rates
}

/** Threads that have prepared the question and wait for the word. */
async function openTeam(size, nodes) {
  const workers = Array.from({ length: size }, (_, part) => {
    return new Worker(new URL('./sweep-thread.mjs', import.meta.url), { workerData: { part, size, nodes } })
  })
  await Promise.all(workers.map(reply))
  return {
    sweep: async () => {
      const replies = workers.map(reply)
      for (const worker of workers) worker.postMessage('sweep')
      return (await Promise.all(replies)).reduce((sum, feasible) => sum + feasible, 0)
    },
    close: () => Promise.all(workers.map((worker) => worker.terminate())),
  }
}

function reply(worker) {
  return new Promise((resolve, reject) => {
    worker.once('message', resolve)
    worker.once('error', reject)
  })
}
