// The verify command as a child process: a true answer holds, a false one ends with 1, and what is no answer with 2.
import type { Result } from '@ductwright/contract/result'
import { beforeAll, describe, expect, it } from 'vitest'
import { ductwright, quickRequest } from './command.js'

let answer = ''

beforeAll(async () => {
  answer = (await ductwright(['sweep', '-', '--json'], JSON.stringify(quickRequest({ target: { speed_km_h: 200 } }))))
    .out
})

describe('verify', () => {
  it('holds an answer against every combination and says so', async () => {
    const { code, out, err } = await ductwright(['verify', '-', '--whole'], answer)
    const { counts } = JSON.parse(answer) as Result
    expect(code).toBe(0)
    expect(out).toContain('It holds: nothing tried beats the list')
    expect(out.replaceAll(',', '')).toContain(`${counts.compatible} of ${counts.compatible} combinations`)
    expect(err).toMatch(/100 %/)
  })

  it('ends with 1 and names what does not hold', async () => {
    const result = JSON.parse(answer) as Result
    const slower = { ...result, front: result.front.slice(1) }
    const { code, out } = await ductwright(['verify', '-', '--whole', '--json'], JSON.stringify(slower))
    expect(code).toBe(1)
    const { faults } = JSON.parse(out) as { faults: readonly string[] }
    expect(faults.join()).toContain('No listed setup is as good as')
  })

  it('refuses what is no answer, field by field', async () => {
    const { code, out, err } = await ductwright(['verify', '-'], '{"format":"ductwright-result/1"}')
    expect([code, out]).toEqual([2, ''])
    expect(err).toContain('/model_version: ')
  })
})
