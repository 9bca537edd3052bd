// Batches as they are read: lists, products of axes, their bounds, and faults under the item they belong to.
import { BATCH_ITEMS_MAX, parseBatch } from '@ductwright/contract/batch-request'
import { batchSummary, type EndedItem, type ItemSummary, staircase } from '@ductwright/contract/batch-summary'
import { InputError } from '@ductwright/contract/fault'
import { parseStanding } from '@ductwright/contract/standing-request'
import { describe, expect, it } from 'vitest'

const request = (changes: Record<string, unknown> = {}) => ({
  target: { speed_km_h: 200, basis: 'in-run' },
  airframe: { id: 'airframe-one' },
  ...changes,
})

function faultsOf(json: unknown, read: (json: unknown) => unknown = parseBatch) {
  try {
    read(json)
  } catch (error) {
    if (error instanceof InputError) return error.faults
    throw error
  }
  throw new Error('nothing was refused')
}

describe('a batch', () => {
  it('of axes is every combination, airframes outermost, and keeps what they do not vary', () => {
    const axes = {
      airframes: ['airframe-one', { id: 'airframe-two' }],
      targets_km_h: [200, '210 km/h'],
      treatments: [[], ['polish']],
      budgets: [500, null],
    }
    const { items } = parseBatch({ base: request({ budget: 1 }), axes })
    expect(items).toHaveLength(16)
    expect(items[0]?.json).toEqual({
      target: { speed_km_h: 200, basis: 'in-run' },
      airframe: { id: 'airframe-one' },
      treatments: [],
      budget: 500,
    })
    expect(items[15]?.understood).toMatchObject({
      airframe: { id: 'airframe-two' },
      target: { basis: 'in-run' },
      treatments: ['polish'],
      budget: null,
    })
    expect((items[15]?.understood.target.speed ?? 0) * 3.6).toBeCloseTo(210)
  })

  it('varies nothing that no axis names', () => {
    const { items, title } = parseBatch({ base: request({ budget: 77 }), axes: { targets_km_h: [150, 160] } })
    expect(items.map(({ understood }) => understood.budget)).toEqual([77, 77])
    expect(title).toBe('2 requests')
  })

  it('takes at most so many items, however they are given', () => {
    const many = Array.from({ length: BATCH_ITEMS_MAX }, () => request())
    expect(parseBatch({ items: many }).items).toHaveLength(BATCH_ITEMS_MAX)
    expect(faultsOf({ items: [...many, request()] })).toMatchObject([{ pointer: '/items', rule: 'length' }])
    const side = Array.from({ length: 100 }, (_, n) => 100 + n)
    expect(faultsOf({ base: request(), axes: { targets_km_h: side, budgets: side } })).toMatchObject([
      { pointer: '/items', rule: 'length', value: '10000' },
    ])
  })

  it('says a fault of one entry on an axis once, and different ones each', () => {
    const axes = { targets_km_h: [200, -5], budgets: [1, 2, 3] }
    expect(faultsOf({ base: request(), axes }).map(({ pointer }) => pointer)).toEqual(['/items/3/target/speed_km_h'])
    const faults = faultsOf({ items: [request({ colour: 1 }), request({ shape: 1 })] })
    expect(faults.map(({ pointer }) => pointer)).toEqual(['/items/0/colour', '/items/1/shape'])
  })

  it.each([
    ['neither list nor axes', {}],
    ['both', { items: [request()], base: request(), axes: { budgets: [1] } }],
    ['axes without a base', { items: [request()], axes: { budgets: [1] } }],
    ['an axis without entries', { base: request(), axes: { budgets: [] } }],
    ['an unknown axis', { base: request(), axes: { colours: [1] } }],
    ['two addresses', { items: [request()], address: 'a@example.org, b@example.org' }],
    ['a list', [request()]],
    ['nothing', null],
  ])('refuses %s', (_what, json) => {
    expect(faultsOf(json).length).toBeGreaterThan(0)
  })
})

describe('a standing request', () => {
  it('needs an address, and takes a schedule of whole days', () => {
    const body = request({ address: 'pilot@EXAMPLE.org' })
    expect(parseStanding({ request: body })).toMatchObject({
      understood: { address: 'pilot@example.org' },
      everyDays: null,
    })
    expect(parseStanding({ request: body, every_days: 7 }).everyDays).toBe(7)
    expect(faultsOf({ request: request() }, parseStanding)).toMatchObject([
      { pointer: '/request/address', rule: 'required' },
    ])
    for (const every_days of [0, 1.5, 367, '7', -1]) {
      expect(faultsOf({ request: body, every_days }, parseStanding)).toMatchObject([{ pointer: '/every_days' }])
    }
  })
})

describe('a staircase', () => {
  const setup = {
    fan: 'f',
    motor: 'm',
    esc: 'e',
    timing_deg: 0,
    pack: 'p',
    arrangement: 'single',
    nozzle_ratio: 0.8,
    duty: 1,
  } as const
  const step = (cost: number, speed_km_h: number) => ({ cost, speed_km_h, setup })

  it('keeps only what is faster than everything cheaper', () => {
    expect(staircase([step(500, 200), step(300, 150), step(400, 150), step(300, 160), step(600, 199)])).toEqual([
      step(300, 160),
      step(500, 200),
    ])
  })

  it('of a summary runs over all items of one airframe with the same work, and over no others', () => {
    const summary = (airframe: string, steps: ItemSummary['steps']): ItemSummary => ({
      title: 't',
      airframe,
      airframe_name: airframe,
      treatments: [],
      target_km_h: 200,
      budget: null,
      currency: 'EUR',
      outcome: 'reached',
      headline: '',
      first: null,
      steps,
      names: { [airframe]: airframe },
    })
    const item = (index: number, of: ItemSummary | null): EndedItem => ({
      index,
      request: `r${index}`,
      title: 't',
      state: of === null ? 'failed' : 'answered',
      cause: null,
      summary: of,
    })
    const whole = batchSummary('all', [
      item(0, summary('a', [step(300, 150)])),
      item(1, summary('a', [step(250, 140), step(400, 180)])),
      item(2, summary('b', [step(100, 90)])),
      item(3, null),
    ])
    expect(whole.staircases.map(({ airframe, steps }) => [airframe, steps.map(({ cost }) => cost)])).toEqual([
      ['a', [250, 300, 400]],
      ['b', [100]],
    ])
    expect(whole).toMatchObject({ currency: 'EUR', names: { a: 'a', b: 'b' } })
    expect(batchSummary('none', [item(0, null)])).toMatchObject({ currency: null, staircases: [] })
  })
})
