// The front filter on sets whose fronts and hypervolumes are known: each is offered after points that it dominates, and
// what is left must be the set and have its volume.
import type { Front } from '@ductwright/models/sweep/front'
import { DIMENSIONS } from '@ductwright/models/sweep/objectives'
import { describe, expect, it } from 'vitest'
import { authorityTable, relativeError } from '../models/authority-table.js'
import { filtered, frontOf, type Point } from './front-definition.js'

const RAW = { speed: 0, time: 0, cost: 0, margin: 0 }
const WHOLE_SPHERE = 'whole sphere'

/** Hypervolume by slicing along the last value; all values are minimised. */
function hypervolume(points: readonly (readonly number[])[], reference: number): number {
  const [first] = points
  if (first === undefined) return 0
  if (first.length === 1) return Math.max(0, reference - Math.min(...points.map(([value]) => value as number)))
  const last = first.length - 1
  const sorted = [...points].sort((a, b) => (a[last] as number) - (b[last] as number))
  return sorted.reduce((sum, point, i) => {
    const next = sorted[i + 1]?.[last] ?? reference
    const depth = Math.min(next, reference) - (point[last] as number)
    return depth > 0
      ? sum +
          depth *
            hypervolume(
              sorted.slice(0, i + 1).map((p) => p.slice(0, last)),
              reference,
            )
      : sum
  }, 0)
}

/** Das–Dennis directions with `divisions` steps on the unit sphere. */
function sphere(divisions: number): Float64Array[] {
  const points: Float64Array[] = []
  const place = (left: number, weights: readonly number[]): void => {
    if (weights.length === DIMENSIONS - 1) {
      const all = [...weights, left]
      const norm = Math.hypot(...all)
      points.push(Float64Array.from(all, (weight) => weight / norm))
      return
    }
    for (let step = 0; step <= left; step++) place(left - step, [...weights, step])
  }
  place(divisions, [])
  return points
}

const SETS: Readonly<Record<string, readonly (readonly number[])[]>> = {
  'two-dimensional': [
    [5, 5],
    [4, 6],
    [2, 7],
    [7, 4],
  ],
  'unit vectors': [
    [1, 0, 0, 0],
    [0, 1, 0, 0],
    [0, 0, 1, 0],
    [0, 0, 0, 1],
  ],
  'crossed pair': [
    [0, 1, 0, 1],
    [1, 0, 1, 0],
  ],
  'three points': [
    [1, 2, 3, 4],
    [4, 3, 2, 1],
    [2, 2, 2, 2],
  ],
  'four points': [
    [0.2, 0.8, 0.5, 0.6],
    [0.6, 0.3, 0.7, 0.4],
    [0.9, 0.6, 0.1, 0.5],
    [0.4, 0.5, 0.6, 0.2],
  ],
  'sphere 3': sphere(3).map((cells) => [...cells]),
  'sphere 5': sphere(5).map((cells) => [...cells]),
  'sphere 7': sphere(7).map((cells) => [...cells]),
}

describe('known fronts (hypervolume 38 printed; others computed; DTLZ2 sphere with Das–Dennis directions)', () => {
  const table = authorityTable('fronts')
  for (const row of table.rows.filter((each) => each.text('case') !== WHOLE_SPHERE)) {
    it(`${row.text('case')}, reference ${row.text('reference')}, among points they dominate`, () => {
      const members = SETS[row.text('case')] ?? []
      const dominated = members.map((cells) => cells.map((cell) => cell + 0.01))
      const points = [...dominated, ...members].map(
        (cells, number): Point => ({ cells: Float64Array.from(cells), raw: RAW, number }),
      )
      const kept = filtered(points)
      expect(kept).toEqual(members.map((_, i) => dominated.length + i))
      const left = kept.map((number) => [...(points[number]?.cells ?? [])])
      const volume = hypervolume(left, row.number('reference'))
      // The four-point value has four digits.
      const tolerance = row.text('case') === 'four points' ? 5e-4 : table.tolerance
      expect(relativeError(volume, row.number('hypervolume'))).toBeLessThan(tolerance)
    })
  }

  it('the whole sphere: r⁴ − π²/32, neared from below by ever more directions', () => {
    const row = table.rows.find((each) => each.text('case') === WHOLE_SPHERE)
    const reference = row?.number('reference') ?? 0
    const whole = row?.number('hypervolume') ?? 0
    expect(relativeError(reference ** 4 - Math.PI ** 2 / 32, whole)).toBeLessThan(table.tolerance)
    const volumes = [12, 24].map((divisions) => {
      const front = frontOf(sphere(divisions).map((cells, number) => ({ cells, raw: RAW, number })))
      return shareDominated(front, reference) * reference ** 4
    })
    const [coarse = 0, fine = 0] = volumes
    expect(coarse).toBeLessThan(fine)
    expect(fine).toBeLessThan(whole)
    // What is missing halves as directions double; 0.01 covers sampling and the next term.
    expect(Math.abs(2 * fine - coarse - whole)).toBeLessThan(0.01)
  })
})

/** Share of a cube from 0 to `edge` that a front dominates, by the middles of 24⁴ equal cells. */
function shareDominated(front: Front, edge: number): number {
  const steps = 24
  const cells = new Float64Array(DIMENSIONS)
  let dominated = 0
  for (let i = 0; i < steps ** DIMENSIONS; i++) {
    for (let k = 0, left = i; k < DIMENSIONS; k++, left = Math.floor(left / steps))
      cells[k] = (((left % steps) + 0.5) / steps) * edge
    if (front.dominates(cells)) dominated++
  }
  return dominated / steps ** DIMENSIONS
}
