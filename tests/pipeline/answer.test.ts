// The answer: the same bytes whatever the order of parts, shards and runs; outcomes; picks; figures that close.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { generateFiles } from '@ductwright/catalogue/generate/generate-catalogue'
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import { parseRequest } from '@ductwright/contract/parse-request'
import type { Result, SetupFigures } from '@ductwright/contract/result'
import { resultSchema } from '@ductwright/contract/result-schema'
import { answer } from '@ductwright/pipeline/answer'
import { prepare } from '@ductwright/pipeline/prepare'
import { evaluateShard, flyPilot, planShards } from '@ductwright/pipeline/shards'
import { beforeAll, describe, expect, it } from 'vitest'
import { answered, prepared, present, quiet, workshop } from './workshop.js'

let catalogue: Catalogue
let result: Result
beforeAll(async () => {
  catalogue = await workshop()
  result = answered(prepared(catalogue))
})

describe('bytes', () => {
  it('are the same twice, and whatever the order of the shards’ fronts', () => {
    const bytes = canonicalJson(result)
    expect(canonicalJson(answered(prepared(catalogue)))).toBe(bytes)
    const ready = prepared(catalogue)
    const fronts = planShards(ready, flyPilot(ready.problem, ready.plan)).map((range) =>
      evaluateShard(ready, range, quiet),
    )
    expect(canonicalJson(answer(ready, fronts.reverse()))).toBe(bytes)
  })

  it('do not depend on the order of the rows of any table', () => {
    const files = generateFiles({ seed: 77, fans: 3, motors: 4, escs: 3, packs: 4, airframes: 1 })
    const turned = Object.fromEntries(
      Object.entries(files).map(([name, text]) => {
        const [header = '', ...rows] = text.trimEnd().split('\n')
        return [name, `${[header, ...rows.reverse()].join('\n')}\n`]
      }),
    )
    expect(turned['fans.csv']).not.toBe(files['fans.csv'])
    const [straight, reversed] = [files, turned].map((texts) => {
      const read = readCatalogue(texts)
      const request = { target: { speed_km_h: 200 }, airframe: { id: read.airframes[0]?.part.id } }
      return answered(prepare(parseRequest(request), read))
    })
    expect(canonicalJson(reversed)).toBe(canonicalJson(straight))
  })

  it('do not depend on the order of lists in the request', () => {
    const lists = {
      owned: ['esc-bollard-200', 'pack-ambra-6s-5000'],
      excluded: ['fan-corune-90-8', 'esc-strom-hv-160'],
    }
    const turned = { owned: lists.owned.toReversed(), excluded: lists.excluded.toReversed() }
    const front = (changes: Record<string, unknown>) => answered(prepared(catalogue, changes)).front
    expect(canonicalJson(front(turned))).toBe(canonicalJson(front(lists)))
  })

  it('hash to the same answer when a dearer double of a part is added', () => {
    const { version: _, ...parts } = catalogue
    const double = catalogue.escs.map((esc) => ({
      ...esc,
      price: esc.price + 50,
      part: { ...esc.part, id: `${esc.part.id}-b` },
    }))
    const larger = sealCatalogue({ ...parts, escs: [...catalogue.escs, ...double] })
    const other = answered(prepared(larger))
    expect(other.answer_hash).toBe(result.answer_hash)
    expect(other.catalogue.version).not.toBe(result.catalogue.version)
    expect(other.counts.raw).toBe(2 * result.counts.raw)
  })

  it('hash to another answer when the question is another', () => {
    expect(answered(prepared(catalogue, { target: { speed_km_h: 330 } })).answer_hash).not.toBe(result.answer_hash)
  })
})

describe('shape', () => {
  it('passes the schema of the contract, also after a trip through JSON', () => {
    expect(resultSchema.safeParse(JSON.parse(JSON.stringify(result))).success).toBe(true)
  })

  it('counts add up', () => {
    for (const changes of [{}, { budget: 300 }, { mass: { fixed_kg: 4 } }, { sweep: { whole_front: true } }]) {
      const { counts } = answered(prepared(catalogue, changes))
      const apart = counts.misfits.reduce((total, { count }) => total + count, 0)
      expect(counts.raw).toBe(apart + counts.compatible)
      expect(counts.purchases).toBeLessThanOrEqual(counts.front)
    }
  })

  it('names every id it uses, and ranks from 1 with purchases numbered as they appear', () => {
    for (const { setup, shopping } of result.front) {
      for (const id of [setup.fan, setup.motor, setup.esc, setup.pack, ...shopping.map((line) => line.id)]) {
        expect(result.names[id]?.length ?? 0).toBeGreaterThan(3)
      }
    }
    expect(result.front.map(({ rank }) => rank)).toEqual(result.front.map((_, i) => i + 1))
    expect(result.front[0]?.purchase).toBe(1)
  })
})

/** Every point of a setup with the balances that the wire can show. */
function closes(figures: SetupFigures): void {
  expect(figures.residual).toBeLessThan(1e-6)
  for (const point of [figures.standing, figures.top_full, figures.top, figures.cruise, figures.top_last]) {
    if (point === null) continue
    const spent = point.shaft_power_w + point.motor_loss_w + point.esc_loss_w
    expect(Math.abs(point.pack_power_w / spent - 1)).toBeLessThan(2e-5)
    expect(Math.abs((point.pack_voltage_v * point.pack_current_a) / point.pack_power_w - 1)).toBeLessThan(2e-5)
    if (point.speed_km_h > 0) expect(Math.abs(point.thrust_n / point.drag_n - 1)).toBeLessThan(2e-5)
    expect(point.propulsive_efficiency).toBeLessThanOrEqual(point.froude_efficiency)
  }
}

describe('figures', () => {
  it('of every member close, and no limit is broken', () => {
    expect(result.front.length).toBeGreaterThan(3)
    for (const { figures, shopping, raw, replacement_cost } of result.front) {
      closes(figures)
      const headroom = result.understood.limits.headroom
      for (const { limit, used } of figures.limits) {
        expect(used, limit).toBeLessThanOrEqual(1)
        if (/current|temperature/.test(limit)) expect(used, limit).toBeLessThanOrEqual(1 - headroom + 1e-6)
      }
      expect(shopping.reduce((sum, { price }) => sum + price, 0)).toBeCloseTo(raw.cost, 2)
      expect(replacement_cost).toBeGreaterThanOrEqual(raw.cost - 0.005)
      expect(figures.speed_steady_km_h).toBe(raw.speed_km_h)
      expect(figures.flight_time_s).toBe(raw.flight_time_s)
      expect(figures.margin).toBe(raw.margin)
      expect(figures.margin).toBe(Math.min(...figures.margins.map(({ margin }) => margin)))
    }
  })

  it('the packs’ place lies in its window, which lies in their room and moves the centre of gravity by 5 mm at most', () => {
    const room = catalogue.airframes.find(({ part }) => part.id === 'airframe-vintra-90')?.part
    for (const { figures, setup } of result.front) {
      const pack = catalogue.packs.find(({ part }) => part.id === setup.pack)?.part
      const packs = setup.arrangement === 'single' ? 1 : 2
      expect(figures.cells).toBe((pack?.cells ?? 0) * (setup.arrangement === 'series' ? 2 : 1))
      const [from, to] = figures.pack_window_mm ?? [Number.NaN, Number.NaN]
      expect(from).toBeLessThanOrEqual(figures.pack_station_mm)
      expect(to).toBeGreaterThanOrEqual(figures.pack_station_mm)
      expect(from).toBeGreaterThanOrEqual(1000 * (room?.packStationMin ?? 9) - 1e-3)
      expect(to).toBeLessThanOrEqual(1000 * (room?.packStationMax ?? 0) + 1e-3)
      // Leads weigh something too, so the packs alone are a little less than what is moved.
      const moved = (pack?.mass ?? 0) * packs * Math.max(to - figures.pack_station_mm, figures.pack_station_mm - from)
      expect(moved / figures.mass_kg).toBeLessThanOrEqual(5 + 1e-3)
      expect(to - from).toBeGreaterThan(5)
    }
  })

  it('flight time and mean current are one charge balance', () => {
    for (const { figures, setup } of result.front) {
      const pack = catalogue.packs.find(({ part }) => part.id === setup.pack)?.part
      const charge = 0.8 * (pack?.capacity ?? 0) * (setup.arrangement === 'parallel' ? 2 : 1)
      expect(figures.flight_time_s * figures.mean_current_a).toBeCloseTo(charge, -1)
    }
  })

  it('about 4 Ah go in 4.5 min with a quarter to a third near 155 A (common practice, no source)', () => {
    const changes = { profile: { flight_time_min: 4.5, full_throttle_share: 0.28, pass_s: 10 } }
    const { front } = answered(prepared(catalogue, changes))
    const near = front.filter(({ figures }) => Math.abs(figures.top.pack_current_a - 155) < 30)
    expect(near.length).toBeGreaterThan(0)
    for (const { figures } of near) {
      const used = (figures.mean_current_a * 270) / 3600
      expect(used).toBeGreaterThan(2.8)
      expect(used).toBeLessThan(5.2)
    }
  })
})

describe('outcomes', () => {
  it('reached: the first does it, nothing near is listed', () => {
    expect(result.outcome).toBe('reached')
    expect(result.nearest).toEqual([])
    expect(result.relaxations).toEqual([])
    expect(result.headline).toMatch(/^Yes: 320\skm\/h is within reach/)
    expect(result.blamed).toBeNull()
    expect(result.front[0]?.score.reaches).toBe(true)
  })

  it('nothing that goes together: the parts are to blame, and what keeps them apart', () => {
    const apart = answered(prepared(catalogue, { required: ['fan-corune-90-8', 'motor-isarn-4587-820'] }))
    expect(apart.counts.compatible).toBe(0)
    expect(apart).toMatchObject({ outcome: 'none', blamed: 'these parts', front: [], nearest: [], relaxations: [] })
    expect(apart.headline).toMatch(/^Not with these parts: .+; most often: motor too fat for the fan\.$/)
  })

  it('short: the fastest is told, and what stands in the way of more', () => {
    const short = answered(prepared(catalogue, { target: { speed_km_h: 390 } }))
    expect(short.outcome).toBe('short')
    expect(short.front.every(({ raw }) => raw.speed_km_h < 390)).toBe(true)
    expect(short.blamed).toBe('this airframe as it is')
    expect(short.headline).toMatch(/^Not with this airframe as it is: 390\skm\/h in the /)
    expect(short.headline).toMatch(/Within the limits given the fastest setup does \d+\skm\/h/)
    expect(resultSchema.safeParse(JSON.parse(JSON.stringify(short))).success).toBe(true)
    for (const near of short.nearest) {
      expect(near.broken.length).toBeGreaterThan(0)
      expect(near.why).toMatch(/^Over /)
    }
  })

  it('none: near misses say what would relax it', () => {
    const none = answered(prepared(catalogue, { budget: 40, target: { speed_km_h: 320 } }))
    expect(none.outcome).toBe('none')
    expect(none.front).toEqual([])
    expect(none.picks).toEqual([])
    expect(none.blamed).toBe('this budget')
    expect(none.headline).toMatch(
      /^Not with this budget: 320\skm\/h in the .+ takes [\d,.]+\sEUR, and 40\sEUR are allowed/,
    )
    // However far over the budget, what money would buy is named.
    const dear = none.nearest.find(({ broken }) => broken.some(({ limit }) => limit === 'budget'))
    expect(dear?.why).toMatch(/^Over the budget by [\d,.]+\sEUR; it would do \d+\skm\/h/)
    expect(dear?.raw?.cost).toBeGreaterThan(40)
    expect(resultSchema.safeParse(JSON.parse(JSON.stringify(none))).success).toBe(true)
  })

  it('a near miss breaks one limit by no more than a tenth, and relaxing that limit admits it', () => {
    const cheapest = Math.min(...result.front.filter(({ score }) => score.reaches).map(({ raw }) => raw.cost))
    const budget = Math.floor(cheapest * 0.97)
    const short = answered(prepared(catalogue, { budget }))
    const near = short.nearest.find(({ broken }) => broken.some(({ limit }) => limit === 'budget'))
    expect(short.outcome).not.toBe('reached')
    expect(near?.broken).toHaveLength(1)
    expect(near?.broken[0]?.used).toBeLessThanOrEqual(1.1)
    const relaxed = answered(prepared(catalogue, { budget: Math.ceil(near?.raw?.cost ?? 0) }))
    expect(relaxed.outcome).toBe('reached')
  })
})

describe('picks', () => {
  it('are the first of the list and three more, from the front, with refinements inside every limit', () => {
    expect(result.picks.map(({ pick }) => pick)).toEqual(['best-all-round', 'best-for-the-money', 'safest', 'fastest'])
    expect(result.picks[0]?.rank).toBe(1)
    for (const { rank, for_target, highest } of result.picks) {
      const member = result.front[rank - 1]
      expect(member?.rank).toBe(rank)
      for (const refined of [for_target, highest]) {
        if (refined === null) continue
        expect(refined.throttle_cap_a).toBe(refined.figures.standing.pack_current_a)
        closes(refined.figures)
        for (const { limit, used } of refined.figures.limits) expect(used, limit).toBeLessThanOrEqual(1 + 1e-6)
      }
      expect(highest?.duty).toBeGreaterThanOrEqual(member?.setup.duty ?? 2)
      if (for_target === null) continue
      expect(for_target.figures.speed_steady_km_h).toBeGreaterThanOrEqual(320 - 0.001)
      expect(for_target.figures.speed_steady_km_h).toBeLessThan(341)
      expect(for_target.duty).toBeLessThanOrEqual(highest?.duty ?? 0)
    }
    expect(result.picks.some(({ for_target }) => for_target !== null)).toBe(true)
  })

  it('always begin with the first of the list, out of reach or by the owner’s own value', () => {
    const short = answered(prepared(catalogue, { target: { speed_km_h: 390 } }))
    expect(short.picks[0]).toMatchObject({ pick: 'best-all-round', rank: 1 })
    expect(short.picks[0]?.why).toBe('The best of everything you asked for, taken together.')
    const own = answered(prepared(catalogue, { wishes: { expression: 'speed_km_h' } }))
    expect(own.picks[0]?.why).toBe('The first by your own expression.')
    expect(own.picks[0]?.rank).toBe(1)
  })

  it('work one setup through once, however often it is picked', () => {
    const cheap = answered(prepared(catalogue, { wishes: { weights: { speed: 0, time: 0, cost: 1, margin: 0 } } }))
    const [first, money] = cheap.picks
    expect(money).toMatchObject({ pick: 'best-for-the-money', rank: 1 })
    expect(money?.study).toBe(first?.study)
    expect(money?.curves).toBe(first?.curves)
    expect(money?.advice).toBe(first?.advice)
  })

  it('the fastest is the fastest, the cheapest that reaches the target the best for the money', () => {
    const at = (name: string) => result.front[(result.picks.find(({ pick }) => pick === name)?.rank ?? 0) - 1]?.raw
    expect(at('fastest')?.speed_km_h).toBe(Math.max(...result.front.map(({ raw }) => raw.speed_km_h)))
    const reaching = result.front.filter(({ raw }) => raw.speed_km_h >= 320)
    expect(at('best-for-the-money')?.cost).toBe(Math.min(...reaching.map(({ raw }) => raw.cost)))
  })
})

describe('what the pilot has now', () => {
  it('is worked through with the drag area its measured speed asks for', () => {
    const measured = { setup: present, speed_km_h: 300, basis: 'steady' }
    const { now, airframe } = answered(prepared(catalogue, { airframe: { id: 'airframe-vintra-90', measured } }))
    expect(now?.figures.speed_steady_km_h).toBeCloseTo(300, 3)
    expect(now?.drag_area_m2).toBe(airframe.drag_area_m2)
    expect(now?.drag_area_low_m2).toBeLessThan(airframe.drag_area_m2)
    expect(now?.drag_area_high_m2).toBeGreaterThan(airframe.drag_area_m2)
    if (now) closes(now.figures)
  })

  it('is told even when it breaks limits or could not take off, in numbers that JSON can carry', () => {
    const measured = { setup: { ...present, duty: 0.5 }, speed_km_h: 150, basis: 'steady' }
    const field = { rolling_friction: 0.5 }
    const told = answered(prepared(catalogue, { airframe: { id: 'airframe-vintra-90', measured }, field }))
    expect(told.now?.figures.limits.find(({ limit }) => limit === 'take-off-roll')?.used).toBeGreaterThan(1)
    expect(resultSchema.safeParse(JSON.parse(JSON.stringify(told))).success).toBe(true)
  })
})

describe('a request in-run', () => {
  it('compares what one run reaches, never above the steady speed when entered slower', () => {
    const told = answered(prepared(catalogue, { target: { speed_km_h: 320, basis: 'in-run' }, run: { length_m: 300 } }))
    expect(told.front.length).toBeGreaterThan(0)
    for (const { raw, figures } of told.front) {
      expect(raw.speed_km_h).toBe(figures.speed_in_run_km_h)
      expect(raw.speed_km_h).toBeLessThan(figures.speed_steady_km_h)
    }
  })
})
