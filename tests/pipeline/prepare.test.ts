// What a request must say before it is swept: every fault at once, with its place and a cure; owned parts and sets.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { parseRequest } from '@ductwright/contract/parse-request'
import { ownedCounts, PriceList, total } from '@ductwright/pipeline/costs'
import { prepare } from '@ductwright/pipeline/prepare'
import { beforeAll, describe, expect, it } from 'vitest'
import { faultsOf, prepared, present, requestOf, SET, workshop } from './workshop.js'

let catalogue: Catalogue
beforeAll(async () => {
  catalogue = await workshop()
})

describe('faults', () => {
  it('unknown parts, each with the nearest names, all at once', () => {
    const faults = faultsOf(() =>
      prepared(catalogue, {
        airframe: { id: 'airframe-vintra-9' },
        owned: ['pack-ambra-6s-500'],
        required: ['motor-isarn-4587-82'],
        excluded: ['esc-nothing-like-it'],
      }),
    )
    expect(faults.map(({ pointer, rule }) => `${pointer} ${rule}`).sort()).toEqual([
      '/airframe/id unknown-part',
      '/excluded/0 unknown-part',
      '/owned/0 unknown-part',
      '/required/0 unknown-part',
    ])
    const message = (pointer: string) => faults.find((fault) => fault.pointer === pointer)?.message
    expect(message('/owned/0')).toContain('pack-ambra-6s-5000')
    expect(message('/required/0')).toContain('motor-isarn-4587-820')
    expect(message('/airframe/id')).toContain('airframe-vintra-90')
  })

  it('a part of another table where a certain one is wanted', () => {
    const setup = { ...present, fan: 'motor-torva-3771-1080' }
    const measured = { setup, speed_km_h: 300 }
    const [fault] = faultsOf(() => prepared(catalogue, { airframe: { id: 'airframe-vintra-90', measured } }))
    expect(fault?.pointer).toBe('/airframe/measured/setup/fan')
    expect(fault?.message).toContain('is a motor, not a fan')
  })

  it('a budget in another currency than the catalogue', () => {
    const [fault] = faultsOf(() => prepared(catalogue, { budget: '900 USD' }))
    expect(fault).toMatchObject({ pointer: '/budget', rule: 'currency' })
    expect(fault?.message).toContain('give the budget in EUR')
  })

  it('a part that is both required and excluded', () => {
    const request = parseRequest(requestOf({ required: ['esc-bollard-200'] }))
    const [fault] = faultsOf(() => prepare({ ...request, excluded: ['esc-bollard-200'] }, catalogue))
    expect(fault).toMatchObject({ pointer: '/required/0', rule: 'conflict', value: '"esc-bollard-200"' })
  })

  it('nothing left to choose from, by table', () => {
    const excluded = catalogue.packs.map(({ part }) => part.id)
    const [fault] = faultsOf(() => prepared(catalogue, { excluded }))
    expect(fault).toMatchObject({ rule: 'nothing-left', value: 'packs' })
    expect(fault?.message).toBe('no pack is left to choose from')
  })

  it('a fixed mass above what the airframe may take off with', () => {
    const [fault] = faultsOf(() => prepared(catalogue, { mass: { fixed_kg: 9 } }))
    expect(fault).toMatchObject({ pointer: '/mass/fixed_kg', rule: 'range', value: '9' })
    expect(fault?.message).toContain('5.4 kg')
  })

  it('a measured speed that no drag area explains, too fast or too slow', () => {
    for (const speed_km_h of [640, 90]) {
      const airframe = { id: 'airframe-vintra-90', measured: { setup: present, speed_km_h, basis: 'steady' } }
      const [fault] = faultsOf(() => prepared(catalogue, { airframe }))
      expect(fault).toMatchObject({
        pointer: '/airframe/measured/speed_km_h',
        rule: 'explainable',
        value: `${speed_km_h}`,
      })
      expect(fault?.message).toContain('no drag area between 2 and 800 cm²')
    }
  })

  it('a timing the controller does not offer', () => {
    const measured = { setup: { ...present, timing_deg: 12 }, speed_km_h: 300 }
    const [fault] = faultsOf(() => prepared(catalogue, { airframe: { id: 'airframe-vintra-90', measured } }))
    expect(fault).toMatchObject({ pointer: '/airframe/measured/setup/timing_deg', rule: 'timing', value: '12' })
    expect(fault?.message).toContain('5°, 15°, 25°, not 12°')
  })
})

describe('choices', () => {
  const ids = (list: readonly { readonly id: string }[]) => list.map(({ id }) => id)

  it('required parts narrow their own table only; a required set requires its fan and motor', () => {
    const { candidates } = prepared(catalogue, { required: [SET] }).problem
    expect(ids(candidates.fans)).toEqual(['fan-skarv-105-7'])
    expect(ids(candidates.motors)).toEqual(['motor-isarn-4587-870'])
    expect(candidates.escs).toHaveLength(3)
  })

  it('excluded parts are out', () => {
    const { candidates } = prepared(catalogue, { excluded: ['esc-bollard-200', 'fan-corune-90-8'] }).problem
    expect(ids(candidates.escs)).toEqual(['esc-regula-s-200', 'esc-strom-hv-160'])
    expect(candidates.fans).toHaveLength(2)
  })

  it('the speed floor is 85 % of the target, and none when the whole front is asked for', () => {
    expect(prepared(catalogue).problem.circumstances.limits.speedFloor).toBeCloseTo((0.85 * 320) / 3.6, 9)
    const whole = prepared(catalogue, { sweep: { whole_front: true } }).problem
    expect(whole.circumstances.limits.speedFloor).toBe(0)
    expect(whole.comparison.wantedTime).toBe(Number.POSITIVE_INFINITY)
  })
})

describe('prices for one owner', () => {
  const list = (owned: Record<string, number> = {}, excluded: string[] = []) =>
    new PriceList(
      catalogue,
      ownedCounts(
        Object.entries(owned).map(([id, count]) => ({ id, count })),
        catalogue,
      ),
      new Set(excluded),
    )
  const entry = <Part extends { readonly id: string }>(entries: readonly { readonly part: Part }[], id: string) => {
    const found = entries.find(({ part }) => part.id === id)
    if (found === undefined) throw new Error(`no ${id}`)
    return found
  }
  const fan = () => entry(catalogue.fans, 'fan-skarv-105-7') as Catalogue['fans'][number]
  const motor = () => entry(catalogue.motors, 'motor-isarn-4587-870') as Catalogue['motors'][number]
  const set = () => catalogue.sets[0]?.price ?? Number.NaN

  it('a set is bought when it is cheaper than its two parts', () => {
    const apart = fan().price + motor().price
    expect(set()).toBeLessThan(apart)
    expect(total(list().pairLines(fan(), motor()))).toBeCloseTo(set(), 9)
    expect(
      list()
        .pairLines(fan(), motor())
        .map(({ role }) => role),
    ).toEqual(['set'])
    expect(total(list({}, [SET]).pairLines(fan(), motor()))).toBeCloseTo(apart, 9)
  })

  it('with one of the pair owned only the other is bought, unless the set is cheaper still', () => {
    const half = list({ 'fan-skarv-105-7': 1 }).pairLines(fan(), motor())
    expect(total(half)).toBeCloseTo(Math.min(motor().price, set()), 9)
    expect(half.find(({ role }) => role === 'fan')).toMatchObject({ owned: 1, buy: 0, price: 0 })
    const other = list({ 'motor-isarn-4587-870': 1 }).pairLines(fan(), motor())
    expect(total(other)).toBeCloseTo(Math.min(fan().price, set()), 9)
  })

  it('an owned set is its fan and its motor', () => {
    expect(total(list({ [SET]: 1 }).pairLines(fan(), motor()))).toBe(0)
  })

  it('owned packs count: two needed and one owned means one is bought', () => {
    const pack = entry(catalogue.packs, 'pack-ambra-6s-5000') as Catalogue['packs'][number]
    expect(total(list().packLines(pack, 2))).toBeCloseTo(2 * pack.price, 9)
    const [line] = list({ 'pack-ambra-6s-5000': 1 }).packLines(pack, 2)
    expect(line).toMatchObject({ count: 2, owned: 1, buy: 1, price: pack.price })
    expect(total(list({ 'pack-ambra-6s-5000': 3 }).packLines(pack, 2))).toBe(0)
  })

  it('a controller without a receiver supply brings one, in price and mass', () => {
    const bare = entry(catalogue.escs, 'esc-bollard-200') as Catalogue['escs'][number]
    const { receiverSupply } = catalogue
    expect(bare.part.receiverSupplyCurrent).toBe(0)
    expect(total(list().escLines(bare))).toBeCloseTo(bare.price + receiverSupply.price, 9)
    expect(list().escMass(bare.part)).toBeCloseTo(bare.part.mass + receiverSupply.mass, 12)
    expect(total(list({ [receiverSupply.id]: 1, 'esc-bollard-200': 1 }).escLines(bare))).toBe(0)
    const whole = entry(catalogue.escs, 'esc-regula-s-200') as Catalogue['escs'][number]
    expect(
      list()
        .escLines(whole)
        .map(({ role }) => role),
    ).toEqual(['esc'])
  })

  it('the pair weighs what the fitted set weighs', () => {
    expect(list().pairMass(fan().part, motor().part)).toBe(catalogue.sets[0]?.mass)
  })

  it('the replacement cost forgets what is owned', () => {
    const esc = entry(catalogue.escs, 'esc-regula-s-200') as Catalogue['escs'][number]
    const pack = entry(catalogue.packs, 'pack-ambra-6s-5000') as Catalogue['packs'][number]
    const rich = list({ 'esc-regula-s-200': 1, [SET]: 1, 'pack-ambra-6s-5000': 2 })
    expect(rich.replacementCost(fan(), motor(), esc, pack, 2)).toBeCloseTo(set() + esc.price + 2 * pack.price, 9)
  })
})
