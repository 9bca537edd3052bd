// What the structure and drag tables of invented airframes add up to: limits in the order of their class, drag near what is
// stated, and clean-ups worth having.
import { generateCatalogue } from '@ductwright/catalogue/generate/generate-catalogue'
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import type { Airframe } from '@ductwright/models/airframe/airframe'
import { standardAtmosphere } from '@ductwright/models/atmosphere/standard-atmosphere'
import { builtUpDragArea } from '@ductwright/models/drag/build-up'
import { TREATMENTS, treatedDragArea, treatedGeometry } from '@ductwright/models/drag/treatments'
import { type SpeedCriterion, speedLimits } from '@ductwright/models/structure/speed-limits'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { demoFiles } from './edit-tables.js'

const { airframes } = readCatalogue(demoFiles)
const AIR = standardAtmosphere(0)
const SPEED = 80

const part = (id: string): Airframe => airframes.find((each) => each.part.id === id)!.part

function limits(airframe: Airframe): Map<SpeedCriterion, number> {
  return new Map(speedLimits(airframe, AIR).map(({ criterion, speed }) => [criterion, speed * 3.6]))
}

/** Slowest and fastest computed limit that a class of airframe may have, km/h. Assumed. */
const CLASS_LIMITS = { foam: [225, 300], composite: [395, 480], carbon: [480, 620] } as const

describe('structure of the demonstration airframes', () => {
  // Computed by an independent program from the same assumed stiffness: flutter over 1.5, divergence over 1.25, servo
  // torque with factor 2; km/h.
  it.each([
    ['airframe-jorrel-90', { wing: 283, tail: 320, divergence: 285, servo: 257 }],
    ['airframe-vintra-90', { wing: 439, tail: 637, divergence: 490, servo: 447 }],
    ['airframe-sagitto-90', { wing: 554, tail: 992, divergence: 647, servo: 568 }],
  ])('%s flutters, diverges and runs out of servo where its class does', (id, expected) => {
    const found = limits(part(id))
    expect(Math.abs(found.get('wing-flutter')! - expected.wing)).toBeLessThan(1)
    expect(Math.abs(found.get('tail-flutter')! - expected.tail)).toBeLessThan(1)
    expect(Math.abs(found.get('wing-divergence')! - expected.divergence)).toBeLessThan(2)
    expect(Math.abs(found.get('servo-torque')! - expected.servo)).toBeLessThan(1)
    expect(found.has('design-speed')).toBe(false)
  })

  it.each(airframes.filter(({ part: { structure } }) => structure !== null))(
    '$part.id is limited as its class is',
    (each) => {
      const { structure, ...stated } = each.part
      const lowest = Math.min(...limits({ ...stated, structure, designSpeed: null }).values())
      const [slowest, fastest] = CLASS_LIMITS[each.material]
      expect(lowest).toBeGreaterThan(slowest)
      expect(lowest).toBeLessThan(fastest)
      // Neither linkage nor tail is so weak that wing and servo would not matter.
      expect(limits(each.part).get('control-flutter')).toBeGreaterThan(lowest)
      expect(limits(each.part).get('tail-flutter')).toBeGreaterThan(lowest)
    },
  )

  it('one airframe states a design speed and nothing else, one a lower limit than its structure has', () => {
    const alone = airframes.filter(({ part: { structure } }) => structure === null)
    expect(alone.map(({ part: { designSpeed } }) => Math.round(designSpeed! * 3.6))).toEqual([268])
    const both = airframes.filter(({ part: { structure, designSpeed } }) => structure !== null && designSpeed !== null)
    expect(both).toHaveLength(1)
    const found = limits(both[0]!.part)
    expect(Math.min(...found.values())).toBe(found.get('design-speed'))
  })
})

describe('drag of the demonstration airframes', () => {
  const itemised = airframes.filter(({ part: { dragGeometry } }) => dragGeometry !== null)

  it.each(itemised)('$part.id adds up to about what it states', ({ part: { dragArea, dragGeometry } }) => {
    const ratio = builtUpDragArea(dragGeometry!, SPEED, AIR) / dragArea
    expect(ratio).toBeGreaterThan(0.85)
    expect(ratio).toBeLessThan(1.1)
  })

  it('is worked out for two of them', () => {
    const exact = itemised.filter(
      ({ part: { dragArea, dragGeometry } }) => builtUpDragArea(dragGeometry!, SPEED, AIR) === dragArea,
    )
    expect(exact.map(({ part: { id } }) => id)).toEqual(['airframe-jorrel-64', 'airframe-sagitto-70'])
  })

  it.each([
    ['airframe-jorrel-90', 0.3, 0.42],
    ['airframe-vintra-90', 0.1, 0.18],
    ['airframe-sagitto-90', 0.03, 0.15],
    ['airframe-plumdart-70', 0, 0.06],
  ])('%s has a share of %f to %f to lose by every treatment', (id, least, most) => {
    const { dragArea, dragGeometry } = part(id)
    const treated = treatedGeometry(dragGeometry!, TREATMENTS)
    const share = 1 - treatedDragArea(dragArea, dragGeometry!, treated, SPEED, AIR) / dragArea
    expect(share).toBeGreaterThan(least)
    expect(share).toBeLessThan(most)
  })

  it('has no gear in the stream where there are no wheels', () => {
    const bungee = itemised.filter(({ part: { launch } }) => launch === 'bungee')
    expect(bungee.length).toBeGreaterThan(1)
    for (const {
      part: { dragGeometry },
    } of bungee)
      expect(dragGeometry).toMatchObject({ gear: { wheels: 0, struts: 0 }, doorEdges: 0 })
  })
})

describe('generated airframes', () => {
  it('are limited as their class is, and add up to about what they state, whatever the seed', () => {
    const seeds = fc.integer({ min: 0, max: Number.MAX_SAFE_INTEGER })
    fc.assert(
      fc.property(seeds, (seed) => {
        const made = generateCatalogue({ seed, fans: 1, motors: 1, escs: 1, packs: 1, airframes: 6 })
        for (const { material, part: frame } of made.airframes) {
          const [slowest, fastest] = CLASS_LIMITS[material]
          const lowest = Math.min(...limits(frame).values())
          expect(lowest, frame.id).toBeGreaterThan(slowest * 0.97)
          expect(lowest, frame.id).toBeLessThan(fastest * 1.03)
          if (frame.dragGeometry === null) continue
          const ratio = builtUpDragArea(frame.dragGeometry, SPEED, AIR) / frame.dragArea
          expect(ratio, frame.id).toBeGreaterThan(0.7)
          expect(ratio, frame.id).toBeLessThan(1.4)
        }
      }),
      { numRuns: 40 },
    )
  })

  it('come with every kind of knowledge', () => {
    const options = { seed: 3, fans: 1, motors: 1, escs: 1, packs: 1, airframes: 40 }
    const parts = generateCatalogue(options).airframes.map((each) => each.part)
    expect(parts.some(({ structure }) => structure === null)).toBe(true)
    expect(parts.some(({ structure, designSpeed }) => structure !== null && designSpeed !== null)).toBe(true)
    expect(parts.some(({ structure, designSpeed }) => structure !== null && designSpeed === null)).toBe(true)
    expect(parts.some(({ dragGeometry }) => dragGeometry === null)).toBe(true)
    expect(parts.some(({ oswald }) => oswald > 0.8)).toBe(true)
  })
})
