// `evaluate --plots`: writes the page beside the report, or says why there is none.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { ductwright, exampleSetup } from '../cli/command.js'
import { elementsOf } from './plots-markup.js'

const folder = mkdtempSync(join(tmpdir(), 'ductwright-plots-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const plot = (file: string, setup: Record<string, unknown>) =>
  ductwright(['evaluate', '-', '--json', '--plots', file], JSON.stringify(setup))

describe('evaluate --plots', () => {
  it('draws the example setup with the speed of its report, and prints the report as always', async () => {
    const file = join(folder, 'page.html')
    const { code, out, err } = await plot(file, exampleSetup())
    expect({ code, err }).toEqual({ code: 0, err: '' })
    const { figures } = JSON.parse(out) as { figures: { speed_steady_km_h: number } }
    const page = readFileSync(file, 'utf8')
    expect(elementsOf(page).filter(({ name }) => name === 'svg').length).toBe(5 * 2 + 4)
    expect(page).toContain(`Thrust meets drag at ${Math.round(figures.speed_steady_km_h)}\u00a0km/h`)
  })

  it('writes nothing for a setup that does not fly, and says so', async () => {
    const { setup } = exampleSetup()
    const file = join(folder, 'none.html')
    const weak = { ...(setup as object), duty: 0.3, arrangement: 'single' }
    const { code, err } = await plot(file, exampleSetup({ setup: weak }))
    expect(code).toBe(1)
    expect(err).toContain('not written')
    expect(() => readFileSync(file)).toThrow(/ENOENT/)
  })

  it('names a file it cannot write', async () => {
    const file = join(folder, 'no', 'such', 'folder.html')
    const { code, err } = await plot(file, exampleSetup())
    expect(code).toBe(2)
    expect(err).toMatch(/folder\.html: cannot be written: no such file or folder/)
  })
})
