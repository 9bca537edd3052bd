// Modules joined into one script: each runs once, in the order of its imports, and nothing that cannot be joined is let
// through.
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { runInNewContext } from 'node:vm'
import { linkModules } from '@ductwright/report/page/link-modules'
import { pageParts, reportPolicy } from '@ductwright/report/page/page-policy'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

let folder: string

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'ductwright-link-'))
})

afterAll(() => rm(folder, { recursive: true }))

async function linked(files: Readonly<Record<string, string>>): Promise<string> {
  for (const [name, text] of Object.entries(files)) await writeFile(join(folder, name), text)
  return linkModules(pathToFileURL(join(folder, 'main.js')), 'start')
}

const one = "import { base as start0,\n  log } from './base.js'\nexport const one = () => log(start0 + 1)\n"
const base = 'const secret = 40\nexport const base = secret\nexport function log(value) { return value }\n'

describe('joined modules', () => {
  it('see what they import, under its new name too, and keep the rest to themselves', async () => {
    const main =
      "import { one } from './one.js'\nconst secret = 1\nexport function start(page) { page.seen = one() + secret }\n"
    const page: { seen?: number } = {}
    runInNewContext(await linked({ 'main.js': main, 'one.js': one, 'base.js': base }), { document: page })
    expect(page.seen).toBe(42)
  })

  it('run once each, however often they are imported', async () => {
    const counted = 'globalThis.runs = (globalThis.runs ?? 0) + 1\nexport const runs = 1\n'
    const again = "import { runs } from './counted.js'\nexport const again = runs\n"
    const main =
      "import { again } from './again.js'\nimport { runs } from './counted.js'\nexport function start(page) { page.sum = again + runs }\n"
    const page = { sum: 0 }
    const world = { document: page, runs: undefined as number | undefined }
    runInNewContext(await linked({ 'main.js': main, 'again.js': again, 'counted.js': counted }), world)
    expect([page.sum, world.runs]).toEqual([2, 1])
  })

  it.each([
    ["import all from './base.js'\nexport function start() {}\n", 'cannot be linked: import all'],
    ["import * as all from './base.js'\nexport function start() {}\n", 'cannot be linked: import *'],
    ['export default function start() {}\n', 'cannot be linked: export default'],
    ["export { log } from './base.js'\nexport function start() {}\n", 'cannot be linked: export {'],
    ["export function start() { return '</script>' }\n", 'would end its own element'],
    ["export function start() { return '<!--' }\n", 'would end its own element'],
  ])('are refused in a form that is not taken: %j', async (main, message) => {
    await expect(linked({ 'main.js': main, 'base.js': base })).rejects.toThrow(message)
  })
})

describe('the policy of the page', () => {
  it('allows one script and one style by their hashes, and the same ones every time', async () => {
    const { policy } = await pageParts()
    expect(policy).toMatch(
      /^default-src 'none'; script-src 'sha256-[\w+/]{43}='; style-src 'sha256-[\w+/]{43}='; img-src data:; base-uri 'none'; form-action 'none'$/,
    )
    expect(await reportPolicy()).toBe(`${policy}; frame-ancestors 'none'`)
    expect((await pageParts()).policy).toBe(policy)
  })
})
