// POST /v1/bench-fits: answered at once, refused field by field, and a fan that readings do not determine is an answer too.
import { benchReportSchema } from '@ductwright/contract/bench-report'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openStand, post, type Stand } from './stand.js'

let stand: Stand

beforeAll(async () => {
  stand = await openStand()
})

afterAll(() => stand.close())

const URL = '/v1/bench-fits'
const point = { nozzle_ratio: 0.88, rpm: 30_000, thrust_n: 30, current_a: 80 }

const measurements = (changes: Record<string, unknown> = {}) => ({
  fan: stand.catalogue.fans[0]?.part.id,
  rig: { duct_loss: 0.3 },
  points: [point],
  ...changes,
})

describe('bench measurements', () => {
  it('that determine nothing are answered with what is missing', async () => {
    const reply = await post(stand, measurements(), {}, URL)
    expect(reply.statusCode).toBe(200)
    const report = benchReportSchema.parse(reply.json())
    expect(report.row).toBeNull()
    expect(report.refused[0]).toMatchObject({ rule: 'undetermined' })
  })

  it('are refused field by field, and an unknown part by name', async () => {
    const bad = await post(stand, measurements({ points: [{ ...point, thrust_n: -1 }], colour: 'red' }), {}, URL)
    expect(bad.json()).toMatchObject({ status: 422, type: '/problems#invalid-request' })
    const pointers = bad.json<{ faults: { pointer: string }[] }>().faults.map(({ pointer }) => pointer)
    expect(pointers.sort()).toEqual(['/colour', '/points/0/thrust_n'])
    const stranger = await post(stand, measurements({ fan: 'fan-none' }), {}, URL)
    expect(stranger.json()).toMatchObject({ status: 422, faults: [{ pointer: '/fan', rule: 'unknown-part' }] })
  })

  it('are described', async () => {
    const { paths } = (await stand.app.inject('/openapi.json')).json<{
      paths: Record<string, { post?: { requestBody?: unknown } }>
    }>()
    expect(JSON.stringify(paths[URL]?.post?.requestBody)).toContain('"nozzle_ratio"')
  })
})
