// Blunt bases, undercarriage, gaps, horns and induced drag against tables, limits and refusals.
import {
  bodyBaseDrag,
  edgeBaseDrag,
  flatFaceArea,
  LEAST_FOREBODY_FRICTION,
  trailingEdgeArea,
  trailingEdgeDrag,
} from '@ductwright/models/drag/base-drag'
import { doorEdgeDragArea, gapDragArea, hornDragArea } from '@ductwright/models/drag/gap-and-horn-drag'
import { gearDragArea } from '@ductwright/models/drag/gear-drag'
import { estimatedOswald, inducedDrag, OSWALD_CAP, straightWingOswald } from '@ductwright/models/drag/induced-drag'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, quantityOf, relativeError } from './authority-table.js'

describe('base drag (Hoerner 1950; two-dimensional constant from memory; computed)', () => {
  const table = authorityTable('base-drag')
  it.each(table.rows.filter((row) => row.text('quantity') === 'body'))('behind a body, row %#', (row) => {
    const coefficient = bodyBaseDrag(row.number('forebody_friction'))
    expect(relativeError(coefficient, row.number('value'))).toBeLessThan(table.tolerance)
  })
  it.each(table.rows.filter((row) => row.text('quantity') === 'edge'))('behind a wing, row %#', (row) => {
    const coefficient = edgeBaseDrag(row.number('forebody_friction'))
    expect(relativeError(coefficient, row.number('value'))).toBeLessThan(table.tolerance)
  })

  it('of a worked trailing edge: what sharpening it is worth', () => {
    const edge = trailingEdgeDrag(0.2, 0.0015, 0.0117)
    const expected = (quantity: string) => quantityOf(table, `worked ${quantity}`)
    expect(relativeError(edge.forebodyFriction, expected('forebody friction'))).toBeLessThan(1e-12)
    expect(relativeError(edge.coefficient, expected('coefficient'))).toBeLessThan(table.tolerance)
    expect(relativeError(edge.increment, expected('increment'))).toBeLessThan(table.tolerance)
  })

  it('as an area is the increment times the wing it belongs to', () => {
    const [chord, span, thickness, sectionDrag] = [0.2, 1.3, 0.0015, 0.0117]
    const area = trailingEdgeArea(sectionDrag * chord * span, span * thickness)
    const { increment } = trailingEdgeDrag(chord, thickness, sectionDrag)
    expect(relativeError(area, increment * chord * span)).toBeLessThan(1e-12)
  })

  it('of half the thickness is less than half, and of none is none', () => {
    const friction = 0.003
    expect(trailingEdgeArea(friction, 0.001)).toBeLessThan(0.5 * trailingEdgeArea(friction, 0.002))
    expect(flatFaceArea(friction, 0.001)).toBeLessThan(0.5 * flatFaceArea(friction, 0.002))
    expect([trailingEdgeArea(friction, 0), flatFaceArea(friction, 0)]).toEqual([0, 0])
  })

  it('never grows by more than the friction in front of it falls', () => {
    const area = fc.double({ min: 1e-6, max: 1, noNaN: true })
    fc.assert(
      fc.property(area, area, area, (one, two, base) => {
        const [less, more] = [Math.min(one, two), Math.max(one, two)]
        for (const drag of [trailingEdgeArea, flatFaceArea]) {
          expect(less + drag(less, base)).toBeLessThanOrEqual((more + drag(more, base)) * (1 + 1e-12))
        }
      }),
      { numRuns: 2000 },
    )
  })

  it('vanishes with the base, however small that gets', () => {
    expect([trailingEdgeArea(0.003, Number.MIN_VALUE), flatFaceArea(0.003, Number.MIN_VALUE)]).toEqual([0, 0])
  })

  it('stays what it is below the least friction told apart', () => {
    expect(edgeBaseDrag(0.01)).toBe(edgeBaseDrag(LEAST_FOREBODY_FRICTION))
    expect(bodyBaseDrag(0.01)).toBe(bodyBaseDrag(LEAST_FOREBODY_FRICTION))
  })

  it.each([
    [() => bodyBaseDrag(0), 'forebodyFriction must be above 0, got 0'],
    [() => edgeBaseDrag(Number.NaN), 'forebodyFriction must be above 0, got NaN'],
    [() => trailingEdgeDrag(0, 0.001, 0.01), 'chord must be above 0 and finite, got 0'],
    [() => trailingEdgeDrag(0.2, -0.001, 0.01), 'thickness must be above 0 and finite, got -0.001'],
    [() => trailingEdgeDrag(0.2, 0.001, Infinity), 'sectionDrag must be above 0 and finite, got Infinity'],
  ])('refuses what is no base, case %#', (drag, message) => {
    expect(drag).toThrow(new RangeError(message))
  })
})

describe('an undercarriage (Sadraey 2009; computed)', () => {
  const table = authorityTable('gear-drag')
  const sideArea = (count: number, first: number, second: number) => (count * first * second) / 1e6

  it.each(table.rows)('in the stream, row %#', (row) => {
    const n = (column: string) => row.number(column)
    const wheels = sideArea(n('wheels'), n('wheel_diameter_mm'), n('wheel_width_mm'))
    const struts = sideArea(n('struts'), n('strut_diameter_mm'), n('strut_length_mm'))
    expect(relativeError(gearDragArea(wheels, struts, 1), n('drag_area_m2'))).toBeLessThan(table.tolerance)
    expect(relativeError(gearDragArea(wheels, struts, 0.25), n('drag_area_m2') / 4)).toBeLessThan(table.tolerance)
    expect(gearDragArea(wheels, struts, 0)).toBe(0)
  })

  it.each([
    [-1, 0, 0.5, 'wheels must be at least 0 m², got -1'],
    [0, Number.NaN, 0.5, 'struts must be at least 0 m², got NaN'],
    [0, 0, 1.1, 'exposed must lie between 0 and 1, got 1.1'],
  ])('refuses wheels of %d, struts of %d, exposed %d', (wheels, struts, exposed, message) => {
    expect(() => gearDragArea(wheels, struts, exposed)).toThrow(new RangeError(message))
  })
})

describe('gaps, horns and door edges (from memory)', () => {
  it('of gaps is 0.0002 of the area they cut, and falls with the squared cosine of sweep', () => {
    expect(gapDragArea(0.3, 0)).toBeCloseTo(6e-5, 12)
    expect(relativeError(gapDragArea(0.3, Math.PI / 3), gapDragArea(0.3, 0) / 4)).toBeLessThan(1e-12)
    expect(gapDragArea(0.3, -0.4)).toBe(gapDragArea(0.3, 0.4))
  })

  it('of a bluff horn is between 1.0 and 1.2 times its frontal area', () => {
    expect(hornDragArea(1e-4)).toBeGreaterThanOrEqual(1.0e-4)
    expect(hornDragArea(1e-4)).toBeLessThanOrEqual(1.2e-4)
    expect(doorEdgeDragArea(1e-4)).toBeLessThanOrEqual(hornDragArea(1e-4))
  })

  it.each([
    [() => gapDragArea(-1, 0), 'affectedArea must be at least 0 m², got -1'],
    [() => gapDragArea(1, 1.6), 'sweep must lie between −π/2 and π/2 rad, got 1.6'],
    [() => hornDragArea(Infinity), 'frontalArea must be at least 0 m², got Infinity'],
    [() => doorEdgeDragArea(-1), 'frontalArea must be at least 0 m², got -1'],
  ])('refuses what is no area, case %#', (drag, message) => {
    expect(drag).toThrow(new RangeError(message))
  })
})

describe('induced drag (McCormick; span efficiency Raymer; from memory)', () => {
  const table = authorityTable('span-efficiency')
  it.each(table.rows)('span efficiency by the formula alone, row %#', (row) => {
    const e = straightWingOswald(row.number('aspect_ratio'))
    expect(relativeError(e, row.number('value'))).toBeLessThan(table.tolerance)
  })

  it('caps an estimate at 0.85 and leaves it alone below', () => {
    expect(estimatedOswald(6)).toBe(OSWALD_CAP)
    expect(estimatedOswald(2)).toBe(OSWALD_CAP)
    expect(estimatedOswald(8)).toBe(straightWingOswald(8))
  })

  it('equals the drag of weight, span and dynamic pressure: W²/(q·π·e·b²)', () => {
    const [weight, span, area, pressure, e] = [40, 1.1, 0.27, 3400, 0.8]
    const coefficient = inducedDrag(weight / (pressure * area), span ** 2 / area, e)
    const expected = weight ** 2 / (pressure * Math.PI * e * span ** 2)
    expect(relativeError(coefficient * pressure * area, expected)).toBeLessThan(1e-12)
  })

  it.each([
    [() => inducedDrag(0.1, 0, 0.8), 'aspectRatio must be above 0 and finite, got 0'],
    [() => inducedDrag(0.1, 5, -1), 'oswald must be above 0 and finite, got -1'],
    [() => inducedDrag(Number.NaN, 5, 0.8), 'liftCoefficient must be finite, got NaN'],
    [() => straightWingOswald(-2), 'aspectRatio must be above 0 and finite, got -2'],
    [() => estimatedOswald(21), 'aspectRatio must be above 0 and at most 20, got 21'],
  ])('refuses what is no wing, case %#', (drag, message) => {
    expect(drag).toThrow(new RangeError(message))
  })
})
