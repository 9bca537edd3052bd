// A worker of its own on an embedded store, with short leases, until it is killed: its arguments are the data folder, the
// port of a mail server on this machine and a request. Says when the mails of that request are settled.
import { openJobs } from '@ductwright/queue/open-jobs'
import { openRecords } from '@ductwright/records/open-records'
import { startWorker } from '@ductwright/worker/app'
import { defaultWorkerSettings } from '@ductwright/worker/settings'

const [dataFolder = '', port = '0', requestId = ''] = process.argv.slice(2)
const quiet = () => quietLog
const quietLog = { info() {}, warn() {}, error() {}, child: quiet }
const server = {
  host: '127.0.0.1',
  port: Number(port),
  secure: false,
  requireTls: false,
  auth: null,
  certificateAuthority: null,
}

const records = await openRecords({ dataFolder })
const jobs = await openJobs(
  { pool: records.pool, kind: 'embedded' },
  { lockMs: 2000, stalledCheckMs: 500, backoffMs: 50 },
)
await startWorker({
  records,
  jobs,
  log: quietLog,
  settings: {
    ...defaultWorkerSettings,
    threads: 1,
    leaseMs: 1000,
    reconcileMs: 100,
    mailBackoffMs: 100,
    mailTimeoutMs: 700,
    mail: { kind: 'smtp', server },
    mailFrom: 'jets@example.org',
    publicUrl: 'http://jets.example.org',
  },
})

const open = ['held', 'pending', 'sending', 'unknown']
let mails = []
do {
  await new Promise((resolve) => setTimeout(resolve, 100))
  mails = await records.mailsOf(requestId)
} while (mails.length === 0 || mails.some(({ state }) => open.includes(state)))
console.log(`settled ${JSON.stringify(mails)}`)
