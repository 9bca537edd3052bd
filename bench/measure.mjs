// Timing of work that takes long enough to be timed whole: warm-up, some runs, then least, mean and standard deviation.
// Results go through a sink, so that no work can be left out by the compiler.
import { execFileSync } from 'node:child_process'
import { performance } from 'node:perf_hooks'

let sunk = 0

/** Takes a number that a measured piece of work came to. */
export function sink(value) {
  sunk += value
}

/** What all work came to; printed, so it cannot be dead. */
export function sunkTotal() {
  return sunk
}

/**
 * Seconds per run.
 * @param {() => number | Promise<number>} work returns a number for the sink
 */
export async function measure(work, { warmUps, runs }) {
  for (let i = 0; i < warmUps; i++) sink(await work())
  const seconds = []
  for (let i = 0; i < runs; i++) {
    const start = performance.now()
    sink(await work())
    seconds.push((performance.now() - start) / 1000)
  }
  return statistics(seconds)
}

export function statistics(samples) {
  const mean = samples.reduce((sum, value) => sum + value, 0) / samples.length
  const spread = samples.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, samples.length - 1)
  return { least: Math.min(...samples), mean, deviation: Math.sqrt(spread), runs: samples.length }
}

/** The same statistics of a rate: work done over time, the best rate from the least time. */
export function rateOf(work, { least, mean, deviation, runs }) {
  return { best: work / least, mean: work / mean, deviation: (work / mean) * (deviation / mean), runs }
}

/** Short name of the commit that is measured. */
export function commit() {
  try {
    const git = (...words) => execFileSync('git', words, { encoding: 'utf8' }).trim()
    return git('rev-parse', '--short', 'HEAD') + (git('status', '--porcelain') === '' ? '' : ' with local changes')
  } catch {
    return 'unknown (no repository)'
  }
}
