// Treatments: each changes only its own terms, order and repetition do not matter, none ever costs drag, and a full
// clean-up of three jets takes a believable part of the drag area.
import { builtUpDragArea, type DragTermName, dragTerms } from '@ductwright/models/drag/build-up'
import { TREATMENTS, type TreatmentKind, treatedDragArea, treatedGeometry } from '@ductwright/models/drag/treatments'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { relativeError } from './authority-table.js'
import { anyGeometry, anySpeed, EXAMPLE_JETS, FOAM_JET, SEA_LEVEL } from './drag-geometries.js'

const foam = FOAM_JET.geometry
const kinds = fc.array(fc.constantFrom(...TREATMENTS), { maxLength: 9 })

describe('a treatment', () => {
  const own: readonly (readonly [TreatmentKind, readonly DragTermName[]])[] = [
    ['seal-gaps', ['control-gaps']],
    ['sharpen-trailing-edges', ['trailing-edges']],
    ['close-wheel-doors', ['gear', 'door-edges']],
    ['hide-horns', ['horns']],
    ['fair-edges', ['flat-faces']],
    // A thinner boundary layer sucks harder at blunt bases, so polish moves those terms too, the other way.
    ['polish', ['wing-friction', 'tail-friction', 'body-friction', 'trailing-edges', 'flat-faces']],
  ]
  it.each(own)('%s changes its own terms and no other', (kind, terms) => {
    const before = dragTerms(foam, FOAM_JET.speed, SEA_LEVEL)
    const after = dragTerms(treatedGeometry(foam, [kind]), FOAM_JET.speed, SEA_LEVEL)
    const changed = before.filter(({ area }, i) => area !== after[i]?.area).map(({ term }) => term)
    expect(changed).toEqual(terms)
  })

  it('never raises the drag area of any geometry at any speed', () => {
    fc.assert(
      fc.property(anyGeometry, anySpeed, fc.constantFrom(...TREATMENTS), kinds, (geometry, speed, kind, others) => {
        const before = treatedGeometry(geometry, others)
        const after = treatedGeometry(geometry, [...others, kind])
        const area = builtUpDragArea(before, speed, SEA_LEVEL)
        expect(builtUpDragArea(after, speed, SEA_LEVEL)).toBeLessThanOrEqual(area * (1 + 1e-12))
      }),
      { numRuns: 2000 },
    )
  })

  it('counts once, in any order', () => {
    fc.assert(
      fc.property(anyGeometry, kinds, (geometry, named) => {
        const once = treatedGeometry(geometry, named)
        expect(treatedGeometry(geometry, [...named, ...named])).toEqual(once)
        expect(treatedGeometry(geometry, [...named].reverse())).toEqual(once)
        expect(treatedGeometry(geometry, [...named].sort())).toEqual(once)
      }),
    )
  })

  it('leaves the geometry it was given as it was, and none leaves it the same', () => {
    const copy = structuredClone(foam)
    expect(treatedGeometry(foam, TREATMENTS)).not.toEqual(copy)
    expect(foam).toEqual(copy)
    expect(treatedGeometry(foam, [])).toEqual(copy)
  })

  it('goes as far as stated', () => {
    const done = treatedGeometry(foam, TREATMENTS)
    expect(done.gaps.affectedArea).toBeCloseTo(0.1 * foam.gaps.affectedArea, 12)
    expect(done.trailingEdges).toEqual({ length: foam.trailingEdges.length, thickness: 0.0003 })
    expect(done.gear.exposed).toBe(0.05)
    expect(done.doorEdges).toBeCloseTo(0.2 * foam.doorEdges, 12)
    expect(done.horns).toBeCloseTo(0.1 * foam.horns, 12)
    expect(done.flatFaces).toBeCloseTo(0.35 * foam.flatFaces, 12)
    expect(done.roughness).toBeCloseTo(1.03, 12)
    expect(done.wing.laminarShare).toBeCloseTo(foam.wing.laminarShare + 0.075, 12)
  })

  it('finds nothing to do where it is done already', () => {
    const sharp = { ...foam, trailingEdges: { length: 1.5, thickness: 0.0002 } }
    expect(treatedGeometry(sharp, ['sharpen-trailing-edges'])).toEqual(sharp)
    const smooth = { ...foam, roughness: 1.02 }
    expect(treatedGeometry(smooth, ['polish'])).toEqual(smooth)
    const fixed = { ...foam, gear: { ...foam.gear, exposed: 1 } }
    expect(treatedGeometry(fixed, ['close-wheel-doors'])).toEqual(fixed)
    const long = { ...foam, roughness: 2, wing: { ...foam.wing, laminarShare: 0.8 } }
    expect(treatedGeometry(long, ['polish']).wing.laminarShare).toBe(0.8)
  })

  it('that does not exist is refused', () => {
    const unknown = 'wax' as TreatmentKind
    expect(() => treatedGeometry(foam, ['polish', unknown])).toThrow(
      new RangeError(`treatment must be one of ${TREATMENTS.join(', ')}, got wax`),
    )
  })
})

describe('a full clean-up', () => {
  const cut = (jet: (typeof EXAMPLE_JETS)[number]) => {
    const treated = treatedGeometry(jet.geometry, TREATMENTS)
    return 1 - builtUpDragArea(treated, jet.speed, SEA_LEVEL) / builtUpDragArea(jet.geometry, jet.speed, SEA_LEVEL)
  }

  it('of a foam jet takes 30 to 45 % of its drag area (common practice, no source)', () => {
    expect(cut(FOAM_JET)).toBeGreaterThan(0.3)
    expect(cut(FOAM_JET)).toBeLessThan(0.45)
  })

  it.each(EXAMPLE_JETS)('brings a $name jet near its clean area (assumed ranges of this design)', (jet) => {
    const treated = treatedGeometry(jet.geometry, TREATMENTS)
    const area = treatedDragArea(jet.dirty, jet.geometry, treated, jet.speed, SEA_LEVEL)
    expect(relativeError(area, jet.clean)).toBeLessThan(0.08)
  })
})

describe('a treated drag area', () => {
  const treated = treatedGeometry(foam, TREATMENTS)
  const before = builtUpDragArea(foam, 75, SEA_LEVEL)
  const after = builtUpDragArea(treated, 75, SEA_LEVEL)
  const of = (known: number) => treatedDragArea(known, foam, treated, 75, SEA_LEVEL)

  it('keeps what the build-up does not explain', () => {
    expect(of(before + 0.001)).toBeCloseTo(after + 0.001, 12)
    expect(of(before)).toBeCloseTo(after, 12)
  })

  it('takes the same share when the build-up exceeds what is known', () => {
    expect(relativeError(of(before / 2), after / 2)).toBeLessThan(1e-12)
  })

  it('stays between a fifth of what is known and what is known', () => {
    fc.assert(
      fc.property(
        anyGeometry,
        anySpeed,
        kinds,
        fc.double({ min: 1e-4, max: 1, noNaN: true }),
        (geometry, speed, named, known) => {
          const area = treatedDragArea(known, geometry, treatedGeometry(geometry, named), speed, SEA_LEVEL)
          expect(area).toBeGreaterThanOrEqual(0.2 * known)
          expect(area).toBeLessThanOrEqual(known * (1 + 1e-12))
        },
      ),
    )
  })

  it('never falls below a fifth, however much there was to clean', () => {
    const shed = { ...foam, doorEdges: 0.1, horns: 0.1 }
    const area = treatedDragArea(0.2, shed, treatedGeometry(shed, TREATMENTS), 75, SEA_LEVEL)
    expect(area).toBeCloseTo(0.04, 12)
  })

  it.each([0, -1, Number.NaN, Infinity])('refuses a known area of %d', (known) => {
    expect(() => of(known)).toThrow(new RangeError(`known must be above 0 m² and finite, got ${known}`))
  })
})
