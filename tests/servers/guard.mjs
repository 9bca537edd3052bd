// Runs one server for the tests and outlives them just long enough to clean up: it obeys lines on its standard input,
// and when that ends, because the tests are done or were killed, it ends the server and removes its folder.
// Usage: node guard.mjs '{"command","args","uid","gid","folder","hardSignal"}'

import { spawn } from 'node:child_process'
import { readFileSync, rmSync } from 'node:fs'
import { createInterface } from 'node:readline'

const job = JSON.parse(process.argv[2] ?? '{}')
let server = null
let stopping = false

for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => undefined)

const say = (line) => process.stdout.write(`${line}\n`)

function start() {
  const owner = job.uid === null ? {} : { uid: job.uid, gid: job.gid }
  server = spawn(job.command, job.args, { ...owner, cwd: job.folder, stdio: ['ignore', 'ignore', 'pipe'] })
  let log = ''
  server.stderr.on('data', (data) => {
    log = `${log}${data}`.slice(-4000)
  })
  server.once('error', (error) => say(`failed ${error.message}`))
  server.once('exit', (code, signal) => {
    server = null
    say(`exited ${code ?? signal} ${JSON.stringify(log)}`)
    if (stopping) finish()
  })
  say('started')
}

/** A Postgres server works in child processes: a freeze has to reach them too. */
function withChildren(pid) {
  try {
    const children = readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8')
    return [pid, ...children.split(' ').filter(Boolean).map(Number)]
  } catch {
    return [pid]
  }
}

function signalAll(signal) {
  if (server === null) return
  for (const pid of withChildren(server.pid)) {
    try {
      process.kill(pid, signal)
    } catch {
      // It has ended by itself meanwhile.
    }
  }
}

function finish() {
  rmSync(job.folder, { recursive: true, force: true })
  process.exit(0)
}

function stop() {
  stopping = true
  if (server === null) finish()
  signalAll('SIGCONT')
  server?.kill(job.softSignal)
  setTimeout(() => server?.kill('SIGKILL'), 4000)
  setTimeout(finish, 6000)
}

const orders = {
  start,
  kill: () => (server === null ? say('exited') : server.kill(job.hardSignal)),
  freeze: () => {
    signalAll('SIGSTOP')
    say('frozen')
  },
  thaw: () => {
    signalAll('SIGCONT')
    say('thawed')
  },
}

const lines = createInterface({ input: process.stdin })
lines.on('line', (line) => orders[line]?.())
lines.on('close', stop)
start()
