// Legs over the ground in place of an air speed: read into one speed with its scatter, refused with what is missing.
import { airSpeedOf, gpsLegs } from '@ductwright/contract/gps-legs'
import { readBySchema } from '@ductwright/contract/issue-faults'
import { describe, expect, it } from 'vitest'
import { broken, faultsOf } from './faults-of.js'

const read = (legs: unknown) => readBySchema(gpsLegs, legs, 'gps_legs')
const leg = (ground_speed_km_h: unknown, track_deg: unknown) => ({ ground_speed_km_h, track_deg })

describe('legs over the ground', () => {
  it('opposite runs give their mean', () => {
    const found = read([leg(320, 90), leg('280 km/h', '270°')])
    expect(found.speed).toBeCloseTo(300 / 3.6, 12)
    expect(found.spread).toBeNull()
  })

  it('four legs give the mean of their triplets and its scatter (National Test Pilot School, printed)', () => {
    const legs = [leg('178 kt', 178), leg('185 kt', 82), leg('188 kt', 355), leg('184 kt', 265)]
    const { speed, spread } = read(legs)
    expect((speed * 3.6) / 1.852).toBeCloseTo(183.7267, 3)
    expect(((spread ?? 0) * 3.6) / 1.852).toBeCloseTo(0.8271, 3)
  })

  it('the wind comes along when it is asked for', () => {
    const { wind } = airSpeedOf([
      { groundSpeed: 80, track: 0 },
      { groundSpeed: 100, track: Math.PI },
    ])
    expect(wind.speed).toBeCloseTo(10, 12)
  })

  it.each([
    [[leg(300, 0)], [' length']],
    [[leg(300, 0), leg(300, 90)], [' undetermined']],
    [[leg(300, 0), leg(290, 5), leg(310, 355)], [' undetermined']],
    [[leg(300, 0), leg(0, 180)], ['/1/ground_speed_km_h range']],
    [
      [leg(300, 400), leg(280, undefined)],
      ['/0/track_deg range', '/1/track_deg required'],
    ],
    [[{ ...leg(300, 0), wind: 3 }, leg(280, 180)], ['/0/wind unknown-field']],
    ['300 km/h', [' type']],
  ] as const)('refuses %j', (legs, expected) => {
    expect(broken(() => read(legs))).toEqual(expected)
  })

  it('says which leg to fly', () => {
    const message = (legs: unknown) => faultsOf(() => read(legs))[0]?.message
    expect(message([leg(300, 0), leg(300, 90)])).toMatch(/gps_legs cannot give an air speed: .*fly a third leg across/)
    expect(message([leg(300, 0), leg(290, 5)])).toMatch(/one direction only: fly it back/)
  })
})
