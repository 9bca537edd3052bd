// What a setup is studied for: bands of every figure, odds, the flight as phases, clean-up work, the condition of packs at
// hand, speeds from a receiver and out of a dive.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { parseSetup } from '@ductwright/contract/parse-setup'
import type { SetupReport } from '@ductwright/contract/setup'
import { evaluateSetup } from '@ductwright/pipeline/evaluate-setup'
import { numbersOf } from '@ductwright/pipeline/figure-paths'
import { beforeAll, describe, expect, it } from 'vitest'
import { answered, faultsOf, prepared, present, requestOf, workshop } from './workshop.js'

let catalogue: Catalogue
let plainReport: SetupReport

function reportOf(changes: Record<string, unknown> = {}): SetupReport {
  return evaluateSetup(parseSetup({ airframe: { id: 'airframe-vintra-90' }, setup: present, ...changes }), catalogue)
}

function figuresOf(report: SetupReport) {
  if (report.figures === null || report.study === null) throw new Error('refused')
  return { figures: report.figures, study: report.study }
}

beforeAll(async () => {
  catalogue = await workshop()
  plainReport = reportOf({ target_speed_km_h: 300 })
})

describe('bands and odds', () => {
  it('of every figure, around it, and the same bytes each time', () => {
    const { figures, study } = figuresOf(plainReport)
    const numbers = numbersOf(figures)
    expect(numbers.size).toBeGreaterThan(120)
    for (const [path, value] of numbers) {
      const [low, high] = study.bands[path] ?? [Number.NaN, Number.NaN]
      expect(low, path).toBeLessThanOrEqual(high)
      // Nearly every band lies around the figure itself; settings and what is at its own limit stay where they are.
      const width = Math.max(high - low, 1e-9 * Math.abs(value))
      expect(value, path).toBeGreaterThanOrEqual(low - width)
      expect(value, path).toBeLessThanOrEqual(high + width)
    }
    expect(JSON.stringify(reportOf({ target_speed_km_h: 300 }))).toBe(JSON.stringify(plainReport))
  })

  it('odds of a target fall as it rises, from sure to none', () => {
    const odds = [150, 290, 310, 330, 600].map(
      (speed) => figuresOf(reportOf({ target_speed_km_h: speed })).study.reaches_target ?? Number.NaN,
    )
    expect(odds[0]).toBe(1)
    expect(odds.at(-1)).toBe(0)
    expect(odds).toEqual([...odds].sort((a, b) => b - a))
    expect(figuresOf(reportOf()).study.reaches_target).toBeNull()
  })

  it('the spread of the speed comes mostly from the drag area, unless a measured speed has pinned it', () => {
    expect(figuresOf(plainReport).study.drivers[0]?.input).toBe('drag-area')
    const measured = { setup: present, speed_km_h: 305, basis: 'steady', speed_uncertainty: 0.002 }
    const pinned = figuresOf(reportOf({ airframe: { id: 'airframe-vintra-90', measured } }))
    const width = ({ study }: ReturnType<typeof figuresOf>) => {
      const [low, high] = study.bands['speed_steady_km_h'] ?? [0, 0]
      return high - low
    }
    expect(width(pinned)).toBeLessThan(0.9 * width(figuresOf(plainReport)))
  })
})

describe('the flight as phases', () => {
  it('starts full, ends with the approach, and uses charge in every phase', () => {
    const { flight } = figuresOf(plainReport).study
    const phases = flight?.phases ?? []
    expect(phases.map(({ phase }) => phase).slice(0, 3)).toEqual(['take-off', 'climb', 'pass'])
    expect(phases.at(-1)?.phase).toBe('approach')
    const charges = [1, ...phases.map(({ charge_left }) => charge_left)]
    expect(charges).toEqual([...charges].sort((a, b) => b - a))
    const flown = phases.reduce((sum, { time_s }) => sum + time_s, 0)
    expect(flown).toBeGreaterThan(230)
    expect(flown).toBeLessThan(245)
    expect(flight?.last_pass_km_h).toBeLessThan(flight?.first_pass_km_h ?? 0)
  })

  it('a longer climb and a longer approach leave less time, a gentler share at full throttle more', () => {
    const timeOf = (profile: Record<string, unknown>) =>
      figuresOf(reportOf({ profile })).study.flight?.time_to_reserve_s ?? 0
    const usual = timeOf({})
    expect(timeOf({ climb_height_m: 300 })).toBeLessThan(usual)
    expect(timeOf({ full_throttle_share: 0.15 })).toBeGreaterThan(usual)
  })
})

describe('clean-up work', () => {
  it('does to a setup what its sensitivity foretold, for its price and its mass', () => {
    const before = figuresOf(reportOf())
    for (const kind of ['polish', 'sharpen-trailing-edges']) {
      const foretold = before.study.sensitivity.treatments.find((gain) => gain.kind === kind)
      const treated = reportOf({ treatments: [kind] })
      const after = figuresOf(treated)
      const gain = after.figures.speed_steady_km_h - before.figures.speed_steady_km_h
      expect(gain).toBeCloseTo(foretold?.gain_km_h ?? Number.NaN, 1)
      expect(gain).toBeGreaterThan(0.5)
      expect(treated.cost - reportOf().cost).toBeCloseTo(foretold?.price ?? Number.NaN, 6)
      expect(treated.shopping.find(({ role }) => role === 'treatment')?.id).toBe(kind)
      expect(1000 * (after.figures.mass_kg - before.figures.mass_kg)).toBeCloseTo(foretold?.mass_g ?? Number.NaN, 2)
      expect(after.study.sensitivity.treatments.some((other) => other.kind === kind)).toBe(false)
    }
  })

  it('is paid for once in every setup of a sweep, and its hours are told', () => {
    const without = answered(prepared(catalogue))
    const treated = answered(prepared(catalogue, { treatments: ['polish', 'seal-gaps'] }))
    const price = treated.airframe.treatments.reduce((sum, work) => sum + work.price, 0)
    expect(treated.airframe.treatments.map(({ kind }) => kind)).toEqual(['seal-gaps', 'polish'])
    expect(treated.airframe.drag_area_m2).toBeLessThan(without.airframe.drag_area_m2)
    for (const { shopping, raw } of treated.front) {
      expect(shopping.filter(({ role }) => role === 'treatment').reduce((sum, line) => sum + line.price, 0)).toBe(price)
      expect(shopping.reduce((sum, line) => sum + line.price, 0)).toBeCloseTo(raw.cost, 6)
    }
  })

  it('is refused by name where nothing is known of the drag, or the catalogue lists no such work', () => {
    const bare = { ...catalogue, airframes: catalogue.airframes.map(withoutGeometry), treatments: catalogue.treatments }
    const [unknown] = faultsOf(() => prepared(bare, { treatments: ['polish'] }))
    expect(unknown).toMatchObject({ pointer: '/treatments/0', rule: 'drag-terms', value: '"polish"' })
    const [unlisted] = faultsOf(() => prepared({ ...catalogue, treatments: [] }, { treatments: ['polish'] }))
    expect(unlisted).toMatchObject({ pointer: '/treatments/0', rule: 'unknown-part' })
  })

  const withoutGeometry = (airframe: Catalogue['airframes'][number]) => ({
    ...airframe,
    part: { ...airframe.part, dragGeometry: null },
  })
})

describe('packs at hand', () => {
  const owning = (condition: Record<string, unknown>) =>
    figuresOf(reportOf({ owned: [{ id: 'pack-sarvik-5s-5000', count: 2, ...condition }] }))

  it('stand as they are: more resistance sags more, cycles take charge', () => {
    const fresh = owning({})
    const tired = owning({ cell_resistance_mohm: 4 })
    expect(tired.figures.standing.pack_voltage_v).toBeLessThan(fresh.figures.standing.pack_voltage_v)
    expect(tired.figures.speed_steady_km_h).toBeLessThan(fresh.figures.speed_steady_km_h)
    const flown = owning({ cycles: 150 })
    expect(flown.figures.flight_time_s).toBeLessThan(fresh.figures.flight_time_s)
    expect(flown.figures.speed_steady_km_h).toBeLessThan(fresh.figures.speed_steady_km_h)
  })

  it('a measured resistance narrows what is not known of the sag', () => {
    const width = ({ study }: ReturnType<typeof figuresOf>) => {
      const [low, high] = study.bands['temperatures.pack_c'] ?? [0, 0]
      return high - low
    }
    const listed = catalogue.packs.find(({ part }) => part.id === 'pack-sarvik-5s-5000')?.part.cellResistance ?? 0
    expect(width(owning({ cell_resistance_mohm: 1000 * listed }))).toBeLessThan(0.9 * width(owning({})))
  })
})

describe('speeds', () => {
  it('from legs over the ground count as the air speed they give, wind taken out', () => {
    const legs = [
      { ground_speed_km_h: 325, track_deg: 90 },
      { ground_speed_km_h: 285, track_deg: 270 },
    ]
    const measured = { setup: present, basis: 'steady', speed_uncertainty: 0.01 }
    const areaOf = (speed: Record<string, unknown>) =>
      prepared(catalogue, { airframe: { id: 'airframe-vintra-90', measured: { ...measured, ...speed } } }).chosen
        .present?.estimate.dragArea
    expect(areaOf({ gps_legs: legs })).toBeCloseTo(areaOf({ speed_km_h: 305 }) ?? Number.NaN, 9)
  })

  it('out of a dive are faster than level, and count for the structure whatever is aimed at', () => {
    const run = { entry_height_m: 150, dive_angle_deg: 45, entry_speed_share: 0.9 }
    const level = figuresOf(reportOf())
    const dived = figuresOf(reportOf({ run }))
    expect(dived.figures.speed_dive_km_h).toBeGreaterThan(level.figures.speed_steady_km_h)
    expect(dived.figures.speed_fastest_km_h).toBeGreaterThan(level.figures.speed_fastest_km_h)
    const flutter = (of: ReturnType<typeof figuresOf>) =>
      of.figures.margins.find(({ criterion }) => criterion === 'wing-flutter')?.margin ?? Number.NaN
    expect(flutter(dived)).toBeLessThan(flutter(level))
    const aimed = answered(prepared(catalogue, { run, target: { speed_km_h: 330, basis: 'dive' } }))
    for (const { raw, figures } of aimed.front) expect(raw.speed_km_h).toBe(figures.speed_dive_km_h)
    expect(aimed.front.length).toBeGreaterThan(0)
  })

  it('a tight turn at top speed loads the wing more than a wide one', () => {
    const bending = (turn_radius_m: number) =>
      figuresOf(reportOf({ profile: { turn_radius_m } })).figures.margins.find(
        ({ criterion }) => criterion === 'wing-bending',
      )?.margin ?? Number.NaN
    expect(bending(60)).toBeLessThan(bending(90))
    expect(bending(900)).toBeCloseTo(
      figuresOf(reportOf()).figures.margins.find(({ criterion }) => criterion === 'wing-bending')?.margin ?? Number.NaN,
      9,
    )
  })

  it('the air of the field stands in every answer', () => {
    const field = { elevation_m: 1500, temperature_c: 35 }
    expect(reportOf({ field }).air.density_kg_m3).toBeCloseTo(0.9559, 3)
    expect(answered(prepared(catalogue, requestOf({ field }))).air.elevation_m).toBe(1500)
  })
})
