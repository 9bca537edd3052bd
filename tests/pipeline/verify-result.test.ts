// Verifying an answer: every true one holds, against a sample and against everything; one that was tampered with does not,
// and one of other models or another catalogue is not judged at all.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { InputError } from '@ductwright/contract/fault'
import { parseResult } from '@ductwright/contract/parse-result'
import type { Member, Result } from '@ductwright/contract/result'
import { type Extent, verifyResult } from '@ductwright/pipeline/verify-result'
import { beforeAll, describe, expect, it } from 'vitest'
import { answered, prepared, workshop } from './workshop.js'

let catalogue: Catalogue
let result: Result
const still = { progress() {} }
const sample: Extent = { sample: 2000, seed: 1 }

beforeAll(async () => {
  catalogue = await workshop()
  result = answered(prepared(catalogue))
})

const verified = (of: Result, extent: Extent = 'whole') => verifyResult(of, catalogue, extent, still)
const first = (change: (member: Member) => Member): Result => ({
  ...result,
  front: result.front.map((member, i) => (i === 0 ? change(member) : member)),
})

describe('an answer', () => {
  it('holds against every combination, and against a sample, also after a way through JSON', () => {
    const whole = verified(parseResult(JSON.parse(JSON.stringify(result))))
    expect(whole).toMatchObject({ faults: [], members: result.front.length, tried: result.counts.compatible })
    expect(whole.feasible).toBeGreaterThanOrEqual(result.front.length)
    expect(verified(result, sample)).toMatchObject({ faults: [], tried: 2000 })
  })

  it('holds with the whole front, without rounding, and when nothing reaches the target', () => {
    const unrounded = { resolution: { speed_km_h: 0, flight_time_s: 0, cost: 0, margin: 0 } }
    for (const changes of [
      { sweep: { duties: [0.8, 0.9, 1], nozzle_ratios: [0.8, 0.84], whole_front: true } },
      { sweep: { duties: [0.8, 0.9, 1], nozzle_ratios: [0.8, 0.84], ...unrounded } },
      { target: { speed_km_h: 700 } },
    ]) {
      expect(verified(answered(prepared(catalogue, changes))).faults).toEqual([])
    }
  })

  it('tells how far it is, up to the end', () => {
    const shares: number[] = []
    verifyResult(result, catalogue, 'whole', { progress: (share) => shares.push(share) })
    expect([...shares].sort((a, b) => a - b)).toEqual(shares)
    expect(shares.at(-1)).toBe(1)
  })
})

describe('an answer that was tampered with', () => {
  it('without one of its setups, whichever, is found out', () => {
    expect(result.front.length).toBeGreaterThan(1)
    for (const { rank } of result.front) {
      const without = { ...result, front: result.front.filter((member) => member.rank !== rank) }
      expect(verified(without).faults.join()).toContain('No listed setup is as good as ')
    }
  })

  it('with a faster figure, a cheaper one, another compared value or another setting', () => {
    const faster = first((member) => ({ ...member, raw: { ...member.raw, speed_km_h: member.raw.speed_km_h + 1 } }))
    expect(verified(faster, sample).faults).toContain('Number 1 does not do what is printed.')
    const cheaper = first((member) => ({ ...member, raw: { ...member.raw, cost: member.raw.cost - 5 } }))
    expect(verified(cheaper, sample).faults).toContain('Number 1 does not do what is printed.')
    const compared = first((member) => ({ ...member, compared: { ...member.compared, margin: 0.9 } }))
    expect(verified(compared, sample).faults).toContain('Number 1 is not compared as the rules say.')
    const unknown = first((member) => ({ ...member, setup: { ...member.setup, duty: 0.77 } }))
    expect(verified(unknown, sample).faults.join()).toContain(
      'names parts or settings that this request does not offer',
    )
  })

  it('with a setup twice, another request or another order', () => {
    const [one] = result.front
    if (one === undefined) throw new Error('no front')
    const twice = { ...result, front: [...result.front, one] }
    expect(verified(twice, sample).faults.join()).toContain('beaten or equalled by another')
    const other = { ...result, understood: { ...result.understood, title: 'Another question' } }
    expect(verified(other, sample).faults).toEqual(['The request hash is not that of the request.'])
    const turned = { ...result, front: [...result.front].reverse() }
    expect(verified(turned, sample).faults).toEqual(['The answer hash is not that of the answer.'])
  })
})

describe('what cannot be judged', () => {
  it('is named: other models, another catalogue', () => {
    const { version: _, ...content } = catalogue
    const renamed = sealCatalogue({ ...content, name: 'Another corner' })
    const faultsOf = (act: () => unknown) => {
      try {
        act()
      } catch (error) {
        if (error instanceof InputError) return error.faults.map(({ pointer, rule }) => `${pointer} ${rule}`)
        throw error
      }
      return []
    }
    expect(faultsOf(() => verifyResult(result, renamed, sample, still))).toEqual(['/catalogue/version version'])
    expect(faultsOf(() => verified({ ...result, model_version: '1.0.0' }))).toEqual(['/model_version version'])
    expect(faultsOf(() => parseResult({ format: 'another' }))).toContain('/format choice')
  })
})
