// Runs of a standing request from what its last whole run left: the same bytes as a whole run, however the catalogue
// changed, and a whole run wherever what was left is of no use.

import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { parseRequest } from '@ductwright/contract/parse-request'
import type { Receipt } from '@ductwright/contract/result'
import { runSweepLocally } from '@ductwright/worker/local-sweep'
import { sweepInputs } from '@ductwright/worker/shard-pool'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { smallRequest } from './small-catalogue.js'
import { openStand, type Stand } from './stand.js'
import { type Loose, mailsOf, put, readMail, settledOn, stands } from './standing-stand.js'

vi.setConfig({ testTimeout: 240_000 })

let stand: Stand
let id: string
/** The version that the front kept at the moment is of. */
let base: Catalogue

beforeAll(async () => {
  stand = await openStand({ worker: {} })
  base = stand.catalogue
  id = await stands(stand)
  await settledOn(stand, id, base.version)
}, 240_000)

afterAll(() => stand.close())

/** The latest run, once it is answered for a catalogue; its bytes are those of a whole run without any store. */
async function runOn(catalogue: Catalogue): Promise<Receipt> {
  const status = await settledOn(stand, id, catalogue.version)
  const request = status.runs[0]?.request ?? expect.unreachable()
  const kept = (await stand.records.getAnswer(request)) ?? expect.unreachable()
  const body = (await stand.records.getStanding(id))?.body ?? ''
  const inputs = sweepInputs(parseRequest(JSON.parse(body)), catalogueContent(catalogue))
  expect(kept.result).toBe((await runSweepLocally(inputs, { threads: 1 })).result)
  return JSON.parse(kept.receipt) as Receipt
}

const priced = (factor: number) => (catalogue: Loose) => ({
  ...catalogue,
  packs: catalogue.packs.map((pack, i) => (i === 0 ? { ...pack, price: factor * pack.price } : pack)),
})

const columns = (set: string) =>
  stand.records.pool.query(`update ductwright.kept_fronts set ${set} where standing_id = $1`, [id])

describe('a run of a standing request', () => {
  it('takes over the front of the first after a change of one price, and says so', async () => {
    const receipt = await runOn(await put(stand, priced(1.1)))
    expect(receipt).toMatchObject({ shards: 1, taken_over: { catalogue_version: base.version } })
    expect(receipt.taken_over?.words).toMatch(/^(nothing, since|what the changes touch, [\d,]+ groups of setups and)/)
    expect(receipt.stages.map(({ stage }) => stage)).toContain('answer')
    expect(stand.log.filter((line) => line.includes('"front taken over"'))).toHaveLength(1)
  })

  it('still starts from the first after the next change, a part that is gone', async () => {
    const shorter = await put(stand, (catalogue) => ({ ...catalogue, escs: catalogue.escs.slice(1) }))
    expect((await runOn(shorter)).taken_over?.catalogue_version).toBe(base.version)
  })

  it('tells in a letter of change that the list was taken over', async () => {
    const mails = await mailsOf(stand, id)
    const change = mails.find(({ kind }) => kind === 'change')
    const cheap = (catalogue: Loose) => ({
      ...catalogue,
      packs: catalogue.packs.map((pack) => ({ ...pack, price: 0.5 * pack.price })),
      escs: catalogue.escs.map((esc) => ({ ...esc, price: 0.5 * esc.price })),
    })
    const catalogue = await put(stand, cheap)
    const { taken_over } = await runOn(catalogue)
    const latest = (await mailsOf(stand, id)).find(({ kind }) => kind === 'change') ?? expect.unreachable()
    expect(latest.id).not.toBe(change?.id)
    const { text = '' } = await readMail(stand, latest.id)
    const told = text.replace(/\s+/g, ' ').includes('taken over from the answer on catalogue version')
    expect(told).toBe(taken_over !== null)
  })

  it('is whole where the airframe changed, and renews what is kept', async () => {
    const heavier = (catalogue: Loose) => ({
      ...catalogue,
      airframes: catalogue.airframes.map(({ part, ...rest }) => ({
        ...rest,
        part: { ...part, emptyMass: 1.01 * part.emptyMass },
      })),
    })
    const changed = await put(stand, heavier)
    expect((await runOn(changed)).taken_over).toBeNull()
    expect(stand.log.some((line) => line.includes('the circumstances are others'))).toBe(true)
    const dearer = await put(stand, priced(1.2), changed)
    expect((await runOn(dearer)).taken_over?.catalogue_version).toBe(changed.version)
    base = changed
  })

  it.each([
    ['damaged', `front = '\\x00'`],
    ['not readable', `front = '\\x00', front_sha256 = encode(sha256('\\x00'), 'hex')`],
    ['of other models', `model_version = 'another'`],
    ['of another question', `question = 'another'`],
    ['of a catalogue that is gone', `catalogue_version = 'gone'`],
    ['of another catalogue', `catalogue_version = '${'VERSION'}'`],
  ])('is whole where what is kept is %s, and takes over again after it', async (what, set) => {
    await columns(set.replace('VERSION', stand.catalogue.version))
    const factor = 1 + 0.01 * what.length
    const changed = await put(stand, priced(factor), base)
    expect((await runOn(changed)).taken_over).toBeNull()
    const again = await put(stand, priced(factor + 0.5), base)
    expect((await runOn(again)).taken_over?.catalogue_version).toBe(changed.version)
  })

  it('is whole after its question was revised', async () => {
    const request = smallRequest(stand.catalogue, { title: 'Revised', target: { speed_km_h: 210 } })
    const reply = await stand.app.inject({
      method: 'PUT',
      url: `/v1/standing-requests/${id}`,
      headers: { 'content-type': 'application/json' },
      payload: JSON.stringify({ request }),
    })
    expect(reply.statusCode).toBe(200)
    const again = await put(stand, priced(1.7), base)
    expect((await runOn(again)).taken_over).toBeNull()
  })
})
