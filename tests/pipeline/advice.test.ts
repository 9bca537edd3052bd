// What an answer says about each setup and the next step: what binds it, the stairs, the knee, where the next money or hour
// should go, what drag work would do, and ranking by the owner's own wishes. Each figure is checked against the list itself or
// against the models run again.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import type { Member, Result } from '@ductwright/contract/result'
import { resultSchema } from '@ductwright/contract/result-schema'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import { setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { combinationOf } from '@ductwright/pipeline/member-of'
import type { Prepared } from '@ductwright/pipeline/prepare'
import { beforeAll, describe, expect, it } from 'vitest'
import { answered, prepared, present, workshop } from './workshop.js'

const measured = { setup: present, speed_km_h: 300, basis: 'steady' }
const airframe = { id: 'airframe-vintra-90', measured }

let catalogue: Catalogue
let result: Result
let flown: Result
beforeAll(async () => {
  catalogue = await workshop()
  result = answered(prepared(catalogue))
  flown = answered(prepared(catalogue, { airframe, target: { speed_km_h: 310 } }))
})

/** The parts of a listed setup, found again by its number. */
function partsOfMember(ready: Prepared, { setup }: Member): Parts {
  const { plan, problem } = ready
  const duties = problem.candidates.duties.length
  for (let unit = 0; unit < plan.nodes.length * plan.units.length; unit++) {
    const combination = combinationOf(ready, unit * duties + problem.candidates.duties.indexOf(setup.duty))
    if (JSON.stringify(combination.setup) === JSON.stringify(setup)) return combination.parts
  }
  throw new Error('the setup is not in the sweep')
}

const atRank = (of: Result, rank: number): Member => {
  const member = of.front[rank - 1]
  if (member === undefined) throw new Error(`no rank ${rank}`)
  return member
}

describe('what binds a setup', () => {
  it('is a limit that is used up where one stops the throttle or is all but used up', () => {
    for (const { binds, figures } of result.front) {
      expect(binds.words.length).toBeGreaterThan(20)
      if (/stops the throttle|next to nothing/.test(binds.words)) expect(binds.kind).not.toMatch(/efflux|drag|money/)
      expect(figures.binds).toContain(binds.words.split(';')[0] ?? '')
    }
    const rpm = result.front.filter(({ binds }) => binds.kind === 'rpm')
    for (const { binds } of rpm) expect(binds.words).toMatch(/rotation|tip speed|Mach|electrical speed/)
  })

  it('is money for the fastest where only the budget stops the next faster one, and for no other', () => {
    const quickest = Math.max(...result.front.map(({ compared }) => compared.speed_km_h))
    const budget =
      Math.min(...result.front.map(({ raw, compared }) => (compared.speed_km_h < quickest ? 1e9 : raw.cost))) - 1
    const poor = answered(prepared(catalogue, { budget }))
    const fastest = Math.max(...poor.front.map(({ compared }) => compared.speed_km_h))
    for (const { binds, compared } of poor.front) {
      expect(binds.kind === 'money').toBe(compared.speed_km_h === fastest)
      if (binds.kind === 'money') expect(binds.words).toMatch(/takes [\d,.]+\sEUR more than allowed/)
    }
    const rich = answered(prepared(catalogue, { budget: 100_000 }))
    expect(rich.front.filter(({ binds }) => binds.kind === 'money')).toEqual([])
  })
})

describe('the stairs', () => {
  it('rise from what is flown now, each step the cheapest of the list at its speed', () => {
    const now = flown.now?.figures.speed_steady_km_h ?? 0
    const { staircase, front, rules } = flown
    expect(staircase.length).toBeGreaterThan(1)
    let [speed, cost] = [now, 0]
    for (const step of staircase) {
      const { raw } = atRank(flown, step.rank)
      expect({ speed_km_h: step.speed_km_h, cost: step.cost, margin: step.margin }).toEqual({
        speed_km_h: raw.speed_km_h,
        cost: raw.cost,
        margin: raw.margin,
      })
      expect(step.more_km_h).toBeCloseTo(step.speed_km_h - speed, 2)
      expect(step.more_cost).toBeCloseTo(step.cost - cost, 6)
      expect(step.more_km_h).toBeGreaterThan(0)
      const cheaper = front.filter((other) => other.raw.cost < raw.cost - rules.resolution.cost)
      expect(Math.max(0, ...cheaper.map((other) => other.compared.speed_km_h))).toBeLessThan(
        atRank(flown, step.rank).compared.speed_km_h,
      )
      speed = step.speed_km_h
      cost = step.cost
    }
    const top = Math.max(...front.map(({ compared }) => compared.speed_km_h))
    expect(atRank(flown, staircase.at(-1)?.rank ?? 0).compared.speed_km_h).toBe(top)
  })

  it('begin at the cheapest of the list when nothing flies now', () => {
    const [first] = result.staircase
    expect(first?.more_km_h).toBe(0)
    expect(first?.more_cost).toBe(first?.cost)
    expect(first?.words).toContain('the cheapest of the list')
  })

  it('have their knee on a step, with what more speed costs on either side', () => {
    for (const { knee, staircase } of [result, flown]) {
      if (knee === null) continue
      expect(staircase.map(({ rank }) => rank)).toContain(knee.rank)
      expect(knee.why).toMatch(/^Beyond number \d+, .+ each further km\/h costs [\d,.]+\sEUR/)
    }
    expect(flown.knee).not.toBeNull()
  })
})

describe('the advice for a pick', () => {
  it('names gains that the list has, and puts the best value first', () => {
    for (const { advice, rank } of result.picks) {
      const pick = atRank(result, rank)
      const rates = advice.steps.map(({ km_h_per_100: rate }) => rate ?? Number.POSITIVE_INFINITY)
      expect(rates).toEqual(rates.toSorted((a, b) => b - a))
      for (const { kind, gain_km_h, price, hours, rank: other, km_h_per_100, km_h_per_hour } of advice.steps) {
        expect(gain_km_h).toBeGreaterThan(0)
        if (km_h_per_100 !== null) expect(km_h_per_100).toBeCloseTo((100 * gain_km_h) / price, 2)
        if (km_h_per_hour !== null) expect(km_h_per_hour).toBeCloseTo(gain_km_h / hours, 4)
        expect(kind === 'purchase').toBe(other !== null)
        if (other === null) continue
        const { raw, purchase } = atRank(result, other)
        expect(purchase).not.toBe(pick.purchase)
        expect(gain_km_h).toBeCloseTo(raw.speed_km_h - pick.raw.speed_km_h, 2)
        expect(price).toBeCloseTo(raw.cost - pick.raw.cost, 6)
      }
    }
    const said = JSON.stringify([result.picks.map(({ advice }) => advice), result.staircase, result.knee])
    expect(said).toMatch(/[Nn]umber \d/)
    expect(said).not.toMatch(/setup \d/i)
    const kinds = result.picks.flatMap(({ advice }) => advice.steps.map(({ kind }) => kind))
    expect(new Set(kinds)).toEqual(new Set(['treatment', 'purchase']))
  })

  it('finds the cheapest setup that brings 10 km/h, unless work is cheaper or nothing does', () => {
    for (const { advice, rank } of result.picks) {
      const { raw } = atRank(result, rank)
      const { ten_km_h_more: ten } = advice
      const enough = result.front.filter((other) => other.raw.speed_km_h >= raw.speed_km_h + 10)
      const least = Math.min(...enough.map((other) => other.raw.cost - raw.cost))
      if (ten.rank === null) expect(ten.more_cost ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual(least)
      else {
        expect(ten.more_cost).toBeCloseTo(least, 6)
        expect(atRank(result, ten.rank).raw.speed_km_h).toBeGreaterThanOrEqual(raw.speed_km_h + 10)
      }
    }
  })

  it('a throttle cap for more reserve has it when flown, and a step more does not', () => {
    const ready = prepared(catalogue)
    let capped = 0
    for (const { advice, rank } of result.picks) {
      const member = atRank(result, rank)
      const cap = Number(/cap the throttle at ([\d.]+)/.exec(advice.more_margin.words)?.[1] ?? Number.NaN) / 100
      if (Number.isNaN(cap)) continue
      capped++
      const parts = partsOfMember(ready, member)
      const margin = (duty: number) => {
        const detail = setupDetail(ready.problem.circumstances, parts, duty)
        if ('refused' in detail) throw new Error(detail.refused)
        return detail.margin
      }
      expect(margin(cap)).toBeGreaterThanOrEqual(member.raw.margin + 0.1 - 1e-6)
      expect(margin(cap + 0.0012)).toBeLessThan(member.raw.margin + 0.1)
    }
    expect(capped).toBeGreaterThan(0)
  })
})

describe('drag work', () => {
  it('takes what flies now to more, for the sum of its prices and hours', () => {
    const work = flown.drag_work
    if (work === null) throw new Error('no drag work')
    expect(work.speed_now_km_h).toBeCloseTo(300, 3)
    expect(work.speed_then_km_h).toBeGreaterThan(work.speed_now_km_h + 3)
    const { treatments } = catalogue
    expect(work.price).toBeCloseTo(
      treatments.reduce((sum, { price }) => sum + price, 0),
      6,
    )
    expect(work.hours).toBeCloseTo(
      treatments.reduce((sum, { hours }) => sum + hours, 0),
      6,
    )
  })

  it('is for the best of the list when nothing flies now, and none where none is left', () => {
    expect(result.drag_work?.speed_now_km_h).toBeCloseTo(atRank(result, 1).figures.speed_steady_km_h, 2)
    const treatments = catalogue.treatments.map(({ kind }) => kind)
    expect(answered(prepared(catalogue, { treatments })).drag_work).toBeNull()
  })
})

describe('the curves of a pick', () => {
  it('meet its figures, in no more than 60 points a series, and pass the schema', () => {
    for (const { curves, rank } of result.picks) {
      const { figures } = atRank(result, rank)
      expect(curves.top.speed_km_h).toBe(figures.top.speed_km_h)
      expect(curves.target_km_h).toBeCloseTo(320, 6)
      const series = [curves.rows, ...curves.margins.lines.map(({ rows }) => rows)]
      for (const rows of [...series, ...(curves.heat?.lines ?? []).map((line) => line.rows)]) {
        expect(rows.length).toBeGreaterThan(5)
        expect(rows.length).toBeLessThanOrEqual(60)
      }
    }
  })

  it('of a long flight of short passes keep to 60 points, with the peak in them', () => {
    const profile = { flight_time_min: 4, pass_s: 1, full_throttle_share: 0.3 }
    const long = answered(prepared(catalogue, { profile, target: { speed_km_h: 300 } }))
    expect(long.picks[0]?.study.flight?.phases.length).toBeGreaterThan(60)
    for (const { rows, peak_c } of long.picks[0]?.curves.heat?.lines ?? []) {
      expect(rows.length).toBeLessThanOrEqual(60)
      expect(Math.max(...rows.map(({ temperature_c }) => temperature_c))).toBeGreaterThan(peak_c - 3)
      const times = rows.map(({ time_s }) => time_s)
      expect(times).toEqual(times.toSorted((a, b) => a - b))
    }
  })
})

describe("the owner's wishes", () => {
  const wishes = (expression: string) => answered(prepared(catalogue, { wishes: { expression } }))

  it('by expression rank behind what reaches, and the value stands in the score', () => {
    const own = wishes('flight_time_s - 0.1 * cost')
    expect(own.understood.wishes.expression).toBe('flight_time_s - 0.1 * cost')
    for (const { raw, score } of own.front) {
      expect(Math.abs((score.expression ?? 0) - (raw.flight_time_s - 0.1 * raw.cost))).toBeLessThan(0.01)
    }
    for (const reaches of [true, false]) {
      const values = own.front.filter(({ score }) => score.reaches === reaches).map(({ score }) => score.expression)
      expect(values).toEqual(values.toSorted((a, b) => (b ?? 0) - (a ?? 0)))
    }
    expect(atRank(own, 1).why).toMatch(/^Best by your own expression: /)
    const plain = (of: Result) => of.front.map(({ setup }) => JSON.stringify(setup)).sort()
    expect(plain(own)).toEqual(plain(result))
    expect(resultSchema.safeParse(JSON.parse(JSON.stringify(own))).success).toBe(true)
  })

  it('put what has no finite value last and say so', () => {
    const limit = result.front.map(({ raw }) => raw.cost).sort((a, b) => a - b)[1] ?? 0
    const own = wishes(`sqrt(${limit} - cost)`)
    const without = own.front.filter(({ score }) => score.expression === null)
    expect(without.length).toBeGreaterThan(0)
    expect(own.front.slice(-without.length)).toEqual(without)
    for (const { why } of without) expect(why).toMatch(/^Your expression has no finite value here/)
    expect(resultSchema.safeParse(JSON.parse(JSON.stringify(own))).success).toBe(true)
  })

  it('by weights decide who is first', () => {
    const first = (weights: Record<string, number>) => atRank(answered(prepared(catalogue, { wishes: { weights } })), 1)
    const reaching = result.front.filter(({ score }) => score.reaches)
    const thrifty = first({ speed: 0, time: 0, cost: 1, margin: 0 })
    expect(thrifty.raw.cost).toBe(Math.min(...reaching.map(({ raw }) => raw.cost)))
    expect(first({ speed: 4, time: 2, cost: 2, margin: 2 }).setup).toEqual(atRank(result, 1).setup)
  })
})
