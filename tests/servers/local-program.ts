// Finding server programs on this machine, and the unprivileged user they need when the tests run as root.

import { execFile } from 'node:child_process'
import { access, constants, readdir } from 'node:fs/promises'
import { createServer } from 'node:net'
import { join } from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)

export async function findProgram(name: string, folders: readonly string[]): Promise<string | null> {
  for (const folder of folders) {
    const path = join(folder, name)
    if (await isExecutable(path)) return path
  }
  return null
}

/** Where Debian and its kin keep the server programs, newest version first; they are not on the PATH. */
export async function postgresFolders(): Promise<string[]> {
  const root = '/usr/lib/postgresql'
  const versions = await readdir(root).catch(() => [])
  return versions.sort((a, b) => Number(b) - Number(a)).map((version) => join(root, version, 'bin'))
}

export interface Account {
  readonly uid: number | null
  readonly gid: number | null
}

/** Postgres refuses to run as root: another account then, `postgres` or `nobody`. Nulls: stay who we are. */
export async function unprivilegedAccount(): Promise<Account> {
  if (process.getuid?.() !== 0) return { uid: null, gid: null }
  for (const name of ['postgres', 'nobody']) {
    const [uid, gid] = await Promise.all([numericId('-u', name), numericId('-g', name)])
    if (uid !== null && gid !== null) return { uid, gid }
  }
  throw new Error('running as root and neither the account "postgres" nor "nobody" exists')
}

export async function freePort(): Promise<number> {
  const server = createServer()
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const address = server.address()
  await new Promise((resolve) => server.close(resolve))
  if (address === null || typeof address === 'string') throw new Error('the system gave no free port')
  return address.port
}

async function numericId(flag: '-u' | '-g', name: string): Promise<number | null> {
  try {
    return Number((await run('id', [flag, name])).stdout)
  } catch {
    return null
  }
}

async function isExecutable(path: string): Promise<boolean> {
  try {
    await access(path, constants.X_OK)
    return true
  } catch {
    return false
  }
}
