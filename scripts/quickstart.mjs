// From a plain clone to a first answer: installs and builds what is missing, starts the service on a free port of this
// machine, sends it the example request over HTTP as any client would, follows the work, prints the answer and says
// where the mail lies. Records stay in the data folder, so the next run starts faster.
import { readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { build, checkNode, install, projectFolder } from './prepare.mjs'
import { startService } from './service-process.mjs'

const EXAMPLE = join('examples', 'composite-to-360.json')
const POLL_MS = 250
const MAIL_WAIT_MS = 20_000
const ended = ['answered', 'failed', 'cancelled']
const settled = ['written', 'accepted', 'failed', 'unknown', 'held']

let service = null
for (const signal of ['SIGINT', 'SIGTERM']) {
  process.once(signal, async () => {
    await service?.stop()
    process.exit(1)
  })
}

try {
  await quickstart()
} catch (error) {
  process.stderr.write(`\nThe quickstart failed: ${error.message}\n`)
  for (const line of service?.log ?? error.log ?? []) process.stderr.write(`  service: ${line}\n`)
  process.exitCode = 1
} finally {
  await service?.stop()
}

async function quickstart() {
  checkNode()
  install()
  process.stdout.write('Building ...\n')
  build('cli')
  process.stdout.write('Starting the service ...\n')
  service = await startService('data')
  process.stdout.write(`The service listens on ${service.address}.\n`)
  const { id } = await call('/v1/requests', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: readFileSync(join(projectFolder, EXAMPLE)),
  })
  process.stdout.write(`Sent ${EXAMPLE} as request ${id}.\n\n`)
  const status = await followed(id)
  if (status.state !== 'answered')
    throw new Error(`the request ended ${status.state}: ${status.cause ?? 'no cause given'}`)
  await show(await call(`/v1/requests/${id}/result`))
  showMails(await mailed(id))
  const code = await service.stop()
  if (code !== 0) throw new Error(`the service ended with code ${code}`)
}

async function call(path, options = {}) {
  const reply = await fetch(new URL(path, service.address), { signal: AbortSignal.timeout(30_000), ...options })
  const body = await reply.json()
  if (reply.ok) return body
  throw new Error(`${options.method ?? 'GET'} ${path} was answered ${reply.status}: ${body.detail ?? body.title}`)
}

async function followed(id) {
  const line = progressLine()
  for (;;) {
    const status = await call(`/v1/requests/${id}`)
    line.update(status.state, status.progress)
    if (ended.includes(status.state)) {
      line.stop()
      return status
    }
    await sleep(POLL_MS)
  }
}

// One line drawn over and over on a terminal; plain lines, one a tenth, everywhere else.
function progressLine() {
  const terminal = process.stdout.isTTY
  let last = ''
  return {
    update(state, share) {
      const percent = terminal ? Math.floor(100 * share) : 10 * Math.floor(10 * share)
      const text = `${state}, ${percent} % done`
      if (text !== last) process.stdout.write(terminal ? `\r\x1b[2K${text}` : `${text}\n`)
      last = text
    },
    stop() {
      process.stdout.write('\n')
    },
  }
}

async function show(result) {
  const { softened, wrap } = await import('@ductwright/report/plain')
  const { renderTable } = await import('@ductwright/report/table')
  const width = Math.max(80, Math.min(100, process.stdout.columns || 100))
  process.stdout.write(`${softened(wrap(result.headline, width).join('\n'))}\n\n${renderTable(result, { width })}\n`)
}

async function mailed(id) {
  const end = Date.now() + MAIL_WAIT_MS
  for (;;) {
    const { mails } = await call(`/v1/requests/${id}`)
    if (mails.every((mail) => settled.includes(mail.state))) return mails
    if (Date.now() > end) throw new Error(`the mail was not settled in ${MAIL_WAIT_MS / 1000} s`)
    await sleep(POLL_MS)
  }
}

function showMails(mails) {
  for (const mail of mails) process.stdout.write(`${whereItLies(mail)}\n`)
}

function whereItLies(mail) {
  if (mail.state === 'held') return 'The mail waits until its address is confirmed.'
  if (mail.state === 'accepted') return 'The mail server took the mail.'
  if (mail.state !== 'written') throw new Error(`the mail is ${mail.state}: ${mail.last_error ?? 'no reason given'}`)
  const file = relative(projectFolder, join(service.mailFolder, `${mail.id}.eml`))
  return `The mail lies in ${file}: open it in any mail program.`
}
