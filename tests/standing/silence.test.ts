// Silence is correct: over many random edits of a catalogue a mail is sent exactly when brute force says that the answer has
// changed since the last one mailed. Drives the state machine and the comparison that the service runs on, with a clock of
// its own; edits come alone, in bursts, while a run is under way, and are taken back.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { RandomStream } from '@ductwright/catalogue/generate/random'
import { parseRequest } from '@ductwright/contract/parse-request'
import { advanceStanding, type StandingMoves, settleRun } from '@ductwright/contract/standing-advance'
import { changed, type Meaning, meaningOf } from '@ductwright/contract/standing-meaning'
import { answer } from '@ductwright/pipeline/answer'
import { prepare } from '@ductwright/pipeline/prepare'
import { evaluateShard, flyPilot, planShards } from '@ductwright/pipeline/shards'
import { expect, it } from 'vitest'
import { catalogueEdits } from './config.js'
import { edited, tinyCatalogue } from './random-edits.js'
import { type Exhaustive, exhausted, found, resolutionOf, tellsMore } from './tiny-answers.js'

const EDITS = catalogueEdits()
const window = { quietMs: 60_000, longestMs: 900_000 }
const SEED = 20_260_314

/** A standing request over one catalogue, worked by hand as a worker does it. */
class Bench {
  readonly request
  readonly whole: Catalogue
  current: Catalogue
  moves: StandingMoves
  mails = 0
  runs = 0
  now = 0
  readonly #catalogues = new Map<string, Catalogue>()
  #pinned: Catalogue | null = null
  #told: { readonly meaning: Meaning; readonly exhaustive: Exhaustive } | null = null

  constructor(seed: number, random: RandomStream) {
    this.whole = tinyCatalogue(seed)
    this.current = this.whole
    this.request = parseRequest({
      target: { speed_km_h: random.pick([140, 180, 220]) },
      airframe: { id: this.whole.airframes[0]?.part.id },
      profile: { flight_time_min: random.pick([2, 6]) },
      sweep: {
        duties: [0.8, 1],
        nozzle_ratios: [0.86],
        ...(random.share() < 0.25 ? { resolution: { speed_km_h: 0, flight_time_s: 0, cost: 0, margin: 0 } } : {}),
      },
    })
    this.moves = {
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
  }

  edit(random: RandomStream): void {
    this.#catalogues.set(this.current.version, this.current)
    const known = [...this.#catalogues.values()]
    this.current = random.share() < 0.15 ? random.pick(known) : edited(this.current, this.whole, random)
  }

  look(): void {
    const current = { catalogue: this.current.version, model: '1' }
    const next = advanceStanding(this.moves, current, this.now, window, true)
    if (next.run !== null) {
      this.runs += 1
      this.#pinned = this.current
    }
    this.moves = next.moves
  }

  /** Ends the run under way; the mail, if any, against what brute force says. */
  finish(): void {
    if (this.#pinned === null) return
    const meaning = found(this.request, this.#pinned, 1 + (this.runs % 3))
    const exhaustive = exhausted(this.request, this.#pinned)
    const due = this.#told === null || tellsMore(this.#told.exhaustive, exhaustive, resolutionOf(this.request))
    const sent = this.#told === null || changed(this.#told.meaning, meaning)
    expect({ run: this.runs, sent }).toEqual({ run: this.runs, sent: due })
    if (sent) {
      this.mails += 1
      this.#told = { meaning, exhaustive }
    }
    const version = { catalogue: this.#pinned.version, model: '1' }
    this.moves = settleRun(this.moves, { version, revision: 1 })
    this.#pinned = null
  }

  /** Looks and ends runs until nothing is left to do. */
  rest(): void {
    for (let round = 0; round < 6; round++) {
      this.now += window.quietMs
      this.look()
      this.finish()
    }
    expect(this.moves).toMatchObject({ running: false, changedAt: null })
    expect(this.moves.settled?.version.catalogue).toBe(this.current.version)
  }
}

it(`sends a mail exactly when brute force says the answer changed, over ${EDITS} random catalogue edits`, () => {
  const random = new RandomStream(SEED, 'catalogue edits')
  let edits = 0
  const totals = { runs: 0, mails: 0, silentRuns: 0, takenBack: 0 }
  for (let seed = 1; edits < EDITS; seed++) {
    const bench = new Bench(seed, random)
    bench.rest()
    expect(bench).toMatchObject({ runs: 1, mails: 1 })
    for (let round = 0; round < 25 && edits < EDITS; round++) {
      const before = { version: bench.current.version, runs: bench.runs, mails: bench.mails }
      const during = random.share() < 0.2
      for (let n = random.pick([1, 1, 2, 3, 5]); n > 0; n--) {
        bench.edit(random)
        edits += 1
        bench.now += random.whole(0, 20_000)
        if (random.share() < 0.7) bench.look()
      }
      if (during) {
        // One more while a run is under way: it stays pinned, and another follows.
        bench.now += window.quietMs
        bench.look()
        bench.edit(random)
        edits += 1
        bench.look()
      }
      bench.rest()
      const runs = bench.runs - before.runs
      const mails = bench.mails - before.mails
      expect(runs).toBeLessThanOrEqual(during ? 2 : 1)
      if (!during && bench.current.version === before.version) {
        expect({ runs, mails }).toEqual({ runs: 0, mails: 0 })
        totals.takenBack += 1
      }
      expect(mails).toBeLessThanOrEqual(runs)
      totals.silentRuns += runs - mails
    }
    totals.runs += bench.runs
    totals.mails += bench.mails
  }
  // The sample must mean something: mails and silence, and changes that were taken back.
  expect(totals.mails).toBeGreaterThan(EDITS / 20)
  expect(totals.silentRuns).toBeGreaterThan(EDITS / 20)
  expect(totals.takenBack).toBeGreaterThan(EDITS / 200)
}, 1_200_000)

it('compares what whole answers mean: the short way of this test is the long one of the service', () => {
  const random = new RandomStream(SEED, 'whole answers')
  const outcomes = new Set<string>()
  for (let seed = 1; seed <= 6; seed++) {
    const bench = new Bench(seed, random)
    bench.edit(random)
    const ready = prepare(bench.request, bench.current)
    const quiet = { progress() {}, cancelled: () => false }
    const whole = answer(
      ready,
      planShards(ready, flyPilot(ready.problem, ready.plan)).map((range) => evaluateShard(ready, range, quiet)),
    )
    expect(found(bench.request, bench.current, 2)).toEqual(meaningOf(whole))
    outcomes.add(whole.outcome)
  }
  expect(outcomes.size).toBeGreaterThan(1)
})
