// The time left that progress tells: at the pace so far, and nothing before there is one.

import { expect, it } from 'vitest'
import { timeLeft } from '../../cli/dist/progress-line.js'

it('time left is what the rest takes at the pace so far', () => {
  expect(timeLeft(0.25, 10_000)).toBe(', about 30 s left')
  expect(timeLeft(0.5, 300_000)).toBe(', about 5 min left')
  expect(timeLeft(0.999, 1000)).toBe(', about 1 s left')
})

it('nothing is told before there is a pace, nor at the end', () => {
  for (const share of [0, 0.01, 1, Number.NaN]) expect(timeLeft(share, 5000)).toBe('')
})
