// Searched against worked through, question by question: what there is to choose from, what comes out, and how long it
// takes on one thread and on two.
import { performance } from 'node:perf_hooks'
import { mergeFronts } from '@ductwright/models/sweep/merge'
import { measureBrute } from './brute.mjs'
import { sink, statistics } from './measure.mjs'
import { marketName, preparedQuestion } from './questions.mjs'
import { Team } from './team.mjs'

/** A sweep that takes longer is measured once: there is no need to warm up for it, and no time for more, s. */
const LONG = 3
const RUNS = 3

export const LARGEST = marketName('large', 26)
/** In this order, so that every long sweep comes after short ones that warmed its threads. */
const COMPARED = [
  'demo, narrowed',
  'demo, 2 % duties',
  ...['medium', 'large'].flatMap((size) => [4, 9, 26].map((duties) => marketName(size, duties))),
  'demo, whole front',
]
/** Catalogues small enough for their whole fronts to be worth the wait. */
export const WHOLE_SIZES = ['tiny', 'small']
/** Further points of the plots, on one thread. */
const FURTHER = [marketName('tiny', 9), marketName('small', 9), ...WHOLE_SIZES.map((size) => marketName(size, 9, true))]
const QUICKLY = ['demo, narrowed', marketName('medium', 9)]

/** One row a question. */
export async function measureSweeps(quick) {
  return measured(quick ? QUICKLY : COMPARED, [1, 2], quick)
}

export async function measureFurther(quick) {
  return quick ? [] : measured(FURTHER, [1], quick)
}

async function measured(names, threadCounts, quick) {
  const team = new Team(Math.max(...threadCounts))
  const rows = []
  for (const name of names) {
    const prepared = await preparedQuestion(name)
    await team.prepare(name)
    rows.push({ name, ...planCounts(prepared), ...(await searched(team, threadCounts, quick ? 1 : RUNS)) })
    rows.at(-1).brute = await measureBrute(prepared, quick)
    process.stderr.write(`${name}: ${rows.at(-1).one.least.toFixed(3)} s\n`)
  }
  await team.close()
  return rows
}

function planCounts({ plan }) {
  return { raw: plan.raw, compatible: plan.compatible }
}

async function searched(team, threadCounts, runs) {
  const found = []
  let merged = null
  for (const threads of threadCounts) {
    const work = async () => {
      const fronts = await team.sweep(threads)
      merged = mergeFronts(fronts)
      return merged.feasible
    }
    found.push(await timed(work, runs))
  }
  const { members, boxes, evaluated } = merged
  const [one, two] = found
  return { one, two, front: members.length, boxes, evaluated, nsPerBox: (one.least / boxes) * 1e9 }
}

/** The first run warms up, unless it is a long one: then it is the measurement. */
async function timed(work, runs) {
  const first = await timeOf(work)
  const times = []
  if (first.seconds > LONG) times.push(first)
  else for (let i = 0; i < runs; i++) times.push(await timeOf(work))
  return {
    ...statistics(times.map(({ seconds }) => seconds)),
    processor: Math.min(...times.map(({ processor }) => processor)),
    processorsHad: sum(times.map(({ processor }) => processor)) / sum(times.map(({ seconds }) => seconds)),
  }
}

/** Seconds by the clock, and of processor time on all threads of this process, which other processes disturb less. */
async function timeOf(work) {
  const before = process.cpuUsage()
  const start = performance.now()
  sink(await work())
  const seconds = (performance.now() - start) / 1000
  const { user, system } = process.cpuUsage(before)
  return { seconds, processor: (user + system) / 1e6 }
}

function sum(values) {
  return values.reduce((total, value) => total + value, 0)
}
