// How fan losses move with Reynolds number and tip Mach number.
import {
  lossFactor,
  lossFactorSlope,
  lossScale,
  NO_LOSS_SCALE,
  REFERENCE_TIP_SPEED,
  reynoldsLossFactor,
} from '@ductwright/models/fan/efficiency-scaling'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { relativeError } from './authority-table.js'

const AIR = { density: 1.225, viscosity: 1.78938e-5, soundSpeed: 340.294 }
const TIP_OVER_MEAN = 1.28
const scale = lossScale(TIP_OVER_MEAN, AIR)
const bladeSpeed = fc.double({ min: 5, max: 200, noNaN: true })

describe('losses against blade speed', () => {
  it('an efficiency of 0.80 at a Reynolds number of 5e5 is 0.762 at 1e5 (Ackeret, formula from memory, computed)', () => {
    expect(1 - 0.2 * reynoldsLossFactor(1e5, 5e5)).toBeCloseTo(0.762, 3)
    expect(reynoldsLossFactor(5e5, 5e5)).toBe(1)
  })

  it('are the listed ones at the reference tip speed in standard air, where no tip is near Mach 0.55', () => {
    expect(lossFactor(scale, REFERENCE_TIP_SPEED / TIP_OVER_MEAN)).toBeCloseTo(1, 5)
    expect(lossFactor(NO_LOSS_SCALE, 40)).toBe(1)
  })

  it('equal the formula with a power, from a creeping rotor to one beyond every limit', () => {
    for (let speed = 0.5; speed < 400; speed *= 1.07) {
      const mach = Math.max(0, (TIP_OVER_MEAN * speed) / AIR.soundSpeed - 0.55)
      const formula = (0.5 + 0.5 * (scale.referenceSpeed / speed) ** 0.2) * (1 + 8 * mach * mach)
      expect(relativeError(lossFactor(scale, speed), formula)).toBeLessThan(1e-13)
    }
  })

  it('have the slope of their difference quotient', () => {
    fc.assert(
      fc.property(bladeSpeed, (speed) => {
        const step = 1e-4 * speed
        const quotient = (lossFactor(scale, speed + step) - lossFactor(scale, speed - step)) / (2 * step)
        const slope = lossFactorSlope(scale, speed, lossFactor(scale, speed))
        expect(Math.abs(slope - quotient)).toBeLessThan(1e-6 / speed + 1e-5 * Math.abs(slope))
      }),
    )
  })

  it('grow as air thins and as it warms, and above Mach 0.55 with speed', () => {
    const thin = lossScale(TIP_OVER_MEAN, { ...AIR, density: 1 })
    expect(lossFactor(thin, 100)).toBeGreaterThan(lossFactor(scale, 100))
    expect(lossFactor(scale, 190)).toBeGreaterThan(lossFactor(scale, 170))
    expect(lossFactor(scale, 100)).toBeLessThan(lossFactor(scale, 60))
  })
})
