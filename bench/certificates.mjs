// What keeping the certificate of a search costs, how large it is, and how long the check takes that proves the front from it.
import { certificateFaults } from '@ductwright/models/sweep/check-certificate'
import { certifyShard, evaluateShard } from '@ductwright/models/sweep/evaluate-shard'
import { splitPlan } from '@ductwright/models/sweep/shards'
import { measure } from './measure.mjs'
import { marketName, preparedQuestion } from './questions.mjs'

const ASKED = ['demo, narrowed', marketName('large', 9)]
const hooks = { progress() {}, cancelled: () => false }

/** One row a question, all on one thread in one shard. */
export async function measureCertificates(quick) {
  const rows = []
  for (const name of quick ? ASKED.slice(0, 1) : ASKED) {
    const { problem, plan } = await preparedQuestion(name)
    const [range] = splitPlan(plan, 1)
    const timing = { warmUps: 1, runs: quick ? 1 : 3 }
    const plain = await measure(() => evaluateShard(problem, plan, range, hooks).boxes, timing)
    const kept = await measure(() => certifyShard(problem, plan, range, hooks).front.boxes, timing)
    const { front, certificate } = certifyShard(problem, plan, range, hooks)
    const faults = () => certificateFaults(problem, plan, front.members, certificate).length
    const check = await measure(faults, { warmUps: 0, runs: 1 })
    if (faults() > 0) throw new Error(`the certificate of ${name} does not prove its front`)
    const bytes = Object.values(certificate).reduce((sum, column) => sum + column.byteLength, 0)
    rows.push({
      name,
      rows: certificate.reasons.length,
      bytes,
      plain: plain.least,
      kept: kept.least,
      check: check.least,
    })
  }
  return rows
}
