// The drag area from a measured speed: round trip, and a band that says what is not known.
import { DRAG_AREA_RANGE, fitDragArea, type MeasuredSetup } from '@ductwright/models/calibration/drag-area'
import { setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { describe, expect, it } from 'vitest'
import { relativeError } from './authority-table.js'
import { airframeOf, circumstancesOf, escOf, fanOf, motorOf, packOf, setupOf } from './believable-parts.js'

function setupWith(dragArea: number, speedBasis: 'steady' | 'in-run' = 'steady') {
  const circumstances = circumstancesOf(airframeOf({ dragArea }), { speedBasis })
  return setupOf(circumstances, fanOf(0.09), motorOf(1080, 0.33), escOf(160), packOf(10, 5))
}

function measuredOf(setup: ReturnType<typeof setupWith>): { measured: MeasuredSetup; speed: number } {
  const { node, ...parts } = setup.parts
  const detail = setupDetail(setup.circumstances, setup.parts, 0.95)
  if ('refused' in detail) throw new Error(detail.refused)
  const measured = { fan: setup.fan, nozzleRatio: node.duct.nozzleRatio, parts, duty: 0.95 }
  return { measured, speed: detail.speed }
}

describe('drag area from a measured speed', () => {
  for (const basis of ['steady', 'in-run'] as const) {
    it(`${basis}: finds the area the speed was computed with, to 1e-4`, () => {
      for (const area of [0.003, 0.0052, 0.009]) {
        const { measured, speed } = measuredOf(setupWith(area, basis))
        const { circumstances } = setupWith(0.02, basis)
        const found = fitDragArea(circumstances, measured, speed, 0.015)
        expect(relativeError(found?.dragArea ?? 0, area)).toBeLessThan(1e-4)
      }
    })
  }

  it('the band holds the area and widens with the uncertainty of the speed', () => {
    const { measured, speed } = measuredOf(setupWith(0.0052))
    const { circumstances } = setupWith(0.0052)
    const bands = [0.005, 0.015, 0.04].map((uncertainty) => {
      const found = fitDragArea(circumstances, measured, speed, uncertainty)
      if (found === null) throw new Error('no drag area')
      expect(found.low).toBeLessThan(0.0052)
      expect(found.high).toBeGreaterThan(0.0052)
      return found.high - found.low
    })
    expect(bands).toEqual([...bands].sort((a, b) => a - b))
    // Never narrower than efficiency and voltage leave it.
    expect((bands[0] ?? 0) / 0.0052).toBeGreaterThan(0.06)
  })

  it('a speed that no area explains has no estimate', () => {
    const { measured } = measuredOf(setupWith(0.0052))
    const { circumstances } = setupWith(0.0052)
    expect(fitDragArea(circumstances, measured, 300, 0.015)).toBeNull()
    expect(fitDragArea(circumstances, measured, 20, 0.015)).toBeNull()
    expect(DRAG_AREA_RANGE.low).toBeLessThan(0.003)
  })
})
