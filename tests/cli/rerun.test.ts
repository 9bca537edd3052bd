// `rerun`: the same bytes from the same request, catalogue version and model version, and plain words when one of them, or
// the answer, is another.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { catalogueContent, sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import type { Result } from '@ductwright/contract/result'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ductwright, quickRequest } from './command.js'

const folder = mkdtempSync(join(tmpdir(), 'ductwright-rerun-'))
const file = (name: string, text: string): string => {
  const path = join(folder, name)
  writeFileSync(path, text)
  return path
}

let bytes = ''
let answer: Result

beforeAll(async () => {
  bytes = (await ductwright(['sweep', '-', '--json'], JSON.stringify(quickRequest({ target: { speed_km_h: 200 } }))))
    .out
  answer = JSON.parse(bytes) as Result
})

afterAll(() => rmSync(folder, { recursive: true, force: true }))

const changed = (name: string, changes: Record<string, unknown>): string =>
  file(name, `${canonicalJson({ ...answer, ...changes })}\n`)

describe('rerun', () => {
  it('gives the same bytes', async () => {
    const { code, out, err } = await ductwright(['rerun', file('same.json', bytes), '--json', '--threads', '2'])
    expect({ code, same: out === bytes }).toEqual({ code: 0, same: true })
    expect(err).toContain('The same bytes.')
  })

  it('takes the catalogue version from a file, whatever is current now', async () => {
    const { version: _version, ...loose } = await readCatalogueFolder(demoCatalogueFolder)
    const other = sealCatalogue({ ...loose, name: 'Another edition' })
    const old = file('catalogue.json', catalogueContent(other))
    const request = JSON.stringify(quickRequest({ target: { speed_km_h: 200 } }))
    const made = (await ductwright(['sweep', '-', '--json', '--catalogue', old], request)).out
    const path = file('old.json', made)
    const wrong = await ductwright(['rerun', path])
    expect([wrong.code, wrong.out]).toEqual([2, ''])
    expect(wrong.err).toContain(`version ${other.version}`)
    expect((await ductwright(['rerun', path, '--catalogue', old])).code).toBe(0)
  })

  it('says where an answer that was changed differs, and ends with 1', async () => {
    const { code, err } = await ductwright(['rerun', changed('changed.json', { headline: 'Buy <b>this</b>\u202e' })])
    expect(code).toBe(1)
    expect(err).toMatch(/Not the same: 1 value differs/)
    expect(err).toMatch(/^\/headline: was "Buy <b>this<\/b>.*, is "/m)
    expect(err).not.toContain('\u202e')
    const spelled = await ductwright(['rerun', file('spelled.json', JSON.stringify(JSON.parse(bytes), null, 2))])
    expect([spelled.code, spelled.err]).toEqual([1, expect.stringContaining('in other bytes')])
  })

  it.each([
    [
      'models of another version',
      () => changed('models.json', { model_version: '0.0.1' }),
      /models 0\.0\.1, this program/,
    ],
    ['what is no answer', () => file('none.json', '{"format":"other"}'), /is not an answer/],
    ['an answer without its request', () => changed('bare.json', { understood: {} }), /does not say which request/],
    ['text that is not JSON', () => file('broken.json', '{'), /not JSON/],
    ['a file that is not there', () => join(folder, 'nowhere.json'), /no such file/],
  ])('refuses %s', async (_what, path, words) => {
    const { code, out, err } = await ductwright(['rerun', path()])
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toMatch(words)
    expect(err).not.toMatch(/\n\s+at /)
  })
})
