// When a standing request runs again: every move of the state machine, and what holds over any sequence of them.
import { advanceStanding, type StandingMoves, settleRun } from '@ductwright/contract/standing-advance'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const window = { quietMs: 60, longestMs: 300 }
const at = (catalogue: string, model = '1') => ({ catalogue, model })

const fresh: StandingMoves = {
  state: 'active',
  revision: 1,
  everyDays: null,
  seen: null,
  changedAt: null,
  firstChangedAt: null,
  settled: null,
  running: false,
  dueAt: null,
}

const answered = (changes: Partial<StandingMoves> = {}): StandingMoves => ({
  ...fresh,
  seen: at('A'),
  settled: { version: at('A'), revision: 1 },
  ...changes,
})

const step = (moves: StandingMoves, version = at('A'), now = 0, confirmed = true) =>
  advanceStanding(moves, version, now, window, confirmed)

describe('a standing request', () => {
  it('answers a new question at once, also before the address is confirmed', () => {
    expect(step(fresh, at('A'), 0, false)).toMatchObject({ run: 'first', moves: { running: true, seen: at('A') } })
    const revised = answered({ revision: 2 })
    expect(step(revised, at('A'), 0, false)).toMatchObject({ run: 'revision' })
    const resumed = answered({ settled: { version: at('A'), revision: -1 } })
    expect(step(resumed).run).toBe('resumed')
  })

  it('waits until a change has settled, and starts one run on the last version', () => {
    let { moves, run } = step(answered(), at('B'), 0)
    expect(run).toBeNull()
    ;({ moves, run } = step(moves, at('C'), 50))
    expect([run, moves.changedAt, moves.firstChangedAt]).toEqual([null, 50, 0])
    ;({ moves, run } = step(moves, at('C'), 109))
    expect(run).toBeNull()
    ;({ moves, run } = step(moves, at('C'), 110))
    expect([run, moves.running, moves.changedAt]).toEqual(['catalogue', true, null])
  })

  it('does not wait for ever for changes to pause', () => {
    let moves = answered()
    let started = null
    for (let now = 0; started === null; now += 50) {
      const next = step(moves, at(`v${now}`), now)
      moves = next.moves
      started = next.run === null ? null : now
    }
    expect(started).toBe(window.longestMs)
  })

  it('says nothing of a change that is taken back', () => {
    const { moves } = step(answered(), at('B'), 0)
    const back = step(moves, at('A'), 10)
    expect(back).toMatchObject({ run: null, moves: { changedAt: null, firstChangedAt: null } })
    expect(step(back.moves, at('A'), 1000).run).toBeNull()
  })

  it('keeps what changes during a run for a run after it', () => {
    const running = answered({ running: true })
    const { moves, run } = step(running, at('B'), 0)
    expect(run).toBeNull()
    const ended = settleRun(moves, { version: at('A'), revision: 1 })
    expect(step(ended, at('B'), 60).run).toBe('catalogue')
    // Back before the run has ended: nothing to do.
    const again = settleRun(step(moves, at('A'), 10).moves, { version: at('A'), revision: 1 })
    expect(step(again, at('A'), 100)).toMatchObject({ run: null, moves: { changedAt: null } })
  })

  it('names the models when only they have changed', () => {
    const { moves } = step(answered(), at('A', '2'), 0)
    expect(step(moves, at('A', '2'), 60).run).toBe('model')
  })

  it('runs on its schedule, and counts the days from there', () => {
    const day = 86_400_000
    const due = answered({ everyDays: 2, dueAt: 5 })
    expect(step(due, at('A'), 4).run).toBeNull()
    expect(step(due, at('A'), 7)).toMatchObject({ run: 'schedule', moves: { dueAt: 7 + 2 * day } })
  })

  it.each([
    ['paused', answered({ state: 'paused' }), true],
    ['deleted', answered({ state: 'deleted' }), true],
    ['unconfirmed', answered({ dueAt: 0 }), false],
  ] as const)('does not run while %s', (_what, moves, confirmed) => {
    const seen = step(moves, at('B'), 0, confirmed)
    expect(step(seen.moves, at('B'), 1e9, confirmed).run).toBeNull()
  })

  it('comes to rest on the version in force, with at most one run for each quiet time, whatever happened', () => {
    const event = fc.record({
      version: fc.constantFrom('A', 'B', 'C'),
      wait: fc.integer({ min: 0, max: 100 }),
      ends: fc.boolean(),
    })
    fc.assert(
      fc.property(fc.array(event, { maxLength: 40 }), (events) => {
        let moves = answered()
        let now = 0
        let pinned = 'A'
        let lastStart = Number.NEGATIVE_INFINITY
        const look = (version: string): void => {
          const next = step(moves, at(version), now)
          if (next.run !== null) {
            expect(now - lastStart).toBeGreaterThanOrEqual(window.quietMs)
            expect(version).not.toBe(moves.settled?.version.catalogue)
            pinned = version
            lastStart = now
          }
          moves = next.moves
        }
        for (const { version, wait, ends } of events) {
          now += wait
          look(version)
          if (ends && moves.running) moves = settleRun(moves, { version: at(pinned), revision: 1 })
        }
        const last = events.at(-1)?.version ?? 'A'
        for (let round = 0; round < 4; round++) {
          if (moves.running) moves = settleRun(moves, { version: at(pinned), revision: 1 })
          now += window.quietMs
          look(last)
        }
        if (moves.running) moves = settleRun(moves, { version: at(pinned), revision: 1 })
        expect(moves.settled?.version).toEqual(at(last))
        expect(step(moves, at(last), now + 1e6).run).toBeNull()
      }),
    )
  })
})
