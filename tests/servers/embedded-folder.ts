// Fresh data folders for the embedded database. Creating one takes seconds, copying one a fraction: the first call on
// this machine makes a template outside the tree of tests, the others copy it.

import { rmSync } from 'node:fs'
import { cp, mkdir, mkdtemp, readdir, readFile, rename, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { EmbeddedPool } from '@ductwright/records/embedded/embedded-pool'

export interface ScratchFolder {
  readonly path: string
  remove(): Promise<void>
}

const prefix = 'ductwright-data-'
const staleMs = 2 * 3_600_000
const left = new Set<string>()
// A test that failed has not removed its folder; one that was killed is cleaned up after by a later run.
process.once('exit', () => {
  for (const path of left) rmSync(path, { recursive: true, force: true })
})

/** A data folder with an empty database in it. */
export async function freshDataFolder(): Promise<ScratchFolder> {
  await removeStale()
  const path = await mkdtemp(join(tmpdir(), prefix))
  left.add(path)
  await cp(await template(), path, { recursive: true })
  return {
    path,
    async remove() {
      await rm(path, { recursive: true, force: true })
      left.delete(path)
    },
  }
}

async function removeStale(): Promise<void> {
  for (const name of (await readdir(tmpdir())).filter((each) => each.startsWith(prefix))) {
    const path = join(tmpdir(), name)
    const { mtimeMs } = await stat(path).catch(() => ({ mtimeMs: Date.now() }))
    if (Date.now() - mtimeMs > staleMs) await rm(path, { recursive: true, force: true })
  }
}

async function template(): Promise<string> {
  const root = fileURLToPath(new URL('../../.cache/', import.meta.url))
  const final = join(root, `embedded-template-${await engineVersion()}`)
  if (await exists(final)) return final
  await mkdir(root, { recursive: true })
  const draft = await mkdtemp(join(root, 'embedded-draft-'))
  await (await EmbeddedPool.open({ dataFolder: draft })).end()
  // Two test files may get here at once: the first rename wins, the other draft is thrown away.
  await rename(draft, final).catch(() => rm(draft, { recursive: true, force: true }))
  return final
}

async function engineVersion(): Promise<string> {
  const path = fileURLToPath(new URL('../package.json', import.meta.resolve('@electric-sql/pglite')))
  const { version } = JSON.parse(await readFile(path, 'utf8')) as { version: string }
  return version
}

async function exists(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  )
}
