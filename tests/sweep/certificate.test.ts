// The certificate of a search: it proves the front without the search, a certificate that was tampered with does not, and
// those of shards merge into one of the whole.
import { type Certificate, WORKED_THROUGH, witnessReason } from '@ductwright/models/sweep/certificate'
import { certificateFaults } from '@ductwright/models/sweep/check-certificate'
import { type CertifiedShard, certifyShard, evaluateShard } from '@ductwright/models/sweep/evaluate-shard'
import { mergeFronts } from '@ductwright/models/sweep/merge'
import { mergeCertificates } from '@ductwright/models/sweep/merge-certificates'
import { flyPilot } from '@ductwright/models/sweep/pilot'
import { splitPlan } from '@ductwright/models/sweep/shards'
import type { Prepared } from '@ductwright/pipeline/prepare'
import { describe, expect, it } from 'vitest'
import { FIRST_SEED, searchCases } from './config.js'
import { quiet, randomSweep } from './random-sweeps.js'

const CASES = Math.ceil(searchCases() / 3)

function certified({ problem, plan }: Prepared, shards: number) {
  const { seeds } = flyPilot(problem, plan)
  const parts: CertifiedShard[] = splitPlan(plan, shards, seeds).map((range) =>
    certifyShard(problem, plan, range, quiet),
  )
  const merged = mergeFronts(parts.map(({ front }) => front))
  return { merged, parts, certificate: mergeCertificates(parts, merged) }
}

function copied({ nodes, boxes, lowest, highest, reasons }: Certificate, length = reasons.length): Certificate {
  return {
    nodes: nodes.slice(0, length),
    boxes: boxes.slice(0, length),
    lowest: lowest.slice(0, length),
    highest: highest.slice(0, length),
    reasons: reasons.slice(0, length),
  }
}

const rich = Array.from({ length: 60 }, (_, i) => i + 1)
  .map((seed) => randomSweep(seed).prepared)
  .filter((prepared) => certified(prepared, 1).merged.members.length > 3)
  .slice(0, 6)

describe('the certificate', () => {
  it(`proves the front of ${CASES} random sweeps in one to three shards with shared seeds`, () => {
    let witnessed = 0
    let limited = 0
    for (let seed = FIRST_SEED; seed < FIRST_SEED + CASES; seed++) {
      const { prepared } = randomSweep(seed)
      const { merged, certificate } = certified(prepared, 1 + (seed % 3))
      const faults = certificateFaults(prepared.problem, prepared.plan, merged.members, certificate)
      expect({ seed, faults }).toEqual({ seed, faults: [] })
      for (const reason of certificate.reasons) {
        if (reason < 0) witnessed++
        else if (reason !== WORKED_THROUGH) limited++
      }
    }
    expect(witnessed).toBeGreaterThan(CASES)
    expect(limited).toBeGreaterThan(CASES)
  })

  it('changes nothing in what is found and counted', () => {
    for (const { problem, plan } of rich) {
      for (const range of splitPlan(plan, 2, flyPilot(problem, plan).seeds)) {
        expect(certifyShard(problem, plan, range, quiet).front).toEqual(evaluateShard(problem, plan, range, quiet))
      }
    }
  })

  it('does not prove a front from which a member was taken', () => {
    expect(rich.length).toBe(6)
    for (const prepared of rich) {
      const { merged, certificate } = certified(prepared, 1)
      merged.members.forEach((_, place) => {
        const without = merged.members.filter((__, i) => i !== place)
        expect(certificateFaults(prepared.problem, prepared.plan, without, certificate).length).toBeGreaterThan(0)
      })
    }
  })

  it('is refused when a row is lost, doubled, widened, or has another reason', () => {
    for (const prepared of rich) {
      const { merged, certificate } = certified(prepared, 1)
      const faultsOf = (tampered: Certificate) =>
        certificateFaults(prepared.problem, prepared.plan, merged.members, tampered)
      expect(faultsOf(certificate)).toEqual([])
      const last = certificate.reasons.length - 1
      expect(faultsOf(copied(certificate, last))).not.toEqual([])
      const doubled = copied(certificate)
      doubled.boxes[0] = certificate.boxes[last] as number
      doubled.nodes[0] = certificate.nodes[last] as number
      expect(faultsOf(doubled)).not.toEqual([])
      const unproved = copied(certificate)
      const row = certificate.reasons.indexOf(WORKED_THROUGH)
      unproved.reasons[row] = witnessReason(merged.members.length)
      expect(faultsOf(unproved).join()).toContain('there is no member in place')
      const claimed = copied(certificate)
      claimed.reasons[row] = 0
      expect(faultsOf(claimed).join()).toContain('limit 0 is not proved broken')
    }
  })
})
