// The page of evidence names tables and tests that exist, and leaves no table of authorities out.
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'

const root = new URL('../../', import.meta.url)
const page = readFileSync(new URL('docs/evidence.md', root), 'utf8')
const named = (ending: string) => [
  ...new Set(
    [...page.matchAll(/`([\w-]+(?:\.\w+)+)`/g)].map((match) => match[1] ?? '').filter((name) => name.endsWith(ending)),
  ),
]
const tables = readdirSync(new URL('tests/authorities/', root)).filter((name) => name.endsWith('.csv'))

describe('docs/evidence.md', () => {
  it('names every table of authorities, and no other', () => {
    expect(tables.length).toBeGreaterThan(40)
    expect(named('.csv').sort()).toEqual(tables.sort())
  })

  it('names only tests that exist', () => {
    const tests = named('.test.ts')
    expect(tests.length).toBeGreaterThan(15)
    const missing = tests.filter(
      (name) => !['models', 'sweep'].some((area) => existsSync(new URL(`tests/${area}/${name}`, root))),
    )
    expect(missing).toEqual([])
  })
})
