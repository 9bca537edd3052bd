// The table that the 95 % values of limits come from, drawn again: for believable setups the 95 % value of each use lies
// as far above the nominal one as the table says, and a setup at the edge of a guarded limit keeps its rating in about 19
// of 20 samples.
import { GUARD, guardedShare, LIMIT_SCATTER } from '@ductwright/models/evaluation/limit-scatter'
import { LIMIT_INDEX, LIMITS, type Limit } from '@ductwright/models/evaluation/limits'
import { setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { quantile } from '@ductwright/models/uncertainty/quantile'
import { runSamples } from '@ductwright/models/uncertainty/sample-run'
import { Tolerances } from '@ductwright/models/uncertainty/tolerances'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type BelievableSetup, believableSetups } from './believable-parts.js'

const SETUPS = 32
const SAMPLES = 256
const GUARDED = Object.keys(LIMIT_SCATTER) as Limit[]

interface Drawn {
  /** (95 % value / nominal − 1) / 1.645, one a setup. */
  readonly scatter: number[]
  /** Share of samples whose use stays below nominal / guardedShare. */
  readonly kept: number[]
}

/** Setups that fly at full throttle without using any rating twice over. */
function draw(): ReadonlyMap<Limit, Drawn> {
  const drawn = new Map<Limit, Drawn>(GUARDED.map((limit) => [limit, { scatter: [], kept: [] }]))
  let setups = 0
  for (const setup of fc.sample(believableSetups, { numRuns: 400, seed: 4711 })) {
    if (setups === SETUPS) break
    if (sampleInto(drawn, setup)) setups++
  }
  expect(setups).toBe(SETUPS)
  return drawn
}

function sampleInto(drawn: ReadonlyMap<Limit, Drawn>, setup: BelievableSetup): boolean {
  const { circumstances, parts, fan } = setup
  const nominal = setupDetail(circumstances, parts, 1)
  if ('refused' in nominal) return false
  const usedOf = (limit: Limit) => nominal.limits[LIMIT_INDEX[limit]]?.used ?? Number.NaN
  if (GUARDED.some((limit) => usedOf(limit) > 2)) return false
  const studied = { fan, nozzleRatio: parts.node.duct.nozzleRatio, parts, circumstances }
  const run = runSamples(studied, 1, { samples: SAMPLES, seed: 5, tolerances: Tolerances.standard }, () => [])
  for (const limit of GUARDED) {
    const column = run.used[LIMIT_INDEX[limit]] as Float64Array
    const flying = column.filter((value) => !Number.isNaN(value)).sort()
    const used = usedOf(limit)
    drawn.get(limit)?.scatter.push((quantile(flying, 0.95) / used - 1) / GUARD)
    drawn.get(limit)?.kept.push(flying.filter((value) => value <= used / guardedShare(limit)).length / flying.length)
  }
  return true
}

const median = (values: readonly number[]) =>
  quantile(
    [...values].sort((a, b) => a - b),
    0.5,
  )

describe('the scatter that limits are guarded against', () => {
  const drawn = draw()

  it.each(GUARDED)('%s: the median over believable setups is within a fifth of the table', (limit) => {
    const found = median(drawn.get(limit)?.scatter ?? [])
    expect(found / (LIMIT_SCATTER[limit] as number)).toBeGreaterThan(0.8)
    expect(found / (LIMIT_SCATTER[limit] as number)).toBeLessThan(1.2)
  })

  it.each(GUARDED)('%s: at the edge of the guard the rating is kept in 92 to 98 samples of 100', (limit) => {
    const kept = median(drawn.get(limit)?.kept ?? [])
    expect(kept).toBeGreaterThan(0.92)
    expect(kept).toBeLessThan(0.98)
  })

  it('every rating of a part is guarded, and no wish is', () => {
    const wishes: Limit[] = ['budget', 'stall-speed', 'thrust-to-weight', 'take-off-roll', 'flight-time', 'speed-floor']
    for (const limit of wishes) expect(guardedShare(limit)).toBe(1)
    const ratings = LIMITS.filter(
      (limit) => /^(motor|esc|pack|tip|winding|magnet|cell)-/.test(limit) && limit !== 'pack-power',
    )
    expect(ratings.filter((limit) => !(guardedShare(limit) < 1))).toEqual([])
  })
})
