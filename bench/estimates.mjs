// How far the estimate that is made before a sweep is accepted lies from what one thread then takes. The estimate counts
// boxes and knows no clock, so it is the same on every machine.
import { estimateSweep } from '@ductwright/pipeline/shards'
import { marketName, preparedQuestion } from './questions.mjs'

const ASKED = ['demo, narrowed', marketName('medium', 9), marketName('large', 9)]

/** One row a question that was also swept. */
export async function measureEstimates(sweeps, quick) {
  const rows = []
  for (const name of quick ? ASKED.slice(0, 1) : ASKED) {
    const swept = sweeps.find((sweep) => sweep.name === name)
    if (swept === undefined) continue
    const { seconds } = estimateSweep(await preparedQuestion(name))
    rows.push({ name, estimate: seconds, took: swept.one.mean })
  }
  return rows
}
