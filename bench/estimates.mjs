// How far the pilot's estimate, made before a sweep is accepted, lies from what one thread then takes, and what the pilot
// itself takes. It counts boxes and knows no clock, so it is the same on every machine.
import { estimateSweep, flyPilot } from '@ductwright/pipeline/shards'
import { measure } from './measure.mjs'
import { preparedQuestion } from './questions.mjs'

/** One row for every question that was swept. */
export async function measureEstimates(sweeps) {
  const rows = []
  for (const { name, boxes, one } of sweeps) {
    const prepared = await preparedQuestion(name)
    const { problem, plan } = prepared
    const pilot = flyPilot(problem, plan)
    const time = await measure(() => flyPilot(problem, plan).boxes, { warmUps: 1, runs: 3 })
    const { seconds } = estimateSweep(prepared, pilot)
    rows.push({ name, boxes, expected: pilot.expectedBoxes, took: one.least, estimate: seconds, pilot: time.least })
  }
  return rows
}
