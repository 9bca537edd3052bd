// Skin friction and form factors against tables, and the laminar run against the sum of local friction along a plate.
import {
  bodyFormFactor,
  nacelleFormFactor,
  slenderBodyFormFactor,
  wingFormFactor,
} from '@ductwright/models/drag/form-factor'
import { ittcFriction, laminarFriction, mixedFriction, turbulentFriction } from '@ductwright/models/drag/skin-friction'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, relativeError } from './authority-table.js'

describe('skin friction (Blasius, Prandtl–Schlichting, ITTC-57, from memory; computed)', () => {
  const table = authorityTable('skin-friction')
  it.each(table.rows)('all three lines, row %#', (row) => {
    const reynolds = row.number('reynolds')
    expect(relativeError(laminarFriction(reynolds), row.number('laminar'))).toBeLessThan(table.tolerance)
    expect(relativeError(turbulentFriction(reynolds), row.number('turbulent'))).toBeLessThan(table.tolerance)
    expect(relativeError(ittcFriction(reynolds), row.number('ittc'))).toBeLessThan(table.tolerance)
  })

  it('the choice of turbulent line is worth less than 6 % of friction at the Reynolds numbers of a fast jet', () => {
    for (const reynolds of [8e5, 1.2e6, 3e6, 6e6]) {
      expect(relativeError(ittcFriction(reynolds), turbulentFriction(reynolds))).toBeLessThan(0.06)
    }
  })

  it.each([
    [laminarFriction, 0, 'reynolds must be above 0 and finite, got 0'],
    [turbulentFriction, 10, 'reynolds must be above 10 and finite, got 10'],
    [ittcFriction, 100, 'reynolds must be above 100 and finite, got 100'],
    [laminarFriction, Number.NaN, 'reynolds must be above 0 and finite, got NaN'],
    [turbulentFriction, Infinity, 'reynolds must be above 10 and finite, got Infinity'],
  ])('refuses a Reynolds number out of range, case %#', (line, reynolds, message) => {
    expect(() => line(reynolds)).toThrow(new RangeError(message))
  })
})

describe('a plate that is laminar at first', () => {
  const reynolds = fc.double({ min: 1e2, max: 1e8, noNaN: true })
  const share = fc.double({ min: 0, max: 1, noNaN: true })
  const roughness = fc.double({ min: 1, max: 3, noNaN: true })

  it('is turbulent without a laminar run and laminar with a full one', () => {
    expect(mixedFriction(1e6, 0, 1)).toBe(turbulentFriction(1e6))
    expect(mixedFriction(1e6, 0, 1.2)).toBeCloseTo(1.2 * turbulentFriction(1e6), 12)
    expect(mixedFriction(1e6, 1, 1.2)).toBeCloseTo(laminarFriction(1e6), 12)
  })

  it('counts as laminar where the turbulent line falls under the laminar one', () => {
    for (const slow of [10, 5e3, 1.1e4]) {
      expect(mixedFriction(slow, 0, 1)).toBe(laminarFriction(slow))
      expect(relativeError(mixedFriction(slow, 0.4, 1), laminarFriction(slow))).toBeLessThan(1e-12)
    }
    expect(mixedFriction(1.3e4, 0, 1)).toBeGreaterThan(laminarFriction(1.3e4))
  })

  it('has the friction that local coefficients add up to along the plate', () => {
    const [whole, laminarShare] = [1.2e6, 0.3]
    const run = whole * laminarShare
    const drag = (at: number) => at * turbulentFriction(at)
    // Local friction of the turbulent layer by central differences, summed by the midpoint rule.
    const [cells, half] = [4000, 0.5]
    const width = (whole - run) / cells
    let sum = run * laminarFriction(run)
    for (let i = 0; i < cells; i++) {
      const at = run + (i + half) * width
      sum += ((drag(at + 1) - drag(at - 1)) / 2) * width
    }
    expect(relativeError(mixedFriction(whole, laminarShare, 1), sum / whole)).toBeLessThan(1e-6)
  })

  it('never costs more for a longer laminar run or a smoother skin', () => {
    fc.assert(
      fc.property(reynolds, share, share, roughness, roughness, (re, one, two, rough, rougher) => {
        const [short, long] = [Math.min(one, two), Math.max(one, two)]
        const [smooth, coarse] = [Math.min(rough, rougher), Math.max(rough, rougher)]
        const most = mixedFriction(re, short, coarse) * (1 + 1e-12)
        expect(mixedFriction(re, long, coarse)).toBeLessThanOrEqual(most)
        expect(mixedFriction(re, short, smooth)).toBeLessThanOrEqual(most)
      }),
      { numRuns: 2000 },
    )
  })

  it.each([
    [0, 0.1, 1, 'reynolds must be above 0 and finite, got 0'],
    [1e6, -0.1, 1, 'laminarShare must lie between 0 and 1, got -0.1'],
    [1e6, 1.01, 1, 'laminarShare must lie between 0 and 1, got 1.01'],
    [1e6, 0.1, 0.9, 'roughness must be at least 1 and finite, got 0.9'],
    [1e6, 0.1, Infinity, 'roughness must be at least 1 and finite, got Infinity'],
  ])('refuses a Reynolds number of %d, a share of %d with a roughness of %d', (re, laminar, rough, message) => {
    expect(() => mixedFriction(re, laminar, rough)).toThrow(new RangeError(message))
  })
})

describe('form factors (Raymer, from memory; computed)', () => {
  const table = authorityTable('form-factors')
  const shapes: Readonly<Record<string, (first: number, second: number) => number>> = {
    wing: wingFormFactor,
    'slender body': slenderBodyFormFactor,
    body: bodyFormFactor,
  }
  it.each(table.rows)('row %#', (row) => {
    const factor = shapes[row.text('shape')]?.(row.number('first'), row.number('second')) ?? 0
    expect(relativeError(factor, row.number('value'))).toBeLessThan(table.tolerance)
  })

  it('is 1 for a plate without thickness, and grows with thickness', () => {
    expect(wingFormFactor(0, 0.3)).toBe(1)
    const ratios = [0.04, 0.08, 0.12, 0.16, 0.2].map((ratio) => wingFormFactor(ratio, 0.35))
    expect(ratios).toEqual([...ratios].sort((a, b) => a - b))
  })

  it('of the two body forms agree within 2 % from a fineness of 7 to 12 and part below', () => {
    for (const fineness of [7, 8, 9, 10, 12]) {
      expect(relativeError(bodyFormFactor(fineness), slenderBodyFormFactor(fineness))).toBeLessThan(0.02)
    }
    expect(slenderBodyFormFactor(3) / bodyFormFactor(3)).toBeGreaterThan(1.5)
  })

  it('of a nacelle falls towards 1 as it gets longer', () => {
    expect(nacelleFormFactor(3.5)).toBeCloseTo(1.1, 12)
    expect(nacelleFormFactor(7)).toBeCloseTo(1.05, 12)
  })

  it.each([
    [() => wingFormFactor(0.31, 0.3), 'thicknessRatio must lie between 0 and 0.3, got 0.31'],
    [() => wingFormFactor(0.1, 0), 'thicknessPosition must lie between 0.1 and 0.7, got 0'],
    [() => bodyFormFactor(1.9), 'fineness must lie between 2 and 40, got 1.9'],
    [() => slenderBodyFormFactor(Number.NaN), 'fineness must lie between 2 and 40, got NaN'],
    [() => nacelleFormFactor(41), 'fineness must lie between 2 and 40, got 41'],
  ])('refuses a shape out of range, case %#', (factor, message) => {
    expect(factor).toThrow(new RangeError(message))
  })
})
