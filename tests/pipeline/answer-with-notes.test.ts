// An answer from the notes of an earlier run is the answer without them, byte for byte, whatever has become of the catalogue
// in between; and where only prices have changed and the same setups are listed, nothing is worked out again.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { RandomStream } from '@ductwright/catalogue/generate/random'
import { sha256Hex } from '@ductwright/contract/canonical-json'
import { parseRequest } from '@ductwright/contract/parse-request'
import type { Result } from '@ductwright/contract/result'
import { answer } from '@ductwright/pipeline/answer'
import { type Prepared, prepare } from '@ductwright/pipeline/prepare'
import { evaluateShard, flyPilot, planShards } from '@ductwright/pipeline/shards'
import { WorkedBefore } from '@ductwright/pipeline/worked-before'
import { beforeAll, describe, expect, it } from 'vitest'
import { editedCatalogue } from '../sweep/catalogue-edits.js'
import { randomSweep } from '../sweep/random-sweeps.js'
import { present, quiet, requestOf, workshop } from './workshop.js'

let catalogue: Catalogue

beforeAll(async () => {
  catalogue = await workshop()
})

interface Answered {
  readonly result: Result
  readonly notes: WorkedBefore
}

/** The answer with notes of an earlier run, or none. */
function answered(ready: Prepared, text: string | null = null): Answered {
  const notes = WorkedBefore.from(text)
  return { result: answer(ready, frontsOf(ready), { notes }), notes }
}

function frontsOf(ready: Prepared) {
  const ranges = planShards(ready, flyPilot(ready.problem, ready.plan))
  return ranges.map((range) => evaluateShard(ready, range, quiet))
}

function preparedWith(changes: Record<string, unknown>, listed = catalogue): Prepared {
  return prepare(parseRequest(requestOf(changes)), listed)
}

/** With old notes against without: the same result, and the same notes for the next run. */
function expectSame(ready: Prepared, old: string): Answered {
  const [fresh, noted] = [answered(ready), answered(ready, old)]
  expect(JSON.stringify(noted.result)).toBe(JSON.stringify(fresh.result))
  expect(noted.result).toStrictEqual(fresh.result)
  expect(noted.notes.used()).toBe(fresh.notes.used())
  return noted
}

const linesOf = (text: string) => text.trimEnd().split('\n').length - 1

const measured = { setup: present, speed_km_h: 300, basis: 'steady' }
const owned = [
  { id: 'pack-ambra-6s-5000', count: 2, cell_resistance_mohm: 1.9 },
  { id: 'pack-sarvik-5s-5000', count: 1, cycles: 90 },
]
const QUESTIONS: Readonly<Record<string, Record<string, unknown>>> = {
  plain: {},
  'with a budget': { budget: '1200 EUR' },
  'with a measured setup, work and packs at hand': {
    airframe: { id: 'airframe-vintra-90', measured },
    treatments: ['polish'],
    owned,
    budget: 900,
  },
  'for a whole front': { sweep: { duties: [0.8, 1], nozzle_ratios: [0.8], whole_front: true } },
  'with a wish of its own': { wishes: { expression: 'winding_c * top_power_w - flight_time_s' }, budget: 1500 },
  'that falls short': { target: { speed_km_h: 400 }, budget: 1300 },
  'without an answer': { target: { speed_km_h: 500 } },
}

describe('a question asked again', () => {
  it.each(Object.entries(QUESTIONS))('%s: is answered from its notes alone', (_, changes) => {
    const ready = preparedWith(changes)
    const first = answered(ready)
    const text = first.notes.used()
    const again = expectSame(ready, text)
    expect(again.notes.worked).toBe(0)
    // Every value that was worked out comes back the same from JSON, or it would not be noted.
    expect(linesOf(text)).toBe(first.notes.worked)
    if (first.result.front.length > 0) expect(first.notes.worked).toBeGreaterThan(first.result.front.length)
  })

  it('keeps the notes of its own answer only, and takes none of another question for its own', () => {
    const [one, other] = [{ budget: 1200 }, { target: { speed_km_h: 330 }, field: { elevation_m: 900 }, budget: 1100 }]
    const text = answered(preparedWith(one)).notes.used()
    const after = expectSame(preparedWith(other), text)
    expect(after.notes.worked).toBe(linesOf(after.notes.used()))
    const each = after.result.front.length + 3 * after.result.picks.length + 1
    expect(linesOf(after.notes.used())).toBeLessThanOrEqual(each)
  })
})

describe('after prices have changed', () => {
  /** Every price by another factor of at most a thousandth. */
  function repriced(listed: Catalogue, seed: number, reach = 0.001): Catalogue {
    const random = new RandomStream(seed, 'prices')
    const priced = <Entry extends { readonly price: number }>(entries: readonly Entry[]) =>
      entries.map((entry) => ({ ...entry, price: entry.price * random.between(1 - reach, 1 + reach) }))
    const { version: _, fans, motors, escs, packs, sets, treatments, ...rest } = listed
    return sealCatalogue({
      ...rest,
      fans: priced(fans),
      motors: priced(motors),
      escs: priced(escs),
      packs: priced(packs),
      sets: priced(sets),
      treatments: priced(treatments),
    })
  }

  it.each(Object.entries(QUESTIONS))('%s: nothing is worked out again for the same setups', (_, changes) => {
    const before = answered(preparedWith(changes))
    const setups = ({ front, picks }: Result) =>
      JSON.stringify([
        front
          .map(({ setup }) => setup)
          .map((setup) => JSON.stringify(setup))
          .sort(),
        picks.map(({ pick, rank }) => [pick, front[rank - 1]?.setup]),
      ])
    const same = [1, 2, 3, 4].flatMap((seed) => {
      const ready = preparedWith(changes, repriced(catalogue, seed))
      const after = expectSame(ready, before.notes.used())
      expect(after.result.catalogue.version).not.toBe(before.result.catalogue.version)
      return setups(after.result) === setups(before.result) ? [after.notes.worked] : []
    })
    expect(same.length).toBeGreaterThan(0)
    expect(same).toEqual(same.map(() => 0))
  })

  it('a little of a part moved is worked out again', () => {
    const changes = QUESTIONS['with a budget'] ?? {}
    const before = answered(preparedWith(changes))
    const heavier = sealCatalogue({
      ...catalogue,
      packs: catalogue.packs.map((pack) => ({ ...pack, part: { ...pack.part, mass: pack.part.mass + 1e-9 } })),
    })
    const after = expectSame(preparedWith(changes, heavier), before.notes.used())
    expect(after.notes.worked).toBe(linesOf(after.notes.used()))
  })

  it('other prices of work reach the advice, though its gains stay noted', () => {
    const before = answered(preparedWith({ budget: 1200 }))
    const dear = sealCatalogue({
      ...catalogue,
      treatments: catalogue.treatments.map((work) => ({ ...work, price: 3 * work.price + 7, hours: work.hours + 1 })),
    })
    const after = expectSame(preparedWith({ budget: 1200 }, dear), before.notes.used())
    expect(after.notes.worked).toBe(0)
    const [was, is] = [before, after].map(({ result }) => result.picks[0]?.study.sensitivity)
    expect(is?.treatments[0]?.price).not.toBe(was?.treatments[0]?.price)
    expect(is?.first_move).not.toBe(was?.first_move)
  })
})

describe('after a catalogue has been edited at random', () => {
  it('the answer with the notes of the run before is the answer without', () => {
    let [found, reused, listed] = [0, 0, 0]
    const edits = new Set<string>()
    for (let seed = 1; edits.size < 7 || found < 12; seed++) {
      const { catalogue: start, request, prepared } = randomSweep(seed)
      if (frontsOf(prepared).every(({ members }) => members.length === 0)) continue
      const random = new RandomStream(seed, 'edits under notes')
      let last = answered(prepared)
      let current = start
      for (let step = 0; step < 3; step++) {
        const liked = new Set(
          last.result.front.flatMap(({ setup: { fan, motor, esc, pack } }) => [fan, motor, esc, pack]),
        )
        const edited = editedCatalogue(current, random, liked)
        current = edited.catalogue
        edits.add(edited.edit)
        last = expectSame(prepare(parseRequest(request), current), last.notes.used())
        const lines = linesOf(last.notes.used())
        found += Number(last.result.front.length > 0)
        listed += lines
        reused += lines - last.notes.worked
      }
    }
    expect(reused).toBeGreaterThan(0.2 * listed)
    expect(reused).toBeLessThan(listed)
  }, 240_000)
})

describe('what is noted', () => {
  /** Words and shape of notes, without keys and numbers, which the version of the models stands for. */
  function shapeOf(text: string): string {
    const values = text.trimEnd().split('\n').slice(1)
    return values.map((line) => line.slice(line.indexOf(' ')).replace(/-?\d+(\.\d+)?(e[+-]?\d+)?/g, '#')).join('\n')
  }

  it('has the words and the shape that its form stands for', () => {
    const text = answered(preparedWith({ budget: '1200 EUR' })).notes.used()
    // Another hash here: raise the form in worked-before.ts, so that nothing noted in the old words is taken over.
    expect([text.split(' ')[0], sha256Hex(shapeOf(text)).slice(0, 16)]).toEqual([
      'ductwright-notes/1',
      '33e053fc32c9b2b0',
    ])
  })
})
