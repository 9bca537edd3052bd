// Many standing requests run again after the price of one part changed, through the whole service: embedded records and
// queue, two compute threads, mail into a folder. First whole runs, whose answers their owners are taken to know, so that no
// mail is composed; then the change, from what those runs kept. `npm run bench:standing -- 1000` prints a page; with `--write` it is
// bench/STANDING.md.

import { writeFileSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { cpus, loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { catalogueContent, sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { canonicalJson, sha256Hex } from '@ductwright/contract/canonical-json'
import { createLog } from '@ductwright/log/log'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { openJobs } from '@ductwright/queue/open-jobs'
import { openRecords } from '@ductwright/records/open-records'
import { startWorker } from '@ductwright/worker/app'
import { defaultWorkerSettings } from '@ductwright/worker/settings'
import { commit } from './measure.mjs'
import { table } from './page.mjs'

const THREADS = 2
const TARGETS = Array.from({ length: 20 }, (_, i) => 180 + 10 * i)
const BUDGETS = ['600 EUR', '900 EUR', '1200 EUR', '1800 EUR', null]
/** Of the dearer part, in the currency of the catalogue. */
const STEP = 2

const AT_ONCE = { quietMs: 0, longestMs: 0, requireConfirmed: false }

const asked = Number(process.argv[2] ?? 1000)
const load = loadavg()[0] ?? 0
const catalogue = await readCatalogueFolder(demoCatalogueFolder)
const folder = await mkdtemp(join(tmpdir(), 'standing-'))
const records = await openRecords({ dataFolder: join(folder, 'data') })
const jobs = await openJobs({ pool: records.pool, kind: 'embedded' })
const counts = { whole: 0, taken: 0, refused: new Map() }
const settings = {
  ...defaultWorkerSettings,
  threads: THREADS,
  reconcileMs: 500,
  standingQuietMs: 0,
  mail: { kind: 'folder', folder: join(folder, 'mail') },
  publicUrl: 'http://localhost:8080',
}
let worker = null

try {
  await stand(asked)
  worker = await startWorker({ records, jobs, settings, log: createLog('bench', 'info', { write: noted }) })
  const rows = [await until('whole runs', catalogue)]
  await known()
  const part = catalogue.packs[catalogue.packs.length >> 2]
  rows.push(await until(`${part.name} ${STEP} ${catalogue.currency} dearer`, dearer(part)))
  const kept = await records.pool.query(
    'select sum(length(front))::float8 as front, sum(length(notes))::float8 as notes from ductwright.kept_fronts',
  )
  const text = page(rows, kept.rows[0])
  process.stdout.write(text)
  if (process.argv.includes('--write')) writeFileSync(new URL('./STANDING.md', import.meta.url), text)
} finally {
  await worker?.close(1000)
  await jobs.close(100)
  await records.close()
  await rm(folder, { recursive: true, force: true })
}

/** Their first runs are on their way; paused, none is mailed. */
async function stand(count) {
  await records.putCatalogue(catalogue.version, catalogue.name, catalogueContent(catalogue))
  const airframes = catalogue.airframes.map(({ part }) => part.id)
  for (let i = 0; i < count; i++) {
    const request = {
      title: `Question ${i}`,
      target: { speed_km_h: TARGETS[i % TARGETS.length] },
      airframe: { id: airframes[Math.floor(i / TARGETS.length) % airframes.length] },
    }
    const budget = BUDGETS[Math.floor(i / TARGETS.length / airframes.length) % BUDGETS.length]
    const body = canonicalJson(budget === null ? request : { ...request, budget })
    const address = `pilot-${i}@example.org`
    const { standing } = await records.acceptStanding({
      title: request.title,
      address,
      body,
      bodyHash: sha256Hex(body),
      everyDays: null,
      idempotencyKey: null,
    })
    await records.advanceStanding(standing.id, { catalogue: catalogue.version, model: MODEL_VERSION }, AT_ONCE)
  }
  await records.pool.query("update ductwright.standing_requests set state = 'paused'")
}

/** From now on their owners know the answers of the first runs. */
async function known() {
  await records.pool.query(`update ductwright.standing_requests standing set state = 'active', mailed_hash = answer_hash,
    mailed_run_id = request_id from ductwright.answers join ductwright.requests run on run.id = request_id
    where run.standing_id = standing.id`)
}

/** Puts a catalogue in force and waits until every standing request is answered for it. */
async function until(what, version) {
  const { whole, taken } = counts
  await records.putCatalogue(version.version, version.name, catalogueContent(version))
  const begun = performance.now()
  let peak = 0
  const quarters = []
  while (true) {
    const { rows } = await records.pool.query(
      'select count(*)::int as done from ductwright.standing_requests where settled_catalogue = $1',
      [version.version],
    )
    const { done } = rows[0]
    const memory = process.memoryUsage().rss / 2 ** 20
    peak = Math.max(peak, memory)
    if (done >= (asked * (quarters.length + 1)) / 4) {
      quarters.push(memory)
      process.stderr.write(`${what}: ${done} after ${((performance.now() - begun) / 1000).toFixed(0)} s\n`)
    }
    if (done === asked) break
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
  const seconds = (performance.now() - begun) / 1000
  const { rows } = await records.pool.query(
    "select count(*)::int as mails from ductwright.outbox where kind <> 'confirmation'",
  )
  return {
    what,
    seconds,
    peak,
    quarters,
    whole: counts.whole - whole,
    taken: counts.taken - taken,
    mails: rows[0].mails,
  }
}

function noted(line) {
  const { msg, reason } = JSON.parse(line)
  if (msg === 'sweep planned') counts.whole++
  if (msg === 'front taken over') counts.taken++
  if (msg === 'front not taken over') counts.refused.set(reason, (counts.refused.get(reason) ?? 0) + 1)
}

function dearer(part) {
  const packs = catalogue.packs.map((pack) => (pack === part ? { ...pack, price: pack.price + STEP } : pack))
  return sealCatalogue({ ...catalogue, packs })
}

function page(rows, kept) {
  const [full, again] = rows
  let mails = 0
  const lines = rows.map((row) => {
    const sent = row.mails - mails
    mails = row.mails
    return [
      row.what,
      row.whole,
      row.taken,
      sent,
      row.seconds.toFixed(0),
      ((1000 * row.seconds) / asked).toFixed(0),
      row.peak.toFixed(0),
      row.quarters.map((mb) => mb.toFixed(0)).join(', '),
    ]
  })
  const refused = [...counts.refused].map(([reason, count]) => `- ${count} × not taken over: ${reason}`)
  return [
    '# Standing requests run again',
    '',
    `Written by \`npm run bench:standing -- ${asked}\`: ${asked} standing requests (airframes of the demonstration catalogue × targets of`,
    `${TARGETS[0]} to ${TARGETS.at(-1)} km/h × budgets), embedded records and queue, ${THREADS} compute threads, mail into a folder.`,
    '',
    `- Date: ${new Date().toISOString().slice(0, 10)}`,
    `- Commit: ${commit()}`,
    `- Processor: ${cpus()[0]?.model ?? 'unknown'}, ${cpus().length} threads; load before: ${load.toFixed(1)}`,
    `- Node: ${process.version}`,
    `- From what was kept against whole: ${(full.seconds / again.seconds).toFixed(1)} × quicker`,
    `- Kept: ${(kept.front / asked / 1024).toFixed(0)} kB of fronts and ${(kept.notes / asked / 1024).toFixed(0)} kB of notes a request`,
    ...refused,
    '',
    ...table(
      ['Runs', 'Whole', 'Taken over', 'Mails', 'Seconds', 'Seconds per 1,000', 'Most MB', 'MB after each quarter'],
      lines,
    ),
    '',
  ].join('\n')
}
