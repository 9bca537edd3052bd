// The service as a child process: started on a free port of this machine, asked to stop with SIGTERM, and never left
// behind. Its log is kept short, to be shown only when something goes wrong.
import { spawn } from 'node:child_process'
import { createInterface } from 'node:readline'
import { projectFolder } from './prepare.mjs'

const START_TIMEOUT_MS = 60_000
const STOP_TIMEOUT_MS = 30_000
const KEPT_LOG_LINES = 15

/** Starts the service on a data folder; resolves once it listens. */
export async function startService(dataFolder) {
  const args = ['cli/bin/ductwright.js', 'serve', '--host', '127.0.0.1', '--port', '0', '--data', dataFolder]
  const env = { LOG_LEVEL: 'warn', ...process.env }
  const child = spawn(process.execPath, args, { cwd: projectFolder, env, stdio: ['ignore', 'pipe', 'pipe'] })
  const log = []
  const ended = new Promise((resolve) => child.once('close', (code) => resolve(code ?? 1)))
  createInterface({ input: child.stderr }).on('line', (line) => {
    log.push(line)
    if (log.length > KEPT_LOG_LINES) log.shift()
  })
  const service = { child, ended, log, mailFolder: null, address: null, stop: () => stop(child, ended) }
  try {
    await listening(service)
  } catch (error) {
    await service.stop()
    // The caller has no service to ask for its log.
    throw Object.assign(error, { log })
  }
  return service
}

function listening(service) {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error('The service did not start in time.')), START_TIMEOUT_MS)
    service.ended.then((code) => reject(new Error(`The service ended with code ${code} before it listened.`)))
    createInterface({ input: service.child.stdout }).on('line', (line) => {
      service.mailFolder ??= line.match(/^Mail is written to (.+)$/)?.[1] ?? null
      service.address ??= line.match(/^Listening on (http:\S+)$/)?.[1] ?? null
      if (service.address === null) return
      clearTimeout(timer)
      resolve()
    })
    service.ended.finally(() => clearTimeout(timer))
  })
}

async function stop(child, ended) {
  if (child.exitCode === null && child.signalCode === null) child.kill('SIGTERM')
  const timer = setTimeout(() => child.kill('SIGKILL'), STOP_TIMEOUT_MS)
  const code = await ended
  clearTimeout(timer)
  return code
}
