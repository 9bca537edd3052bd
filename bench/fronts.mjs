// Points a second through the front filter on five kinds of sets, from few members to many. Run alone it prints its own
// table; `--large` adds ten million points to each.
import { RandomStream } from '@ductwright/catalogue/generate/random'
import { Front } from '@ductwright/models/sweep/front'
import { measure, rateOf } from './measure.mjs'

const RAW = { speed: 0, time: 0, cost: 0, margin: 0 }
const VALUES = 4

const SETS = {
  uniform: four,
  correlated,
  'anti-correlated': opposed,
  'catalogue with ties': catalogue,
  'heavy duplicates': duplicates,
}

/** One row a set and size: members, points a second, nanoseconds a point. */
export async function measureFronts(quick) {
  const large = process.argv.includes('--large')
  const sizes = quick ? [100_000] : [100_000, 1_000_000, ...(large ? [10_000_000] : [])]
  const found = []
  for (const [set, draw] of Object.entries(SETS)) {
    for (const size of sizes) {
      const points = drawn(size, draw)
      let members = 0
      const filter = () => {
        members = filtered(points)
        return members
      }
      const time = await measure(filter, { warmUps: 1, runs: quick ? 2 : 5 })
      const [leastNs, meanNs, deviationNs] = [time.least, time.mean, time.deviation].map((s) => (s / size) * 1e9)
      found.push({ name: set, points: size, members, leastNs, meanNs, deviationNs, ...rateOf(size, time) })
    }
  }
  return found
}

function filtered(points) {
  const front = new Front()
  const cells = new Float64Array(VALUES)
  for (let number = 0, o = 0; o < points.length; number++, o += VALUES) {
    for (let k = 0; k < VALUES; k++) cells[k] = points[o + k]
    front.offer(cells, RAW, number)
  }
  return front.size
}

function drawn(count, draw) {
  const random = new RandomStream(1, 'front points')
  const points = new Float64Array(count * VALUES)
  for (let o = 0; o < points.length; o += VALUES) points.set(draw(random), o)
  return points
}

function four(random) {
  return [random.share(), random.share(), random.share(), random.share()]
}

/** Nearly normal: six draws. */
function normal(random) {
  let sum = -3
  for (let i = 0; i < 6; i++) sum += random.share()
  return sum * Math.SQRT2
}

function correlated(random) {
  const shared = normal(random)
  return [0, 0, 0, 0].map(() => shared + 0.6 * normal(random))
}

/** Near a plane on which nothing dominates anything. */
function opposed(random) {
  const draw = four(random)
  const sum = draw.reduce((total, value) => total + value, 0)
  const away = 0.05 + 0.015 * normal(random)
  return draw.map((value) => value / sum + away * value)
}

/** Levels as resolutions make them: faster is dearer and weaker, heavier flies longer, margin counts up to a level. */
function catalogue(random) {
  const [speed, weight, maker, luck] = four(random)
  const cost = 0.6 * speed + 0.4 * weight + 0.5 * maker
  const time = weight - 0.5 * speed + 0.5 * luck
  const margin = Math.min(0.6, 1 - speed + 0.6 * random.share())
  return [-Math.round(speed * 70), -Math.round(time * 40), Math.round(cost * 200), -Math.round(margin * 15)]
}

/** The opposed set on 25 levels. */
function duplicates(random) {
  const draw = four(random)
  const sum = draw.reduce((total, value) => total + value, 0)
  return draw.map((value) => Math.round((value / sum + 0.2 * random.share()) * 25))
}

if (process.argv[1] === new URL(import.meta.url).pathname) {
  for (const { name, points, members, leastNs, meanNs, deviationNs } of await measureFronts(false)) {
    const [least, mean, deviation] = [leastNs, meanNs, deviationNs].map((ns) => ns.toFixed(1).padStart(8))
    process.stdout.write(
      `${name.padEnd(20)} ${String(points).padStart(9)} points ${String(members).padStart(6)} members`,
    )
    process.stdout.write(`${least} ns least ${mean} mean ±${deviation}\n`)
  }
}
