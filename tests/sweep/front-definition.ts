// What a front is by definition, found by comparing every pair, and seeded sets of points to ask it about: few or many
// levels, duplicates, values from 1e−9 to 1e9 of either sign, both zeros, and orders of arrival that suit no filter.
import { RandomStream } from '@ductwright/catalogue/generate/random'
import { Front } from '@ductwright/models/sweep/front'
import type { Objectives } from '@ductwright/models/sweep/objectives'

export interface Point {
  readonly cells: Float64Array
  readonly raw: Objectives
  readonly number: number
}

/** Numbers of the points that a front keeps. */
export function filtered(points: readonly Point[]): number[] {
  return frontOf(points)
    .members()
    .map(({ number }) => number)
}

export function frontOf(points: readonly Point[]): Front {
  const front = new Front(points[0]?.cells.length)
  for (const { cells, raw, number } of points) front.offer(cells, raw, number)
  return front
}

/** No worse in every value and better in one. */
export function dominates(a: Float64Array, b: Float64Array): boolean {
  let better = false
  for (let k = 0; k < a.length; k++) {
    if ((a[k] as number) > (b[k] as number)) return false
    if ((a[k] as number) < (b[k] as number)) better = true
  }
  return better
}

/** Nothing dominates it, and of equal cells it comes first by cost, speed, time, margin, number. */
export function defined(points: readonly Point[]): Point[] {
  const beats = (a: Point, b: Point): boolean => {
    if (dominates(a.cells, b.cells)) return true
    for (let k = 0; k < a.cells.length; k++) if (a.cells[k] !== b.cells[k]) return false
    const order = [
      [a.raw.cost, b.raw.cost],
      [b.raw.speed, a.raw.speed],
      [b.raw.time, a.raw.time],
      [b.raw.margin, a.raw.margin],
      [a.number, b.number],
    ] as const
    const first = order.find(([x, y]) => x !== y)
    return first !== undefined && first[0] < first[1]
  }
  return points.filter((point) => !points.some((other) => beats(other, point))).sort((a, b) => a.number - b.number)
}

/** A set of two to six values a point; one in twenty-one has some hundreds of points, so that table and tree are in use. */
export function randomSet(seed: number): Point[] {
  const random = new RandomStream(seed, 'front set')
  const dimensions = 2 + (seed % 5)
  const size = seed % 21 === 0 ? random.whole(200, 500) : random.whole(0, 50)
  const levels = random.pick([2, 4, 10, 60, 1e9])
  const opposed = random.pick([true, false])
  const scales = Array.from({ length: dimensions }, () => 10 ** random.whole(-9, 9))
  const cells = Array.from({ length: size }, () => {
    const draw = scales.map(() => random.share())
    const sum = opposed ? draw.reduce((total, value) => total + value, 0) : 1
    return Float64Array.from(draw, (value, k) => {
      const level = Math.round((value / sum - 0.4) * levels)
      const zero = random.share() < 0.5 ? 0 : -0
      return level === 0 ? zero : (level / levels) * (scales[k] as number)
    })
  })
  arrange(cells, scales, random.whole(0, 3))
  return cells.map((cell, number) => {
    const [speed, time, cost, margin] = [random.whole(0, 1), random.whole(0, 1), random.whole(0, 1), random.whole(0, 1)]
    return { cells: cell, number, raw: { speed, time, cost, margin } }
  })
}

/** As drawn, rising or falling in one value, or from worst to best, where most members leave again. */
function arrange(cells: Float64Array[], scales: readonly number[], order: number): void {
  const sum = (cell: Float64Array) => cell.reduce((total, value, k) => total + value / (scales[k] as number), 0)
  if (order === 1) cells.sort((a, b) => (a[0] as number) - (b[0] as number))
  if (order === 2) cells.sort((a, b) => (b[1] as number) - (a[1] as number))
  if (order === 3) cells.sort((a, b) => sum(b) - sum(a))
}

export function shuffled<T>(list: readonly T[], seed: number): T[] {
  const random = new RandomStream(seed, 'shuffle')
  const mixed = [...list]
  for (let i = mixed.length - 1; i > 0; i--) {
    const k = random.whole(0, i)
    const held = mixed[i] as T
    mixed[i] = mixed[k] as T
    mixed[k] = held
  }
  return mixed
}
