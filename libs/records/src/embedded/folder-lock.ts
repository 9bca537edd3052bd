// One process at a time per data folder: two on one folder lose rows silently. The lock is a socket name that the system
// frees when its process dies, however it dies: an abstract Unix socket on Linux, a named pipe on Windows. A file beside
// the data names the holder for people. It is the lock itself where neither exists, and it guards the one case the
// socket cannot see: another machine or container on the same folder, which refreshes the file's time while it lives.

import { createHash } from 'node:crypto'
import { mkdir, readFile, rm, stat, utimes, writeFile } from 'node:fs/promises'
import { createServer, type Server } from 'node:net'
import { hostname } from 'node:os'
import { join } from 'node:path'

export interface FolderLock {
  release(): Promise<void>
}

interface Holder {
  readonly pid: number
  readonly host: string
  readonly since: string
}

const holderFile = 'in-use.json'
const refreshMs = 5_000
const staleMs = 20_000

export class FolderInUse extends Error {
  override readonly name = 'FolderInUse'
  constructor(
    readonly folder: string,
    readonly pid: number | null,
    where: string,
  ) {
    const holder = pid === null ? 'another process' : `process ${pid}`
    super(`data folder ${folder} is in use by ${holder}${where}: stop it first, or choose another folder`)
  }
}

export async function lockFolder(folder: string): Promise<FolderLock> {
  await mkdir(folder, { recursive: true, mode: 0o700 })
  const name = await socketName(folder)
  const server = name === null ? null : await listen(name, folder)
  try {
    await refuseOtherHolder(folder, server !== null)
    await writeHolder(folder, server !== null)
  } catch (error) {
    server?.close()
    throw error
  }
  return held(folder, server)
}

function held(folder: string, server: Server | null): FolderLock {
  const path = join(folder, holderFile)
  const refresh = setInterval(() => utimes(path, new Date(), new Date()).catch(() => undefined), refreshMs)
  refresh.unref()
  return {
    async release() {
      clearInterval(refresh)
      // The file goes first: once the socket is free, the file may already be the next holder's.
      await rm(path, { force: true })
      if (server !== null) await new Promise((resolve) => server.close(resolve))
    },
  }
}

/** Device and inode rather than the path: symbolic links and bind mounts lead to the same name. */
async function socketName(folder: string): Promise<string | null> {
  const { dev, ino } = await stat(folder, { bigint: true })
  const key = createHash('sha256').update(`${dev}:${ino}`).digest('hex').slice(0, 40)
  if (process.platform === 'linux') return `\0ductwright-${key}`
  if (process.platform === 'win32') return `\\\\.\\pipe\\ductwright-${key}`
  return null
}

async function listen(name: string, folder: string): Promise<Server> {
  const server = createServer((socket) => socket.destroy())
  const taken = await new Promise<NodeJS.ErrnoException | null>((resolve) => {
    server.once('error', resolve)
    server.listen({ path: name, exclusive: true }, () => resolve(null))
  })
  if (taken === null) return server.unref()
  if (taken.code !== 'EADDRINUSE') throw taken
  throw new FolderInUse(folder, (await readHolder(folder))?.pid ?? null, '')
}

/** With a socket only a holder elsewhere is left to look for; without one, a living process here as well. */
async function refuseOtherHolder(folder: string, hasSocket: boolean): Promise<void> {
  const holder = await readHolder(folder)
  if (holder === null) return
  if (holder.host === hostname()) {
    if (!hasSocket && isAlive(holder.pid)) throw new FolderInUse(folder, holder.pid, '')
  } else if (await isFresh(folder)) {
    const wait = `${staleMs / 1000} s after it has died the folder is free`
    throw new FolderInUse(folder, holder.pid, ` on host ${holder.host} (${wait})`)
  }
  await rm(join(folder, holderFile), { force: true })
}

async function writeHolder(folder: string, hasSocket: boolean): Promise<void> {
  const holder: Holder = { pid: process.pid, host: hostname(), since: new Date().toISOString() }
  // Exclusive creation decides between two starters where there is no socket.
  const flag = hasSocket ? 'w' : 'wx'
  try {
    await writeFile(join(folder, holderFile), `${JSON.stringify(holder)}\n`, { flag, mode: 0o600 })
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
    throw new FolderInUse(folder, (await readHolder(folder))?.pid ?? null, '')
  }
}

async function readHolder(folder: string): Promise<Holder | null> {
  try {
    const holder: unknown = JSON.parse(await readFile(join(folder, holderFile), 'utf8'))
    return isHolder(holder) ? holder : null
  } catch {
    // Missing, or cut short by a holder that died while writing it.
    return null
  }
}

function isHolder(value: unknown): value is Holder {
  const { pid, host } = (value ?? {}) as Partial<Holder>
  return Number.isInteger(pid) && typeof host === 'string'
}

async function isFresh(folder: string): Promise<boolean> {
  const { mtimeMs } = await stat(join(folder, holderFile))
  return Date.now() - mtimeMs < staleMs
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}
