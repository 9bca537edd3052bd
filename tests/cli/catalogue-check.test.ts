// The catalogue check as a child process: the demonstration catalogue passes, and a spoilt copy is refused fault by fault.
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ductwright } from './command.js'

let folder = ''

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ductwright-catalogue-'))
  cpSync(demoCatalogueFolder, folder, { recursive: true })
})

afterEach(() => {
  rmSync(folder, { recursive: true })
})

describe('catalogue check', () => {
  it('counts what a sound catalogue holds and names its version', async () => {
    const { version, fans } = await readCatalogueFolder(demoCatalogueFolder)
    const { code, out, err } = await ductwright(['catalogue', 'check', folder])
    expect({ code, err }).toEqual({ code: 0, err: '' })
    expect(out).toContain(`${fans.length} fans`)
    expect(out).toContain(version)
  })

  it('prints every fault with file, line, column, rule and value, and ends with 2', async () => {
    spoil('fans.csv', 2, 'tip_diameter_mm', '9000')
    spoil('motors.csv', 3, 'mass_g', 'heavy')
    const { code, out, err } = await ductwright(['catalogue', 'check', folder])
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toMatch(/^fans\.csv:2 tip_diameter_mm .*9000.*\[[a-z-]+\]$/m)
    expect(err).toMatch(/^motors\.csv:3 mass_g .*heavy.*\[[a-z-]+\]$/m)
    expect(err).not.toMatch(/\n\s+at /)
  })

  it('refuses a folder that is not there', async () => {
    const { code, err } = await ductwright(['catalogue', 'check', join(folder, 'nothing')])
    expect(code).toBe(2)
    expect(err).toMatch(/nothing: cannot be read: no such file or folder/)
  })
})

/** Replaces one cell, counting lines from 1; a column that is not there leaves the table as it is. */
function spoil(table: string, line: number, column: string, value: string): void {
  const file = join(folder, table)
  const rows = readFileSync(file, 'utf8')
    .split('\n')
    .map((row) => row.split(','))
  const at = rows[0]?.indexOf(column) ?? -1
  if (at >= 0) rows[line - 1]?.splice(at, 1, value)
  writeFileSync(file, rows.map((row) => row.join(',')).join('\n'))
}
