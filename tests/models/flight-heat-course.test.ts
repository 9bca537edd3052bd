// What two heat stores do inside a phase: peaks between its ends, and the time at which a temperature is reached, against the
// state worked out at many moments.
import { advance, cyclePeaks, type HeatState, type PhaseHeat, phaseMap } from '@ductwright/models/thermal/two-node'
import { notePeaks, timeToReach } from '@ductwright/models/thermal/within-phase'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const paths = fc.record({
  innerCapacity: between(4, 60),
  outerCapacity: between(20, 300),
  between: between(0.3, 15),
  toAir: between(0.1, 4),
})
const running = fc.record({
  inner: between(0, 400),
  feedback: between(0, 0.5),
  outer: between(0, 150),
  time: between(1, 120),
})
const closed = fc.record({
  inner: fc.constant(0),
  feedback: fc.constant(0),
  outer: between(0, 40),
  time: between(5, 120),
})
const heats = fc.oneof(running, closed)
const states = fc.record({ inner: between(0, 120), outer: between(0, 100) })

/** A motor case of 0.33 kg: the winding is at 90 K and the case at 20 K when the throttle is closed. */
const MOTOR = { innerCapacity: 25.4, outerCapacity: 126.7, between: 7, toAir: 2.5 }
const CLOSED: PhaseHeat = { inner: 0, feedback: 0, outer: 0, time: 60 }
const HOT: HeatState = { inner: 90, outer: 20 }

describe('inside a phase', () => {
  it('the noted peaks are those of the state at 400 moments, no lower and hardly higher', () => {
    let turned = 0
    fc.assert(
      fc.property(paths, heats, states, (path, heat, start) => {
        const end = { ...start }
        const map = phaseMap(path, heat)
        advance(map, end)
        const peaks = { inner: 0, outer: 0 }
        notePeaks(map, start.inner, start.outer, end.inner, end.outer, peaks)
        const seen = { ...start }
        for (let i = 1; i <= 400; i++) {
          const at = { ...start }
          advance(phaseMap(path, { ...heat, time: (i / 400) * heat.time }), at)
          seen.inner = Math.max(seen.inner, at.inner)
          seen.outer = Math.max(seen.outer, at.outer)
        }
        for (const store of ['inner', 'outer'] as const) {
          const scale = Math.max(1, seen[store])
          expect(peaks[store]).toBeGreaterThanOrEqual(seen[store] - 1e-9 * scale)
          expect(peaks[store]).toBeLessThanOrEqual(seen[store] + 2e-3 * scale)
          if (peaks[store] > Math.max(start[store], end[store]) + 0.1) turned++
        }
      }),
      { numRuns: 250 },
    )
    // The property would hold for ends alone if nothing ever turned inside.
    expect(turned).toBeGreaterThan(10)
  })

  it('a case goes on warming after the throttle is closed, and cools before the phase is over', () => {
    const end = { ...HOT }
    const map = phaseMap(MOTOR, CLOSED)
    advance(map, end)
    const peaks = { inner: 0, outer: 0 }
    notePeaks(map, HOT.inner, HOT.outer, end.inner, end.outer, peaks)
    expect(peaks.inner).toBe(90)
    expect(peaks.outer).toBeGreaterThan(25)
    expect(end.outer).toBeLessThan(peaks.outer - 4)
    // Where it peaks, what comes from the winding goes to the air.
    const time = timeToReach(map, HOT, 'outer', peaks.outer - 1e-9) ?? Number.NaN
    const at = { ...HOT }
    advance(phaseMap(MOTOR, { ...CLOSED, time }), at)
    expect(MOTOR.between * (at.inner - at.outer)).toBeCloseTo(MOTOR.toAir * at.outer, 2)
  })

  it('repeated passes count the peaks inside their cruise', () => {
    const hot = phaseMap(MOTOR, { inner: 300, feedback: 0.5, outer: 30, time: 8 })
    const cool = phaseMap(MOTOR, { ...CLOSED, time: 90 })
    const peaks = { inner: 0, outer: 0 }
    cyclePeaks(hot, cool, 4, peaks)
    const state = { inner: 0, outer: 0 }
    let atEnds = 0
    for (const map of [hot, cool, hot, cool, hot, cool, hot, cool]) {
      advance(map, state)
      atEnds = Math.max(atEnds, state.outer)
    }
    expect(peaks.outer).toBeGreaterThan(atEnds + 2)
  })

  it('at the time to reach a temperature the state has it, and no earlier moment had', () => {
    let reached = 0
    fc.assert(
      fc.property(paths, heats, states, between(0, 150), (path, heat, start, level) => {
        const map = phaseMap(path, heat)
        for (const store of ['inner', 'outer'] as const) {
          const time = timeToReach(map, start, store, level)
          const last = time ?? heat.time
          for (let i = 1; i < 60; i++) {
            const at = { ...start }
            advance(phaseMap(path, { ...heat, time: (i / 60) * last }), at)
            if (last > 0) expect(at[store]).toBeLessThan(level + 1e-9)
          }
          if (time === null || time === 0) continue
          const at = { ...start }
          advance(phaseMap(path, { ...heat, time }), at)
          expect(at[store]).toBeCloseTo(level, 6)
          reached++
        }
      }),
      { numRuns: 150 },
    )
    expect(reached).toBeGreaterThan(20)
  })

  it('a store above the temperature has reached it at once, one that never gets there does not', () => {
    const map = phaseMap(MOTOR, CLOSED)
    expect(timeToReach(map, HOT, 'inner', 80)).toBe(0)
    expect(timeToReach(map, HOT, 'inner', 91)).toBe(null)
    expect(timeToReach(map, HOT, 'outer', 60)).toBe(null)
  })
})
