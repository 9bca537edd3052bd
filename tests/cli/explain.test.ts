// `explain`: why a setup is not in the answer of a request, as a child process.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import type { Result } from '@ductwright/contract/result'
import type { Explanation } from '@ductwright/report/explanation'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ductwright, exampleSetup, quickRequest } from './command.js'

const folder = mkdtempSync(join(tmpdir(), 'ductwright-explain-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const request = quickRequest({ target: { speed_km_h: 200 }, limits: { headroom: 0 } })
const requestFile = write('request.json', request)
let answer: Result
beforeAll(async () => {
  answer = JSON.parse((await ductwright(['sweep', requestFile, '--json'])).out) as Result
})

function write(name: string, content: unknown): string {
  const path = join(folder, name)
  writeFileSync(path, JSON.stringify(content))
  return path
}

const explain = (setup: unknown, ...options: string[]) =>
  ductwright(['explain', '-', requestFile, ...options], JSON.stringify(setup))

async function explained(setup: unknown): Promise<{ readonly code: number | null; readonly told: Explanation }> {
  const { code, out } = await explain(setup, '--json')
  const told = JSON.parse(out) as Explanation
  expect(out).toBe(`${canonicalJson(told)}\n`)
  return { code, told }
}

const flowing = (text: string) => text.replace(/\s+/g, ' ')

describe('explain', () => {
  it('finds a setup of the list, and says its number', async () => {
    const [, second] = answer.front
    const { code, told } = await explained(second!.setup)
    expect(code).toBe(0)
    expect(told).toMatchObject({ verdict: 'listed', against: { rank: second!.rank } })
    expect(told.raw).toEqual(second!.raw)
  })

  it('names the listed setup that beats it, and by how much', async () => {
    const { code, out } = await explain({ ...answer.front[0]!.setup, duty: 0.9 })
    expect(code).toBe(0)
    expect(flowing(out)).toContain('This setup is beaten by number 1 of the list.')
    expect(flowing(out)).toMatch(/Beaten by number 1, which is no worse in anything that counts and \d+ km\/h faster/)
  })

  it('counts every limit that a setup breaks, in the figures of the wish where there are any', async () => {
    const poor = write('poor.json', { ...request, budget: '20 EUR', required: [], target: { speed_km_h: 500 } })
    const setup = JSON.stringify(exampleSetup())
    const { code, out, err } = await ductwright(['explain', '-', poor], setup)
    expect(code).toBe(1)
    expect(flowing(out)).toMatch(/This setup breaks (a limit|\d+ limits) of the request\./)
    expect(flowing(out)).toMatch(/budget: over the 20 EUR by [\d,.]+ EUR/)
    expect(flowing(out)).toMatch(/too slow: \d+ km\/h, and the list begins at 425 km\/h/)
    expect(err).not.toMatch(/\n\s+at /)
  })

  it('says what does not fit together', async () => {
    const { setup } = exampleSetup() as { setup: Record<string, unknown> }
    const { code, told } = await explained({ ...setup, nozzle_ratio: 0.5 })
    expect(code).toBe(1)
    expect(told.verdict).toBe('refused')
    expect(told.refused.length).toBeGreaterThan(0)
  })

  it('says that the request leaves a part out', async () => {
    const { esc } = answer.front[0]!.setup
    const without = write('without.json', { ...request, excluded: [esc] })
    const run = await ductwright(['explain', '-', without], JSON.stringify(answer.front[0]!.setup))
    expect(run.code).toBe(1)
    expect(flowing(run.out)).toContain('The request leaves this setup out.')
    expect(flowing(run.out)).toContain(`the request leaves no choice of ${answer.names[esc]}`)
  })

  it('takes a whole setup file as evaluate does, and judges it in the circumstances of the request', async () => {
    const [first] = answer.front
    const { told } = await explained(exampleSetup({ setup: first!.setup, field: { elevation_m: 2500 } }))
    expect(told).toMatchObject({ verdict: 'listed', against: { rank: 1 }, raw: first!.raw })
  })

  it.each([
    ['a part that nobody sells', { fan: 'no-such-fan' }, /\/setup\/fan.*no-such-fan/],
    ['a timing the controller does not offer', { timing_deg: 33.3 }, /\/setup\/timing_deg.*33\.3/],
  ])('refuses %s', async (_what, change, words) => {
    const { code, out, err } = await explain({ ...answer.front[0]!.setup, ...change })
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toMatch(words)
    expect(err).not.toMatch(/\n\s+at /)
  })

  it('refuses both inputs from one stream, and a file that is not there', async () => {
    const both = await ductwright(['explain', '-', '-'], '{}')
    const none = await ductwright(['explain', 'no-such-setup.json', requestFile])
    expect([both.code, none.code]).toEqual([2, 2])
    expect(both.err).toContain('only one of setup and request can be -')
    expect(none.err).toMatch(/no-such-setup\.json: cannot be read: no such file/)
  })
})
