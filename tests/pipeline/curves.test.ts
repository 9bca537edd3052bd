// Curves of a setup against the single points that are worked out another way: thrust equals drag at top speed, vanishes at
// the ceiling and falls in between; margins and temperatures meet what the evaluation judges.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import type { SetupCurves } from '@ductwright/contract/curves'
import { parseSetup } from '@ductwright/contract/parse-setup'
import { setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { setupCurves } from '@ductwright/pipeline/curves'
import { evaluateSetup } from '@ductwright/pipeline/evaluate-setup'
import { timelineOf } from '@ductwright/pipeline/flight-figures'
import { curvesOfSetup } from '@ductwright/pipeline/setup-curves'
import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { relativeError } from '../models/authority-table.js'
import {
  airframeOf,
  type BelievableSetup,
  believableSetups,
  circumstancesOf,
  escOf,
  fanOf,
  motorOf,
  packOf,
  setupOf,
} from '../models/believable-parts.js'
import { present, workshop } from './workshop.js'

const DUTY = 0.9
const KMH = 3.6

/** Detail and curves of a setup; null when it cannot be worked through. */
function workedOut({ circumstances, parts }: BelievableSetup) {
  const detail = setupDetail(circumstances, parts, DUTY)
  if ('refused' in detail) return null
  const timeline = timelineOf(circumstances, parts, DUTY, detail)
  const curves = setupCurves({ circumstances, parts, duty: DUTY, target: null, timeline }) as SetupCurves
  return { detail, curves, timeline }
}

function everySetup(check: (worked: NonNullable<ReturnType<typeof workedOut>>) => void): number {
  let seen = 0
  fc.assert(
    fc.property(believableSetups, (setup) => {
      const worked = workedOut(setup)
      if (worked === null) return
      seen++
      check(worked)
    }),
    { numRuns: 60 },
  )
  return seen
}

/** A 90 mm jet whose turns, pull-ups and dives count. */
function aerobatic(): BelievableSetup {
  const plain = circumstancesOf(airframeOf())
  const profile = { ...plain.profile, turnRadius: 120, pullUpRadius: 90 }
  const run = { ...plain.run, entryHeight: 250, entrySpeedShare: 0.9, diveAngle: 1 }
  const circumstances = { ...plain, profile, run }
  return setupOf(circumstances, fanOf(0.09), motorOf(1300, 0.35), escOf(160), packOf(10, 5))
}

describe('thrust and drag over speed, random setups', () => {
  it('meet at the level top speed that is solved for, with the quoted and with a full pack, to 1e-6', () => {
    const seen = everySetup(({ detail, curves }) => {
      expect(curves.top.speed_km_h).toBe(detail.top.speed * KMH)
      expect(relativeError(curves.top.thrust_n, detail.top.drag)).toBeLessThan(1e-6)
      expect(relativeError(curves.top_full.thrust_n, detail.topFull.drag)).toBeLessThan(1e-6)
      expect(relativeError(curves.top.pack_power_w, detail.top.packPower)).toBeLessThan(1e-6)
      expect(relativeError(curves.standing_full.thrust_n, detail.standing.thrust)).toBeLessThan(1e-6)
    })
    expect(seen).toBeGreaterThan(40)
  })

  it('have no thrust left where the efflux is as fast as the aircraft', () => {
    everySetup(({ curves }) => {
      for (const [ceiling, standing] of [
        [curves.ceiling, curves.standing],
        [curves.ceiling_full, curves.standing_full],
      ] as const) {
        expect(Math.abs(ceiling.thrust_n)).toBeLessThan(1e-8 * standing.thrust_n)
        expect(relativeError(ceiling.efflux_km_h, ceiling.speed_km_h)).toBeLessThan(1e-8)
      }
    })
  })

  it('thrust falls all the way, and a full pack always pulls harder', () => {
    everySetup(({ curves }) => {
      const thrusts = curves.rows.map(({ thrust_n }) => thrust_n)
      expect(thrusts).toEqual([...new Set(thrusts)].sort((a, b) => b - a))
      expect(curves.rows.filter(({ thrust_n, thrust_full_n }) => thrust_full_n <= thrust_n)).toEqual([])
    })
  })

  it('drag begins at the stall and is the parasite and induced drag of the level solution', () => {
    everySetup(({ detail, curves }) => {
      const { parasite, induced } = detail.level
      const stall = detail.stallSpeed * KMH
      const flying = curves.rows.flatMap(({ speed_km_h, drag_n }) => (drag_n === null ? [] : [[speed_km_h, drag_n]]))
      const worst = flying.map(([speed = 0, drag = 0]) => {
        const square = (speed / KMH) ** 2
        return relativeError(drag, parasite * square + induced / square)
      })
      expect(Math.max(...worst)).toBeLessThan(1e-12)
      expect(flying.length).toBe(curves.rows.filter(({ speed_km_h }) => speed_km_h > stall * (1 - 1e-12)).length)
      expect(flying.length).toBeGreaterThan(30)
    })
  })
})

describe('margins over speed', () => {
  it('are at the fastest speed what the evaluation judges, random setups and one that turns, pulls up and dives', () => {
    const same = ({ detail, curves }: NonNullable<ReturnType<typeof workedOut>>) => {
      const { lines } = curves.margins
      const binding = lines.filter(({ binds }) => binds).map(({ criterion }) => criterion)
      expect(binding).toContain(detail.marginBinds)
      expect(lines.map(({ criterion }) => criterion)).toEqual(detail.margins.map(({ criterion }) => criterion))
      for (const [i, { margin }] of detail.margins.entries()) {
        expect(Math.abs((lines[i]?.at_fastest ?? 9) - margin)).toBeLessThan(1e-9)
      }
    }
    expect(everySetup(same)).toBeGreaterThan(40)
    const turning = workedOut(aerobatic())
    expect(turning?.detail.fastest).toBeGreaterThan(turning?.detail.topFull.speed ?? Number.POSITIVE_INFINITY)
    if (turning !== null) same(turning)
  })

  it('of a speed limit fall from stall to −0.21 at 1.1 times the least allowed speed', () => {
    const { curves } = workedOut(aerobatic()) as NonNullable<ReturnType<typeof workedOut>>
    const rows = curves.margins.lines.find(({ criterion }) => criterion === 'design-speed')?.rows ?? []
    expect(rows[0]?.speed_km_h).toBe(curves.stall_km_h)
    expect(relativeError(rows.at(-1)?.speed_km_h ?? 0, 1.1 * (curves.allowed_km_h ?? 0))).toBeLessThan(1e-12)
    expect(rows.at(-1)?.margin).toBeCloseTo(-0.21, 12)
    for (const [i, row] of rows.entries()) expect(row.margin).toBeLessThan(rows[i - 1]?.margin ?? 1)
  })
})

describe('temperatures through the flight', () => {
  it('go from the start to the end of the timeline and never above its peaks', () => {
    everySetup(({ curves: { heat }, timeline }) => {
      expect(heat === null).toBe(timeline.phases.length === 0)
      for (const { store, rows, peak_c } of heat?.lines ?? []) {
        expect(rows[0]?.time_s).toBe(0)
        expect(rows.at(-1)?.time_s).toBeCloseTo(timeline.time, 9)
        expect(peak_c + 273.15).toBeCloseTo(timeline.peaks[store].temperature, 9)
        expect(Math.max(...rows.map(({ temperature_c }) => temperature_c))).toBeLessThan(peak_c + 1e-9)
      }
    })
  })

  it('are left out without a flight', () => {
    const { circumstances, parts } = aerobatic()
    expect(setupCurves({ circumstances, parts, duty: DUTY, target: 90, timeline: null })).toMatchObject({
      heat: null,
      target_km_h: 324,
    })
  })
})

describe('curves of a setup named by its parts', () => {
  let catalogue: Catalogue
  beforeAll(async () => {
    catalogue = await workshop()
  })
  const requestOf = (setup: Record<string, unknown> = {}) =>
    parseSetup({
      airframe: { id: 'airframe-vintra-90' },
      setup: { ...present, ...setup },
      target_speed_km_h: 340,
    })

  it('agree with its report to the six digits of that, and are the same twice', () => {
    const curves = curvesOfSetup(requestOf(), catalogue) as SetupCurves
    const { figures } = evaluateSetup(requestOf(), catalogue)
    expect(relativeError(curves.top.speed_km_h, figures?.speed_steady_km_h ?? 0)).toBeLessThan(5e-6)
    expect(relativeError(curves.allowed_km_h ?? 0, figures?.speed_allowed_km_h ?? 0)).toBeLessThan(5e-6)
    expect(relativeError(curves.standing_full.thrust_n, figures?.standing.thrust_n ?? 0)).toBeLessThan(5e-6)
    expect(curves.target_km_h).toBeCloseTo(340, 9)
    expect(JSON.stringify(curvesOfSetup(requestOf(), catalogue))).toBe(JSON.stringify(curves))
  })

  it('are none where the setup does not fly level', () => {
    expect(curvesOfSetup(requestOf({ duty: 0.3, arrangement: 'single' }), catalogue)).toBeNull()
    expect(evaluateSetup(requestOf({ duty: 0.3, arrangement: 'single' }), catalogue).figures).toBeNull()
  })
})
