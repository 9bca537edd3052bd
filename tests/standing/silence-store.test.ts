// The same promise through a real store: random edits, runs started and ended by the records, mails counted in the outbox.

import { RandomStream } from '@ductwright/catalogue/generate/random'
import { canonicalJson, sha256Hex } from '@ductwright/contract/canonical-json'
import { parseRequest } from '@ductwright/contract/parse-request'
import { changed, type Meaning } from '@ductwright/contract/standing-meaning'
import { type OpenRecords, openRecords } from '@ductwright/records/open-records'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { newMail, stand } from '../records/samples.js'
import { freshDataFolder, type ScratchFolder } from '../servers/embedded-folder.js'
import { edited, tinyCatalogue } from './random-edits.js'
import { type Exhaustive, exhausted, found, resolutionOf, tellsMore } from './tiny-answers.js'

const EDITS = 60
const atOnce = { quietMs: 0, longestMs: 0, requireConfirmed: false }

let folder: ScratchFolder
let records: OpenRecords

beforeAll(async () => {
  folder = await freshDataFolder()
  records = await openRecords({ dataFolder: folder.path })
})

afterAll(async () => {
  await records.close()
  await folder.remove()
})

it(`keeps one mail in the outbox for each change that brute force sees, over ${EDITS} random edits`, async () => {
  const random = new RandomStream(7, 'edits through a store')
  const whole = tinyCatalogue(3)
  const request = parseRequest({
    target: { speed_km_h: 150 },
    airframe: { id: whole.airframes[0]?.part.id },
    profile: { flight_time_min: 3 },
    sweep: { duties: [0.8, 1], nozzle_ratios: [0.86] },
  })
  const { id, address } = await stand(records)
  const answers = new Map<string, Meaning>()
  let catalogue = whole
  let told: Exhaustive | null = null
  let due = 0
  let runs = 0
  for (let edit = 0; edit <= EDITS; edit++) {
    await records.putCatalogue(catalogue.version, catalogue.name, catalogue.version)
    const version = { catalogue: (await records.currentVersion()) ?? '', model: '1' }
    const started = await records.advanceStanding(id, version, atOnce)
    if (started !== null) {
      runs += 1
      await end(started.sweepId)
    }
    catalogue = edited(catalogue, whole, random)
  }
  const mails = await records.mailsOfStanding(id, 1000)
  expect(mails).toHaveLength(due)
  expect(runs).toBeGreaterThan(due)
  expect(due).toBeGreaterThan(EDITS / 10)

  /** As a worker ends a run, twice, as if its first report had been lost. */
  async function end(sweepId: string): Promise<void> {
    const run = await records.getRequest((await records.getSweep(sweepId))?.requestId ?? '')
    const standing = await records.getStanding(id)
    const meaning = found(request, catalogue, 2)
    const known = answers.get(standing?.toldRunId ?? '')
    const answerHash = sha256Hex(canonicalJson(meaning))
    const silent = known !== undefined && !changed(known, meaning)
    answers.set(run?.id ?? '', meaning)
    await records.planSweep(sweepId, [])
    const answer = { result: '{}', answerHash, receipt: '{}' }
    const options = { requireConfirmed: false, told: standing?.toldHash ?? null }
    for (const _ of ['once', 'again']) {
      await records.finishSweep(sweepId, answer, silent ? null : newMail(address ?? ''), options)
    }
    const exhaustive = exhausted(request, catalogue)
    if (told !== null && !tellsMore(told, exhaustive, resolutionOf(request))) return
    told = exhaustive
    due += 1
  }
})
