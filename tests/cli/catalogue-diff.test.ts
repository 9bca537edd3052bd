// `catalogue diff` as a child process: folders and JSON files alike, sentences on the terminal, rows as JSON, and bad input
// named.
import { cpSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ductwright } from './command.js'

let folder = ''
let changed = ''

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ductwright-diff-'))
  changed = join(folder, 'changed')
  cpSync(demoCatalogueFolder, changed, { recursive: true })
  const motors = join(changed, 'motors.csv')
  writeFileSync(motors, readFileSync(motors, 'utf8').replace(/^(motor-torva-2548-2950,.*),45\.9,EUR$/m, '$1,57.9,EUR'))
})

afterEach(() => {
  rmSync(folder, { recursive: true })
})

const WORDS = 'Torva 2548-2950 is 12 EUR dearer (45.90 → 57.90 EUR)'

describe('catalogue diff', () => {
  it('says each difference in a sentence of its own', async () => {
    const { code, out, err } = await ductwright(['catalogue', 'diff', demoCatalogueFolder, changed])
    expect({ code, err }).toEqual({ code: 0, err: '' })
    expect(out.split('\n').slice(1)).toEqual([`- ${WORDS}`, '1 difference.', ''])
    expect(out).toMatch(/^.+ of 2026-03-14 → .+ of 2026-03-14\n/)
  })

  it('finds nothing between a folder and the JSON of its version', async () => {
    const file = join(folder, 'version.json')
    writeFileSync(file, catalogueContent(await readCatalogueFolder(demoCatalogueFolder)))
    const { code, out } = await ductwright(['catalogue', 'diff', demoCatalogueFolder, file])
    expect([code, out.split('\n').at(-2)]).toEqual([0, 'Nothing is different.'])
  })

  it('prints rows as JSON and nothing else when asked', async () => {
    const { code, out } = await ductwright(['catalogue', 'diff', demoCatalogueFolder, changed, '--json'])
    expect(code).toBe(0)
    expect(JSON.parse(out)).toMatchObject({
      before: { version: (await readCatalogueFolder(demoCatalogueFolder)).version },
      after: { version: (await readCatalogueFolder(changed)).version },
      catalogue: [],
      parts: [{ kind: 'dearer', table: 'motors', id: 'motor-torva-2548-2950', before: 45.9, after: 57.9, columns: [] }],
    })
  })

  it('names what is wrong with either side, and ends with 2', async () => {
    const file = join(folder, 'broken.json')
    writeFileSync(file, '{')
    const broken = await ductwright(['catalogue', 'diff', demoCatalogueFolder, file])
    expect([broken.code, broken.out]).toEqual([2, ''])
    expect(broken.err).toMatch(/broken\.json: not JSON: /)
    const nothing = await ductwright(['catalogue', 'diff', join(folder, 'nothing'), changed])
    expect([nothing.code, nothing.err]).toEqual([2, expect.stringMatching(/nothing: cannot be read: no such file/)])
    writeFileSync(file, '{"files":{"fans.csv":"id"}}')
    const faulty = await ductwright(['catalogue', 'diff', changed, file])
    expect([faulty.code, faulty.err]).toEqual([
      2,
      expect.stringMatching(/^motors\.csv: is missing.* \[missing-file\]$/m),
    ])
  })

  it('refuses a table of 50 MB without reading it', async () => {
    truncateSync(join(changed, 'packs.csv'), 50 * 1024 * 1024)
    const { code, err } = await ductwright(['catalogue', 'check', changed])
    expect([code, err]).toEqual([2, 'packs.csv 50.0 MiB: is larger than 2 MiB, the most that is read [size]\n'])
  })
})
