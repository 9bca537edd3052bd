// Generated catalogues: any seed and size is valid, the same again, and its own.
import { generateCatalogue, generateFiles } from '@ductwright/catalogue/generate/generate-catalogue'
import { RandomStream } from '@ductwright/catalogue/generate/random'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const counts = { fans: 12, motors: 30, escs: 15, packs: 30, airframes: 4 }

describe('generateCatalogue', () => {
  it('gives a valid catalogue of exactly the size asked for, whatever the seed', () => {
    const size = fc.integer({ min: 1, max: 60 })
    const options = fc.record({
      seed: fc.integer({ min: 0, max: Number.MAX_SAFE_INTEGER }),
      fans: size,
      motors: size,
      escs: size,
      packs: size,
      airframes: fc.integer({ min: 1, max: 8 }),
    })
    fc.assert(
      fc.property(options, (asked) => {
        const made = generateCatalogue(asked)
        expect([made.fans, made.motors, made.escs, made.packs, made.airframes].map((list) => list.length)).toEqual([
          asked.fans,
          asked.motors,
          asked.escs,
          asked.packs,
          asked.airframes,
        ])
      }),
      { numRuns: 60 },
    )
  })

  it('makes large ones, most of whose parts find partners', () => {
    const { fans, motors, airframes, escs, packs } = generateCatalogue({
      seed: 7,
      fans: 50,
      motors: 120,
      escs: 60,
      packs: 150,
      airframes: 5,
    })
    const fitting = motors.filter(({ part: motor }) =>
      fans.some(({ part: fan }) => fan.motorCanLimit >= motor.canDiameter && fan.shaftBore === motor.shaftDiameter),
    )
    expect(fitting.length).toBeGreaterThan(0.8 * motors.length)
    for (const { part } of airframes)
      expect(
        fans.some((fan) => fan.part.tipDiameter >= part.fanDiameterMin && fan.part.tipDiameter <= part.fanDiameterMax),
      ).toBe(true)
    for (const { part } of packs)
      expect(escs.some((esc) => esc.part.cellsMin <= part.cells && esc.part.cellsMax >= part.cells)).toBe(true)
  })

  it('gives the same bytes for the same options and others for another seed', () => {
    expect(generateFiles({ seed: 11, ...counts })).toEqual(generateFiles({ seed: 11, ...counts }))
    expect(generateFiles({ seed: 12, ...counts })['fans.csv']).not.toBe(
      generateFiles({ seed: 11, ...counts })['fans.csv'],
    )
  })

  it('keeps its parts when more are asked for', () => {
    const few = generateCatalogue({ seed: 5, ...counts })
    const more = generateCatalogue({ seed: 5, ...counts, packs: counts.packs + 10 })
    expect(more.fans).toEqual(few.fans)
    for (const pack of few.packs) expect(more.packs).toContainEqual(pack)
  })

  it.each([
    ['no fans', { seed: 1, ...counts, fans: 0 }],
    ['half a motor', { seed: 1, ...counts, motors: 1.5 }],
    ['a negative seed', { seed: -1, ...counts }],
    ['a seed that is no number', { seed: Number.NaN, ...counts }],
  ])('refuses %s', (_name, options) => {
    expect(() => generateCatalogue(options)).toThrow(RangeError)
  })
})

describe('RandomStream', () => {
  it('spreads evenly over its range', () => {
    const random = new RandomStream(3, 'even')
    const bins = new Array<number>(16).fill(0)
    const draws = 64_000
    for (let i = 0; i < draws; i++) bins[Math.floor(random.share() * bins.length)]!++
    const expected = draws / bins.length
    const chiSquared = bins.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0)
    // 15 degrees of freedom: 37.7 is passed by chance once in a thousand.
    expect(chiSquared).toBeLessThan(37.7)
  })

  it('gives each name a stream of its own', () => {
    const first = (name: string) => new RandomStream(3, name).share()
    expect(new Set(['a', 'b', 'ab', 'ba', ''].map(first)).size).toBe(5)
  })
})
