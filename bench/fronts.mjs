// Points a second through the front filter, for sets with few and with many members.
import { RandomStream } from '@ductwright/catalogue/generate/random'
import { Front } from '@ductwright/models/sweep/front'
import { measure, rateOf } from './measure.mjs'

const RAW = { speed: 0, time: 0, cost: 0, margin: 0 }

export async function measureFronts(quick) {
  const count = quick ? 10_000 : 100_000
  const sets = {
    'uniform, rounded to 1/200 (ties)': points(count, (random) => rounded(four(random), 200)),
    'uniform, not rounded': points(count, four),
    'better in one is worse in another': points(count / 10, opposed),
  }
  const found = []
  for (const [name, set] of Object.entries(sets)) {
    let members = 0
    const filter = () => {
      const front = new Front()
      set.forEach((cells, number) => {
        front.offer(cells, RAW, number)
      })
      members = front.size
      return members
    }
    const time = await measure(filter, { warmUps: 1, runs: quick ? 2 : 4 })
    found.push({ name, points: set.length, members, ...rateOf(set.length, time) })
  }
  return found
}

function points(count, draw) {
  const random = new RandomStream(1, 'front points')
  return Array.from({ length: count }, () => Float64Array.from(draw(random)))
}

function four(random) {
  return [random.share(), random.share(), random.share(), random.share()]
}

function rounded(values, levels) {
  return values.map((value) => Math.round(value * levels) / levels)
}

/** Near a plane on which nothing dominates anything. */
function opposed(random) {
  const draw = four(random)
  const sum = draw.reduce((total, value) => total + value, 0)
  return draw.map((value) => value / sum + 0.02 * random.share())
}
