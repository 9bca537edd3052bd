// The built-up drag area: its terms by hand, believable sums for three jets, how it moves with speed, and refusals.
import { builtUpDragArea, DRAG_TERMS, type DragTermName, dragTerms } from '@ductwright/models/drag/build-up'
import type { DragGeometry } from '@ductwright/models/drag/drag-geometry'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { relativeError } from './authority-table.js'
import { anyGeometry, anySpeed, EXAMPLE_JETS, FOAM_JET, SEA_LEVEL } from './drag-geometries.js'

const foam = FOAM_JET.geometry

function area(geometry: DragGeometry, term: DragTermName, speed = FOAM_JET.speed): number {
  return dragTerms(geometry, speed, SEA_LEVEL).find((each) => each.term === term)?.area ?? Number.NaN
}

describe('the terms', () => {
  it('come in a fixed order and add up to the sum', () => {
    fc.assert(
      fc.property(anyGeometry, anySpeed, (geometry, speed) => {
        const terms = dragTerms(geometry, speed, SEA_LEVEL)
        expect(terms.map(({ term }) => term)).toEqual(DRAG_TERMS)
        expect(terms.every((each) => each.area >= 0 && Number.isFinite(each.area))).toBe(true)
        const sum = terms.reduce((total, each) => total + each.area, 0)
        expect(relativeError(builtUpDragArea(geometry, speed, SEA_LEVEL), sum)).toBeLessThan(1e-12)
      }),
    )
  })

  it('of friction are Cf·FF·Q·S_wet, written out for a turbulent wing and body', () => {
    const turbulent: DragGeometry = {
      ...foam,
      roughness: 1,
      wing: { ...foam.wing, laminarShare: 0 },
      body: { ...foam.body, laminarShare: 0 },
    }
    const reynolds = (1.225 * 75) / 1.78938e-5
    const friction = (length: number) => 0.455 / Math.log10(reynolds * length) ** 2.58
    const wing = friction(0.235) * (1 + 2 * 0.11 + 100 * 0.11 ** 4) * 1.1 * 0.46
    const body = friction(1.1) * (0.9 + 5 / 8.46 ** 1.5 + 8.46 / 400) * 1.1 * 0.34
    // The viscosity above has six digits.
    expect(relativeError(area(turbulent, 'wing-friction'), wing)).toBeLessThan(1e-6)
    expect(relativeError(area(turbulent, 'body-friction'), body)).toBeLessThan(1e-6)
  })

  it('of the small things are as their own models say, whatever the speed', () => {
    for (const speed of [40, 75, 120]) {
      expect(relativeError(area(foam, 'control-gaps', speed), 0.0002 * Math.cos(0.15) ** 2 * 0.34)).toBeLessThan(1e-12)
      expect(relativeError(area(foam, 'horns', speed), 1.1 * 0.00024)).toBeLessThan(1e-12)
      expect(relativeError(area(foam, 'gear', speed), 1.1 * (0.3 * 0.0042 + 1.2 * 0.0016) * 0.24)).toBeLessThan(1e-12)
      expect(area(foam, 'door-edges', speed)).toBe(0.00038)
      expect([area(foam, 'cooling', speed), area(foam, 'spillage', speed)]).toEqual([0.00025, 0.0003])
    }
  })

  it('of blunt bases follow from the friction in front of them', () => {
    const base = 1.55 * 0.003
    const front = area(foam, 'wing-friction') + area(foam, 'tail-friction')
    const edges = (0.135 / Math.cbrt(front / base)) * base
    const faces = (0.029 / Math.sqrt(area(foam, 'body-friction') / 0.008)) * 0.008
    expect(relativeError(area(foam, 'trailing-edges'), edges)).toBeLessThan(1e-12)
    expect(relativeError(area(foam, 'flat-faces'), faces)).toBeLessThan(1e-12)
  })
})

describe('the sum', () => {
  it.each(EXAMPLE_JETS)(
    'is believable for a $name jet (assumed ranges of this design)',
    ({ geometry, speed, dirty }) => {
      expect(relativeError(builtUpDragArea(geometry, speed, SEA_LEVEL), dirty)).toBeLessThan(0.05)
    },
  )

  it.each(EXAMPLE_JETS)(
    'of a $name jet moves by a few per cent from 0.7 to 1.3 of its speed',
    ({ geometry, speed }) => {
      const at = (share: number) => builtUpDragArea(geometry, share * speed, SEA_LEVEL)
      const [slow, fast] = [at(0.7) / at(1) - 1, at(1.3) / at(1) - 1]
      expect(slow).toBeGreaterThan(0.03)
      expect(slow).toBeLessThan(0.065)
      expect(fast).toBeLessThan(-0.02)
      expect(fast).toBeGreaterThan(-0.045)
    },
  )

  it('grows with the size of everything by the square, but for the Reynolds number', () => {
    const twice: DragGeometry = {
      ...foam,
      wing: { ...foam.wing, wettedArea: 4 * foam.wing.wettedArea, chord: 2 * foam.wing.chord },
      tail: { ...foam.tail, wettedArea: 4 * foam.tail.wettedArea, chord: 2 * foam.tail.chord },
      body: { ...foam.body, wettedArea: 4 * foam.body.wettedArea, length: 2 * foam.body.length },
      trailingEdges: { length: 2 * foam.trailingEdges.length, thickness: 2 * foam.trailingEdges.thickness },
      gaps: { ...foam.gaps, affectedArea: 4 * foam.gaps.affectedArea },
      horns: 4 * foam.horns,
      gear: { ...foam.gear, wheels: 4 * foam.gear.wheels, struts: 4 * foam.gear.struts },
      doorEdges: 4 * foam.doorEdges,
      flatFaces: 4 * foam.flatFaces,
      cooling: 4 * foam.cooling,
      spillage: 4 * foam.spillage,
    }
    const [small, large] = [builtUpDragArea(foam, 75, SEA_LEVEL), builtUpDragArea(twice, 37.5, SEA_LEVEL)]
    expect(relativeError(large, 4 * small)).toBeLessThan(1e-12)
  })
})

describe('what is not believable', () => {
  const broken: readonly (readonly [DragGeometry, string])[] = [
    [{ ...foam, roughness: 0.9 }, 'roughness must lie between 1 and 3, got 0.9'],
    [{ ...foam, wing: { ...foam.wing, chord: 235 } }, 'wing.chord must lie between 0.01 and 3 m, got 235'],
    [{ ...foam, tail: { ...foam.tail, wettedArea: 0 } }, 'tail.wettedArea must lie between 0.0001 and 20 m², got 0'],
    [{ ...foam, tail: { ...foam.tail, laminarShare: 1.2 } }, 'tail.laminarShare must lie between 0 and 1, got 1.2'],
    [{ ...foam, body: { ...foam.body, fineness: Number.NaN } }, 'body.fineness must lie between 2 and 40, got NaN'],
    [
      { ...foam, trailingEdges: { length: 1.5, thickness: 2 } },
      'trailingEdges.thickness must lie between 0 and 0.02 m, got 2',
    ],
    [{ ...foam, gaps: { affectedArea: -1, sweep: 0 } }, 'gaps.affectedArea must lie between 0 and 10 m², got -1'],
    [{ ...foam, gear: { ...foam.gear, exposed: 24 } }, 'gear.exposed must lie between 0 and 1, got 24'],
    [{ ...foam, horns: Infinity }, 'horns must lie between 0 and 0.1 m², got Infinity'],
    [{ ...foam, spillage: -0.001 }, 'spillage must lie between 0 and 0.1 m², got -0.001'],
  ]
  it.each(broken)('is refused with quantity, rule and value, case %#', (geometry, message) => {
    expect(() => builtUpDragArea(geometry, 75, SEA_LEVEL)).toThrow(new RangeError(message))
  })

  it('includes speed and air', () => {
    expect(() => dragTerms(foam, 0, SEA_LEVEL)).toThrow(new RangeError('speed must be above 0 m/s and finite, got 0'))
    expect(() => dragTerms(foam, 75, { density: 0, viscosity: 1.8e-5 })).toThrow(
      new RangeError('air.density must be above 0 kg/m³ and finite, got 0'),
    )
    expect(() => dragTerms(foam, 75, { density: 1.2, viscosity: Number.NaN })).toThrow(
      new RangeError('air.viscosity must be above 0 Pa·s and finite, got NaN'),
    )
  })
})
