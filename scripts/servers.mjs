// Finds out, before the tests run, whether Redis and Postgres can be started here: in a container, or from the
// machine's own programs. Without them the suites that need a server are skipped, which must not pass unnoticed.
import { existsSync, readdirSync } from 'node:fs'
import { createConnection } from 'node:net'
import { homedir } from 'node:os'
import { delimiter, join } from 'node:path'

const DEBIAN_POSTGRES = '/usr/lib/postgresql'

/** One sentence for each server that cannot be started. */
export async function missingServers() {
  if (await containerEngine()) return []
  const missing = []
  const { TEST_REDIS_URL, TEST_DATABASE_URL } = process.env
  if (!TEST_REDIS_URL && !onPath('redis-server')) missing.push(complaint('Redis', 'redis-server'))
  if (!TEST_DATABASE_URL && !onPath('postgres') && !debianPostgres()) missing.push(complaint('Postgres', 'postgresql'))
  return missing
}

function complaint(server, debianPackage) {
  return `${server} cannot be started: no container engine answers and ${debianPackage} is not installed. Tests that need it are skipped.`
}

function onPath(program) {
  const folders = (process.env.PATH ?? '').split(delimiter).filter((folder) => folder !== '')
  return folders.some((folder) => existsSync(join(folder, program)) || existsSync(join(folder, `${program}.exe`)))
}

// Debian keeps the server programs of each version off PATH.
function debianPostgres() {
  if (!existsSync(DEBIAN_POSTGRES)) return false
  return readdirSync(DEBIAN_POSTGRES).some((version) => existsSync(join(DEBIAN_POSTGRES, version, 'bin', 'postgres')))
}

// A client on PATH proves nothing: only an engine that accepts a connection can start a container.
async function containerEngine() {
  const answers = await Promise.all(engineTargets().map(accepts))
  return answers.includes(true)
}

function engineTargets() {
  const { DOCKER_HOST, XDG_RUNTIME_DIR } = process.env
  if (DOCKER_HOST?.startsWith('unix://')) return [{ path: DOCKER_HOST.slice('unix://'.length) }]
  if (DOCKER_HOST) {
    const { hostname, port } = new URL(DOCKER_HOST.replace(/^tcp:/, 'http:'))
    return [{ host: hostname, port: Number(port || 2375) }]
  }
  const sockets = ['/var/run/docker.sock', join(homedir(), '.docker', 'run', 'docker.sock')]
  if (XDG_RUNTIME_DIR) sockets.push(join(XDG_RUNTIME_DIR, 'podman', 'podman.sock'))
  return sockets.map((path) => ({ path }))
}

function accepts(target) {
  return new Promise((resolve) => {
    const socket = createConnection({ ...target, timeout: 1000 })
    const settle = (answer) => {
      socket.destroy()
      resolve(answer)
    }
    socket.once('connect', () => settle(true))
    socket.once('error', () => settle(false))
    socket.once('timeout', () => settle(false))
  })
}
